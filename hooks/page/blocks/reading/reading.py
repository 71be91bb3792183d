"""A reading: its field, what judges it, and the table for paper and for readers without script."""

from __future__ import annotations

import json
from dataclasses import dataclass

from markupsafe import Markup

from calculators._lib import grid, number_line, shelf, table
from calculators._lib.declare import Calculator, Input, Refusal, Sweep
from hooks.check.limits import bounds
from hooks.model import Page, Reading, Step
from hooks.page import words
from hooks.page.calculator_pages import kept


@dataclass(frozen=True, slots=True)
class ReadingView:
    """All that the template of a reading needs."""

    reading: Reading
    limits: str
    request: str
    """What the calculator is asked beside the typed values, as JSON."""
    calculator: Calculator | None
    typed: tuple[Input, ...]
    """What is typed at the machine: what the page does not give."""
    unit: str
    """What a number in a field that stands alone is in."""
    again: bool
    """Whether the measurement may be done more than once."""
    kept: tuple[tuple[str, tuple[Input, ...]], ...]
    """What belongs to the reader's own things and is entered once."""
    open_words: bool
    """Whether OL is an answer: a key beside the field types it, for keyboards that have no letters."""
    line: Markup
    """The number line before anything was read."""
    table: table.Table | None
    cells: grid.Cells | None

    @property
    def rows(self) -> int:
        """How many rows of fields stand ready."""
        return max((i.rows for i in self.typed), default=1)

    @property
    def several(self) -> bool:
        """Whether there is more to fill in than one value in the unit of the limits."""
        other = [i for i in self.typed if i.units != self.calculator.judged.units and len(i.units) > 1]
        return len(self.typed) > 1 or self.rows > 1 or bool(other)

    @property
    def swept(self) -> str:
        """What stands over the readings of the table."""
        return self.calculator.input(self.calculator.table.input).label

    @property
    def caption(self) -> str:
        """What was assumed for the table."""
        return f"For {self.table.stands_for}. Readings in {self.table.unit}."


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
    typed = _typed(reading, calculator) if calculator else ()
    alone = typed[0] if len(typed) == 1 else None
    own = calculator is None or alone is None or alone.units == calculator.judged.units
    return ReadingView(
        reading,
        words.limits(*bounds(reading)),
        json.dumps(_request(reading)),
        calculator,
        typed,
        reading.unit if own else alone.unit,
        _again(reading, calculator, typed) if calculator else False,
        kept(calculator) if calculator else (),
        bool(alone and alone.open_words),
        Markup(_line(reading) if calculator else ""),
        _table(reading, calculator) if calculator else None,
        _cells(reading, calculator) if calculator else None,
    )


def _typed(reading: Reading, calculator: Calculator) -> tuple[Input, ...]:
    given = dict(reading.given)
    return tuple(i for name in calculator.typed if (i := calculator.input(name)) and name not in given)


def _again(reading: Reading, calculator: Calculator, typed: tuple[Input, ...]) -> bool:
    """Whether one row more can be typed: not where the page gives what stands beside it, once."""
    given = dict(reading.given)
    taken = {i.row for i in calculator.inputs if i.many and i.name in given}
    return any(i.many and i.row not in taken for i in typed)


def judged(page: Page, step: Step) -> Judged | None:
    """What a decision judges, if it was read on another step."""
    if step.judges is None or any(r.id == step.judges for r in step.readings):
        return None
    for other in page.steps:
        for reading in other.readings:
            if reading.id == step.judges:
                return Judged(reading, words.limits(*bounds(reading)), other.number, other.id)
    return None


def _request(reading: Reading) -> dict[str, object]:
    limits = {"low": reading.low, "high": reading.high, "unit": reading.unit}
    return {"fields": dict(reading.given), "limits": limits, "label": reading.label}


def _line(reading: Reading) -> str:
    return number_line.draw(number_line.Line(*bounds(reading), reading.unit))


def _table(reading: Reading, calculator: Calculator) -> table.Table | None:
    if not isinstance(calculator.table, Sweep):
        return None
    asked = _request(reading)
    try:
        return table.table(calculator.id, asked["fields"], asked["limits"])
    except Refusal:
        return None


def _cells(reading: Reading, calculator: Calculator) -> grid.Cells | None:
    return None if isinstance(calculator.table, Sweep) else grid.cells(calculator, dict(reading.given))
