"""The verdicts of a calculator as a table, for paper and for readers without script.

Worked out when the site is built, by asking the calculator itself. The meter is assumed,
and said in words.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, floor, inf, log10

from calculators._lib import shelf
from calculators._lib.conformity import CLOSE
from calculators._lib.amounts import Choice
from calculators._lib.declare import Calculator, Limits, Refusal, Result, Sweep, Typed
from calculators._lib.fields import Request, as_typed, limits_of, problems, read_request
from calculators._lib.sentence import SIGNS, in_general
from calculators._lib.words import fixed

COUNTS = 2000
"""An ordinary meter counts so far before it shows one digit less (common practice, no source)."""
REACH = 20
"""The table is worked out up to so many times the larger limit,"""
STEPS = 5000
"""and so many steps of the meter, where its step is coarse for the limits."""
TENFOLD = 10
"""A reading so many times beyond a limit mostly has a kind of its own: an open circuit, a short."""


@dataclass(frozen=True, slots=True)
class Row:
    """A stretch of readings with one verdict, first and last as the meter shows them."""

    words: str
    first: float
    last: float
    """In the unit of the table; infinity for an open circuit."""
    verdict: str
    kind: str | None
    word: str
    sign: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Table:
    """The rows from the smallest reading up, and what was assumed."""

    unit: str
    step: float
    """What the meter is taken to show as its last digit, in `unit`."""
    assumed: str
    """The meter, or the jug and watch, in words."""
    beside: str
    """What else is typed, with the value it is taken to have: a table of seconds is one for one volume."""
    rows: tuple[Row, ...]

    @property
    def stands_for(self) -> str:
        """All that the rows hold for, beside the limits."""
        return ", ".join(filter(None, (self.beside, self.assumed)))

    def verdict(self, reading: float) -> str:
        """The verdict of the row that has this reading; between two rows it is too close to call."""
        return next((r.verdict for r in self.rows if r.first <= reading <= r.last), CLOSE)


def table(calculator_id: str, fields: Mapping[str, str], limits: Mapping[str, object]) -> Table:
    """The table for a page's values and limits, both as a request has them, without the reading.

    What is typed at the machine is taken from the worked example. Raises Refusal where a value or a
    limit is refused or there is no limit, KeyError for a calculator that has no such table.
    """
    return _table(calculator_id, json.dumps([dict(fields), dict(limits)], sort_keys=True))


@lru_cache(maxsize=256)
def _table(calculator_id: str, asked: str) -> Table:
    fields, bounds = json.loads(asked)
    calculator = shelf.get(calculator_id)
    if calculator is None or not isinstance(calculator.table, Sweep):
        raise KeyError(calculator_id)
    request, sweep = _understood(calculator, fields, bounds), calculator.table
    swept = calculator.input(sweep.input)
    limits = limits_of(calculator, request)
    if not (limits.low or limits.high):
        raise Refusal("limits", "Limits: there is none to judge by.")
    unit = limits.unit if swept.units == calculator.judged.units else swept.units[0]
    step = request.values.get(sweep.step) or _likely_step(sweep, limits)
    probe = _Probe(calculator, request, limits, unit, step / unit.factor)
    top = REACH * _largest(limits) if sweep.top is None else sweep.top
    near = _near(probe) if swept.units == calculator.judged.units else ()
    spans = _spans(probe, max(STEPS if sweep.top is None else 1, round(top / step)), near)
    beyond = probe.at(inf) if swept.open_words else None
    assumed = (beyond or probe.at(step)).meter
    return Table(unit.text, probe.step, assumed, _beside(calculator, fields), tuple(_rows(probe, spans, beyond)))


def _beside(calculator: Calculator, fields: dict[str, str]) -> str:
    texts = as_typed(calculator, fields)
    others = [calculator.input(n) for n in calculator.typed if n in texts and n != calculator.table.input]
    return ", ".join(f"{i.label.lower()} {_with_unit(texts[i.name], i.unit)}" for i in others)


def _with_unit(text: object, unit: str) -> str:
    return f"{text}" if any(c.isalpha() for c in f"{text}") else f"{text} {unit}".strip()


def _understood(calculator: Calculator, fields: dict[str, str], limits: dict[str, object]) -> Request:
    for refusal in problems(calculator, fields, limits):
        raise refusal
    return read_request(calculator, as_typed(calculator, fields), limits)


def _largest(limits: Limits) -> float:
    return max(abs(v) for v in (limits.low, limits.high) if v is not None)


def _likely_step(sweep: Sweep, limits: Limits) -> float:
    if sweep.top is not None:
        return sweep.finest
    return max(10.0 ** ceil(log10(_largest(limits) / COUNTS)), sweep.finest)


class _Probe:
    """Asks the calculator for the reading at each step of the meter, once."""

    def __init__(self, calculator: Calculator, request: Request, limits: Limits, unit: Choice, step: float) -> None:
        self.calculator, self.limits, self.unit, self.step = calculator, limits, unit, step
        self._given = request.limits
        self._digit = step * unit.factor
        self._swept = calculator.input(calculator.table.input)
        own = {calculator.table.step: self._digit} if calculator.table.step else {}
        self._values = request.values | own
        self._keys: dict[int, tuple[str, str | None, bool] | None] = {}

    def reading(self, index: int) -> float:
        """The reading, in the unit of the table, as it would be typed."""
        return float(f"{index * self.step:.12g}")

    def index(self, value: float) -> float:
        """How many steps of the meter a value is, in the base unit of what is judged."""
        return float(f"{value / self._digit:.12g}")

    def at(self, value: float) -> Result:
        """What the calculator says to that reading, in its base unit."""
        typed = (Typed(value, self._digit),) if self._swept.many else value
        return self.calculator.work(**self._values | {self._swept.name: typed}, limits=self._given)

    def key(self, index: int) -> tuple[str, str | None, bool] | None:
        """Verdict, kind, and which half of the band, so that equal keys have no other between them."""
        if index not in self._keys:
            self._keys[index] = self._key(index)
        return self._keys[index]

    def _key(self, index: int) -> tuple[str, str | None, bool] | None:
        value = self.unit.to_base(self.reading(index))
        if self._swept.low is not None and value < self._swept.low:
            return None
        try:
            found = self.at(value)
        except Refusal:
            return None
        low, high = self.limits.low, self.limits.high
        upper = low is not None and high is not None and found.value is not None and found.value > (low + high) / 2
        return found.verdict, found.kind, upper


def _near(probe: _Probe) -> Iterator[int]:
    """Where the verdict or its kind is likely to be another than one step before; a guess that fails costs a call."""
    low, high = probe.limits.low, probe.limits.high
    for limit, far in ((low, 1 / TENFOLD), (high, TENFOLD)):
        for value in (limit * far, *_edges(probe, limit)) if limit else ():
            yield from (ceil(probe.index(value)) - 1, ceil(probe.index(value)))
    if low and high:
        middle = floor(probe.index((low + high) / 2))
        yield from (middle, middle + 1)


def _edges(probe: _Probe, limit: float) -> tuple[float, ...]:
    """What a reading at the limit may be off by, below and above it."""
    try:
        wide = probe.at(limit).uncertainty or 0.0
    except Refusal:
        return ()
    return limit - wide, limit + wide


def _spans(probe: _Probe, last: int, near: Iterable[int]) -> list[tuple[int, int]]:
    """First and last index of each stretch with one verdict and kind; `near` are looked at first."""
    marks = sorted({0, last, *(i for i in near if 0 < i < last)})
    changes = (i for a, b in zip(marks, marks[1:], strict=False) for i in _changes(probe, a, b))
    starts = [0, *(i for i in changes if _said(probe, i) != _said(probe, i - 1))]
    return list(zip(starts, [i - 1 for i in starts[1:]] + [last], strict=True))


def _said(probe: _Probe, index: int) -> tuple[str, str | None] | None:
    key = probe.key(index)
    return key and key[:2]


def _changes(probe: _Probe, a: int, b: int) -> list[int]:
    if probe.key(a) == probe.key(b):
        return []
    if b - a == 1:
        return [b]
    middle = (a + b) // 2
    return _changes(probe, a, middle) + _changes(probe, middle, b)


def _rows(probe: _Probe, spans: list[tuple[int, int]], beyond: Result | None) -> list[Row]:
    end = spans[-1][1]
    ending = beyond and (beyond.verdict, beyond.kind)
    rows = [_row(probe, a, b, end, ending) for a, b in spans if _said(probe, a)]
    if ending and _said(probe, end) != ending:
        rows.append(_made(probe, "OL", inf, inf, *ending))
    return rows


def _row(probe: _Probe, a: int, b: int, end: int, ending: tuple[str, str | None] | None) -> Row:
    first, last = (fixed(probe.reading(i), probe.step) for i in (a, b))
    first = "0" if a == 0 else first
    words = first if a == b else f"{first} to {last}"
    if b == end:
        words = f"{first} or more" + (", or OL" if _said(probe, b) == ending else "")
        top = inf if _said(probe, b) == ending else 1e300
    else:
        words, top = (f"up to {last}" if a == 0 and b else words), probe.reading(b)
    return _made(probe, words, probe.reading(a), top, *_said(probe, a))


def _made(probe: _Probe, words: str, first: float, last: float, verdict: str, kind: str | None) -> Row:
    general = in_general(probe.calculator, verdict, kind, probe.limits)
    return Row(words, first, last, verdict, kind, verdict.upper(), SIGNS[verdict], general)
