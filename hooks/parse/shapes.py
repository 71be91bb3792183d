"""What a field may hold: the tables in `fields` are made of these, and a schema can be."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """Text on one line."""


@dataclass(frozen=True, slots=True)
class Name:
    """One word of letters, digits, hyphens and underscores, beginning with a letter or digit."""


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole number from 1."""


@dataclass(frozen=True, slots=True)
class Number:
    """A number with a point as its decimal mark."""


@dataclass(frozen=True, slots=True)
class YesNo:
    """`true` or `false`."""


@dataclass(frozen=True, slots=True)
class Date:
    """A day that exists, YYYY-MM-DD."""


@dataclass(frozen=True, slots=True)
class Duration:
    """How long: `45 min`, `1 h 30 min`."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of these words."""

    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Many:
    """A list, or the word `none`; `[]` only where `empty` says so."""

    of: Shape
    empty: bool = False
    exactly: int | None = None


@dataclass(frozen=True, slots=True)
class Named:
    """Entries under names that the writer chooses."""

    of: Shape
    words: bool = True
    """Whether each name must be one word (`Name`)."""
    empty: bool = False


@dataclass(frozen=True, slots=True)
class Either:
    """A mapping or a list."""

    mapping: Named
    listed: Many


@dataclass(frozen=True, slots=True)
class LineOr:
    """Text on one line, or keys."""

    keyed: Keyed


@dataclass(frozen=True, slots=True)
class Field:
    """One known key."""

    name: str
    shape: Shape
    says: str
    """What it means, one phrase."""
    must: bool = False
    weighs: bool = False
    """Whether the check stands on it."""
    mistaken: tuple[str, ...] = ()
    """Other words that writers use for it."""
    unsaid: str = ""
    """The rule that reports where it is left out or empty; empty: that of the parser."""


@dataclass(frozen=True, slots=True)
class Keyed:
    """A mapping with known keys."""

    fields: tuple[Field, ...]


Shape = (
    Line | Name | Whole | Number | YesNo | Date | Duration | Choice | Many | Named | Either | LineOr | Keyed
)
