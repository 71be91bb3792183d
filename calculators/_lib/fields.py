"""A request, read: every field understood or refused."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from calculators._lib.amounts import METRIC, Choice, preferred
from calculators._lib.declare import NOTHING, Calculator, Input, Limits, Quantity, Refusal, Typed
from calculators._lib.text_in import pick, read
from calculators._lib.words import number

Value = float | str | tuple[Typed, ...] | None
"""What `work` gets for one input."""
MOST_READINGS = 100


@dataclass(frozen=True, slots=True)
class Request:
    """What was understood, and what was not. With refusals, the rest must not be used."""

    values: dict[str, Value]
    limits: Limits
    refused: tuple[Refusal, ...]


def read_request(
    calculator: Calculator, fields: Mapping[str, object], limits: Mapping[str, object], system: str = METRIC
) -> Request:
    """Read the texts of a form and the limits of its page.

    `limits` has low and high (a number, a text, or None for no limit) and the unit both are in,
    which is also the unit of a reading typed without one; where it is left out, it is that of
    the reader's `system`.
    """
    judged, values = calculator.judged, {}
    refused = [Refusal(n, f"There is no field “{n}” here.") for n in fields if calculator.input(n) is None]
    try:
        bounds = _limits(judged, limits, system)
    except Refusal as refusal:
        bounds = Limits(None, None, judged.units[0])
        refused.append(refusal)
    for to in calculator.inputs:
        same = to is calculator.reading and to.units == judged.units
        try:
            values[to.name] = _value(to, fields, bounds.unit if same else None)
        except Refusal as refusal:
            refused.append(refusal)
    return Request(values, bounds, (*refused, *(() if refused else _gaps(calculator, fields))))


def problems(calculator: Calculator, given: Mapping[str, object], limits: Mapping[str, object]) -> tuple[Refusal, ...]:
    """What is wrong with the values and limits that a page gives: to be found before anybody reads it."""
    own = [n for n in given if (to := calculator.input(n)) and not to.given]
    refused = [Refusal(n, f"“{n}” is typed at the machine, not given by the page.") for n in own]
    return (*refused, *read_request(calculator, as_typed(calculator, given), limits).refused)


def as_typed(calculator: Calculator, given: Mapping[str, object]) -> dict[str, object]:
    """What a page gives, and, for what is typed at the machine, the texts of the worked example."""
    example = calculator.example.fields
    return {name: example[name] for name in calculator.typed if name in example} | dict(given)


def limits_of(calculator: Calculator, request: Request) -> Limits:
    """What is judged by: the limits of the page, or else those that the calculator works out. Raises Refusal."""
    if request.limits.low is not None or request.limits.high is not None:
        return request.limits
    return calculator.work(**request.values, limits=request.limits).limits or request.limits


def own_limits(calculator: Calculator, given: Mapping[str, object], limits: Mapping[str, object]) -> Limits:
    """The same for what a page gives, before anything is read. Raises Refusal."""
    request = read_request(calculator, as_typed(calculator, given), limits)
    for refusal in request.refused:
        raise refusal
    return limits_of(calculator, request)


def _gaps(calculator: Calculator, fields: Mapping[str, object]) -> Iterator[Refusal]:
    """Values typed side by side are whole rows: over a gap, those would be paired that do not belong together."""
    for name in sorted({i.row for i in calculator.inputs if i.many}):
        yield from _gaps_in([(i, _texts(i, fields)) for i in calculator.inputs if i.many and i.row == name])


def _gaps_in(typed: list[tuple[Input, list[str]]]) -> Iterator[Refusal]:
    columns = [(i, [bool(t.strip()) for t in texts]) for i, texts in typed if "".join(texts).strip()]
    for row in range(max((len(there) for _, there in columns), default=0)):
        empty = [i for i, there in columns if not any(there[row : row + 1])]
        if len(empty) < len(columns):
            yield from (Refusal(i.name, f"{i.label}: nothing is typed in row {row + 1}.", row) for i in empty)


def _value(to: Input, fields: Mapping[str, object], bare: Choice | None) -> Value:
    texts = _texts(to, fields)
    if not to.many and len(texts) > 1:
        raise Refusal(to.name, f"{to.label}: one value is wanted.")
    if not "".join(texts).strip():
        return _left_empty(to)
    if to.as_typed:
        return texts[0]
    if to.options:
        return pick(texts[0], to)
    if to.many:
        return _readings(to, fields, bare)
    return read(texts[0], to, bare).value


def _readings(to: Input, fields: Mapping[str, object], bare: Choice | None) -> tuple[Typed, ...]:
    """What is typed row by row; a row may hold several values."""
    rows, found = fields.get(to.name, to.default or ""), []
    for row, typed in enumerate(rows if isinstance(rows, list) else [rows]):
        try:
            found += [read(text, to, bare) for text in _parts(to, typed) if text.strip()]
        except Refusal as refusal:
            raise Refusal(to.name, refusal.message, row) from None
    return tuple(found)


def _parts(to: Input, typed: object) -> list[str]:
    return re.split(r"[;\n]", _text(to, typed)) if to.many else [_text(to, typed)]


def _texts(to: Input, fields: Mapping[str, object]) -> list[str]:
    typed = fields.get(to.name, to.default or "")
    texts = [part for one in (typed if isinstance(typed, list) else [typed]) for part in _parts(to, one)]
    if len(texts) > MOST_READINGS:
        raise Refusal(to.name, f"{to.label}: no more than {MOST_READINGS} values.")
    return texts


def _text(to: Input, typed: object) -> str:
    if isinstance(typed, bool) or not isinstance(typed, (str, int, float, type(None))):
        raise Refusal(to.name, f"{to.label}: a number is wanted.")
    return "" if typed is None else str(typed)


def _left_empty(to: Input) -> None:
    if to.required:
        usual = f" Usual: {to.default}." if to.default else ""
        raise Refusal(to.name, f"{to.label}: nothing is typed yet.{usual}")


def _limits(judged: Quantity, limits: Mapping[str, object], system: str) -> Limits:
    if judged is NOTHING and (limits.get("low") is not None or limits.get("high") is not None):
        raise Refusal("limits", "Limits: nothing is judged here.")
    unit = _unit(judged, limits.get("unit"), system)
    low = _limit("low", "Lower limit", judged, unit, limits)
    high = _limit("high", "Upper limit", judged, unit, limits)
    if low is not None and high is not None and low >= high:
        between = f"{number(unit.from_base(low))} is not below {number(unit.from_base(high))}"
        raise Refusal("limits", f"Limits: {between}. Nothing can be judged by them.")
    return Limits(low, high, unit)


def _unit(judged: Quantity, text: object, system: str) -> Choice:
    if text is None:
        return preferred(judged.units, system)
    unit = next((u for u in judged.units if text == u.text or text in u.also), None)
    if unit is None:
        known = ", ".join(u.text for u in judged.units)
        raise Refusal("limits", f"Limits: “{text}” is not a unit of this calculator; it knows {known}.")
    return unit


def _limit(name: str, label: str, judged: Quantity, unit: Choice, limits: Mapping[str, object]) -> float | None:
    typed = limits.get(name)
    if typed is None:
        return None
    to = Input(name, label, judged.units, low=judged.low, high=judged.high)
    return read(_text(to, typed), to, unit).value
