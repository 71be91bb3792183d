"""What is said about a result: the same words on the screen, in the table, on the job sheet."""

from __future__ import annotations

from calculators._lib.amounts import said
from calculators._lib.conformity import ABOVE, BELOW, CLOSE, IN, judge
from calculators._lib.declare import Calculator, Limits, Result
from calculators._lib.words import number, with_uncertainty

SIGNS = {IN: "in", BELOW: "below", ABOVE: "above", CLOSE: "close"}
"""The drawn sign of each verdict."""
PLACES = 6
"""So many more digits may be shown, if with fewer the sentence would seem to say otherwise."""


def sentence(calculator: Calculator, result: Result, limits: Limits, system: str) -> str:
    """The verdict with reading, uncertainty and limits, to be read at a glance."""
    if result.sentence:
        return said(result.sentence, system)
    meaning = dict(calculator.kinds).get(result.kind or "", "")
    if result.value is None:
        return meaning
    return f"{shown(result, limits)} {limits.unit.text} {_where(result.verdict, limits)}. {meaning}".strip()


def say(calculator: Calculator, result: Result, limits: Limits, label: str, system: str) -> str:
    """The same, to say aloud to a colleague."""
    if result.verdict is None and result.sentence:
        return f"{label}: {said(result.sentence, system)}"
    verdict = f"{result.verdict}, {limit_words(limits)}" if result.verdict else "no limits to judge by"
    if result.value is None:
        return f"{label}: {result.kind}; {verdict}."
    value, give = parts(result, limits)
    sure = f", give or take {give}" if result.uncertainty else ""
    return f"{label}: {value} {limits.unit.text}{sure}; {verdict}."


def shown(result: Result, limits: Limits) -> str:
    """Value and uncertainty in the unit of the limits: "312 ± 4"."""
    value, give = parts(result, limits)
    return f"{value} ± {give}" if result.uncertainty is not None else value


def parts(result: Result, limits: Limits) -> tuple[str, str]:
    """Value and uncertainty, with as many digits as it takes for them to show their own verdict."""
    unit = limits.unit
    value, give = unit.from_base(result.value), (result.uncertainty or 0.0) / unit.factor
    low, high = (None if v is None else unit.from_base(v) for v in (limits.low, limits.high))
    plain = judge(value, give, low, high)
    texts = with_uncertainty(value, give)
    for extra in range(1, PLACES):
        if judge(*map(_float, texts), low, high) == plain:
            break
        texts = with_uncertainty(value, give, extra)
    return texts


def _float(text: str) -> float:
    return float("".join(text.split()))


def edges(limits: Limits) -> tuple[float | None, float | None]:
    """The limits in their unit as they are shown, to six digits: 1.9 L/min are at least 0.501927 gal/min."""
    low, high = (None if v is None else float(f"{limits.unit.from_base(v):.6g}") for v in (limits.low, limits.high))
    return low, high


def limit_words(limits: Limits) -> str:
    """The limits: "100 to 500", "at least 100", "at most 500"."""
    low, high = (v if v is None else number(v) for v in edges(limits))
    if low is None or high is None:
        return f"at most {high}" if low is None else f"at least {low}"
    return f"{low} to {high}"


def in_general(calculator: Calculator, verdict: str, kind: str | None, limits: Limits) -> str:
    """What a verdict means for any reading that has it, as the printed table says it."""
    if kind:
        return dict(calculator.kinds)[kind]
    if verdict == CLOSE:
        return "May be in or out: the measurement can err by more than is left to the limit."
    where = _where(verdict, limits).removeprefix("is ")
    return f"{where[0].upper()}{where[1:]}, however the measurement errs."


def _where(verdict: str | None, limits: Limits) -> str:
    low, high = (v if v is None else number(v) for v in edges(limits))
    if verdict is None:
        return "was read; there are no limits to judge it by"
    if verdict == CLOSE:
        return f"may be in or out: {limit_words(limits)} is wanted"
    if verdict == IN:
        return f"is between {low} and {high}" if low and high else f"is {limit_words(limits)}"
    edge = low if verdict == BELOW else high
    return f"is {'below' if verdict == BELOW else 'above'} {edge or 'what a good one has'}"
