"""What the front matter of a page says beyond its kind and its machine."""

from __future__ import annotations

from dataclasses import dataclass, field

from hooks.source import Span


@dataclass(frozen=True, slots=True)
class People:
    """Who is needed."""

    number: int
    skill: str


@dataclass(frozen=True, slots=True)
class Part:
    """A part that may be fitted."""

    name: str
    number: str | None
    quantity: int
    span: Span


@dataclass(frozen=True, slots=True)
class Item:
    """One entry of a list in the front matter."""

    text: str
    span: Span


HELD = ("proved", "released", "off")
"""What a condition may say of an energy."""


@dataclass(frozen=True, slots=True)
class Condition:
    """What another page has made true before this one begins."""

    page: str
    """The id of that page."""
    holds: tuple[tuple[str, str, Span], ...]
    """Each energy, one of HELD, and where the energy stands."""
    span: Span


@dataclass(frozen=True, slots=True)
class Front:
    """What the front matter says beyond title, kind, id and machine."""

    revision: str | None = None
    reviewed: str | None = None
    """YYYY-MM-DD."""
    people: People | None = None
    time: str | None = None
    does: str | None = None
    """One sentence: what the machine does when it is well (else the appliance's)."""
    protect: tuple[Item, ...] | None = None
    tools: tuple[Item, ...] | None = None
    supplies: tuple[Item, ...] | None = None
    parts: tuple[Part, ...] | None = None
    before: tuple[Item, ...] | None = None
    condition: Condition | None = None
    """The condition among `before` that another page makes true."""
    after: tuple[Item, ...] | None = None
    symptoms: tuple[Item, ...] | None = None
    spans: dict[str, Span] = field(default_factory=dict)
    """Where each key stands."""
