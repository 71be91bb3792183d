"""What readers type, and what each must find first: `queries.csv`, one a line.

`finds` is an address in the site, with the step's id where a step is meant; several that are
equally right stand with a bar between. `light` says why the light finder, which has no texts,
need not find it.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Query:
    """One line of the table."""

    who: str
    typed: str
    finds: tuple[str, ...]
    light: str


def queries() -> list[Query]:
    """The whole table."""
    with Path(__file__).with_name("queries.csv").open(newline="", encoding="utf-8") as file:
        return [Query(r["who"], r["typed"], tuple(r["finds"].split("|")), r["light"]) for r in csv.DictReader(file)]
