"""A reading: its field, what judges it, and the table for paper and for readers without script."""

from __future__ import annotations

import json
from dataclasses import dataclass

from markupsafe import Markup

from calculators._lib import number_line, shelf, table
from calculators._lib.declare import MY_METER, Calculator, Input, Refusal
from hooks.model import Page, Reading, Step
from hooks.page import words


@dataclass(frozen=True, slots=True)
class ReadingView:
    """All that the template of a reading needs."""

    reading: Reading
    limits: str
    request: str
    """What the calculator is asked beside the typed values, as JSON."""
    calculator: Calculator | None
    meter: tuple[Input, ...]
    """What belongs to the meter and is entered once."""
    open_words: bool
    """Whether OL is an answer: a key beside the field types it, for keyboards that have no letters."""
    line: Markup
    """The number line before anything was read."""
    table: table.Table | None


@dataclass(frozen=True, slots=True)
class Judged:
    """The reading that a decision judges, for a decision that stands on a step of its own."""

    reading: Reading
    limits: str
    number: int
    id: str


def of(step: Step, reading: Reading) -> ReadingView:
    """A reading, ready to be drawn."""
    calculator = shelf.get(reading.calculator) if reading.calculator else None
    kept = calculator.inputs if calculator else ()
    return ReadingView(
        reading,
        words.limits(reading.low, reading.high),
        json.dumps(_request(reading)),
        calculator,
        tuple(i for i in kept if i.keep == MY_METER),
        any(i.open_words for i in kept if i.name == calculator.reading) if calculator else False,
        Markup(_line(reading) if calculator else ""),
        _table(reading) if calculator else None,
    )


def judged(page: Page, step: Step) -> Judged | None:
    """What a decision judges, if it was read on another step."""
    if step.judges is None or any(r.id == step.judges for r in step.readings):
        return None
    for other in page.steps:
        for reading in other.readings:
            if reading.id == step.judges:
                return Judged(reading, words.limits(reading.low, reading.high), other.number, other.id)
    return None


def _request(reading: Reading) -> dict[str, object]:
    limits = {"low": reading.low, "high": reading.high, "unit": reading.unit}
    return {"fields": dict(reading.given), "limits": limits, "label": reading.label}


def _line(reading: Reading) -> str:
    return number_line.draw(number_line.Line(reading.low, reading.high, reading.unit))


def _table(reading: Reading) -> table.Table | None:
    asked = _request(reading)
    try:
        return table.table(reading.calculator or "", asked["fields"], asked["limits"])
    except Refusal:
        return None
