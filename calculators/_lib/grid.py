"""Answers of a calculator as a table over one or two inputs, for paper and for readers without script."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calculators._lib.declare import Calculator, Grid, Series
from calculators._lib.entry import answer_to
from calculators._lib.fields import as_typed

NONE = "no answer"
"""What a cell says whose values the calculator refuses together."""
BARE = Series("", ("",))


@dataclass(frozen=True, slots=True)
class Cells:
    """The table in words."""

    corner: str
    """What the rows are."""
    across: str
    """What the columns are; empty where there is one."""
    columns: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    shows: str
    """What stands in the cells."""


def cells(calculator: Calculator, fields: Mapping[str, str]) -> Cells:
    """The table for a page's values; what is typed at the machine is taken from the worked example.

    Raises KeyError for a calculator that has no such table.
    """
    grid = calculator.table
    if not isinstance(grid, Grid):
        raise KeyError(calculator.id)
    columns = grid.columns or BARE
    typed = as_typed(calculator, fields)
    rows = tuple((r, tuple(_cell(calculator, typed, grid, r, c) for c in columns.texts)) for r in grid.rows.texts)
    output = next(o for o in calculator.outputs if o.name == grid.shows)
    return Cells(_label(calculator, grid.rows), _label(calculator, columns), columns.texts, rows, output.label)


def _cell(calculator: Calculator, typed: dict[str, str], grid: Grid, row: str, column: str) -> str:
    own = {grid.rows.input: row} | ({grid.columns.input: column} if grid.columns else {})
    found = answer_to(calculator.id, {"fields": typed | own})
    return next((o["text"] for o in found["outputs"] if o["name"] == grid.shows), NONE)


def _label(calculator: Calculator, series: Series) -> str:
    return calculator.input(series.input).label if series.input else ""
