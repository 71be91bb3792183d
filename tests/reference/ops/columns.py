"""What the rows of every file share: numbers out of their columns, texts typed into a calculator."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from math import isfinite

from calculators._lib import entry

Row = dict[str, str]
Got = dict[str, object]


@dataclass(frozen=True)
class Robust:
    """How the rows of bad texts reach one calculator: each text is typed into one field of a good request."""

    calculator: str
    columns: dict[str, str]
    """Columns of the rows, and the field (or `low`, `high` of the limits) that each is typed into."""
    fields: dict[str, object]
    limits: dict[str, object] = field(default_factory=dict)

    def typed(self, column: str, text: str) -> dict:
        """The answer with that text in the field of that column."""
        name = self.columns[column]
        own = {name: text}
        if name in ("low", "high"):
            return answer(self.calculator, self.fields, self.limits | own)
        return answer(self.calculator, self.fields | own, self.limits)


def answer(calculator: str, fields: dict[str, object], limits: dict[str, object]) -> dict:
    """What the page would get."""
    return json.loads(entry.answer(calculator, json.dumps({"fields": fields, "limits": limits, "label": "Row"})))


def number(row: Row, column: str, empty: float | None = None) -> float:
    """The number in a column; raises ValueError where it is none and nothing stands for an empty one."""
    text = row.get(column) or ""
    if not text and empty is not None:
        return empty
    value = float(text)
    if not isfinite(value):
        raise ValueError(f"{column} is not a number")
    return value


def limit(row: Row, column: str) -> float | None:
    """The same, None where the column is empty."""
    return number(row, column) if row.get(column) else None
