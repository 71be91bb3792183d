"""A calculator as data: its inputs, outputs, formula, sources, example; and what its work hands back.

The form, its checks, the page about the calculator, the printed table and the cases
are all made from the declaration.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

MY_METER = "my meter"
"""The value of `Input.keep` for what belongs to the meter and is entered once a device."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A unit that a value may be typed in: base = typed * factor + offset."""

    text: str
    factor: float = 1.0
    offset: float = 0.0
    also: tuple[str, ...] = ()
    """Other spellings that are understood; case counts."""

    def to_base(self, typed: float) -> float:
        """A number in this unit, in the base unit."""
        return typed * self.factor + self.offset

    def from_base(self, value: float) -> float:
        """A number in the base unit, in this unit."""
        return (value - self.offset) / self.factor


@dataclass(frozen=True, slots=True)
class Option:
    """A word that stands for a value, where an input is picked and not typed."""

    text: str
    value: float


@dataclass(frozen=True, slots=True)
class Input:
    """One field of the form."""

    name: str
    label: str
    units: tuple[Choice, ...] = (Choice(""),)
    """The first is the base unit, and what a bare number is taken in."""
    options: tuple[Option, ...] = ()
    """If there are any, one of these words is picked."""
    low: float | None = None
    high: float | None = None
    """The limits within which a value is believed, in the base unit, both allowed."""
    below: str = ""
    """What a value under `low` most likely means."""
    default: str | None = None
    """Taken where the request leaves the field out; an empty field is never taken as it."""
    required: bool = True
    """A field that is not required may be empty: then the calculator gets None."""
    many: bool = False
    """Several values may be typed."""
    open_words: bool = False
    """OL, open and the like are understood as a circuit that is open (infinity)."""
    keep: str = ""
    """`my meter` if the value belongs to the meter and is entered once; else empty."""
    given: bool = True
    """Whether the page may fill it."""
    hint: str = ""

    @property
    def unit(self) -> str:
        """The base unit as it is shown."""
        return self.units[0].text


@dataclass(frozen=True, slots=True)
class Output:
    """One value that the calculator gives beside its verdict."""

    name: str
    label: str


@dataclass(frozen=True, slots=True)
class Source:
    """Where a formula or rule comes from; `seen` says how much of it was seen."""

    number: int
    text: str
    seen: str


@dataclass(frozen=True, slots=True)
class Example:
    """A worked example: what is typed, and the sentence that must come out."""

    fields: dict[str, str]
    low: float | None
    high: float | None
    unit: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Limits:
    """The limits that a value is judged by, in the base unit; None where there is none."""

    low: float | None
    high: float | None
    unit: Choice
    """The unit they were written in, in which everything is shown."""


@dataclass(frozen=True, slots=True)
class Typed:
    """A number as it was typed: the value, and what one step of its last digit is worth."""

    value: float
    digit: float


@dataclass(frozen=True, slots=True)
class Result:
    """What the work of a calculator hands back; values in the base unit."""

    value: float | None
    """None for a circuit that is open."""
    uncertainty: float | None
    """Expanded, k = 2."""
    verdict: str | None
    """None where there are no limits."""
    kind: str | None = None
    """A name from `Calculator.kinds`, where the value says more than its verdict."""
    tell: tuple[float | None, float | None] = (None, None)
    """The expanded uncertainty of a value at the lower and at the upper limit."""
    outputs: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()
    meter: str = ""
    """The meter that was counted with, in words."""


class Refusal(Exception):
    """A value that is not judged: the field it is about, and why."""

    def __init__(self, field: str, message: str) -> None:
        super().__init__(message)
        self.field = field
        self.message = message


@dataclass(frozen=True, slots=True)
class Calculator:
    """All that is said about one calculator."""

    id: str
    title: str
    summary: str
    inputs: tuple[Input, ...]
    outputs: tuple[Output, ...]
    kinds: tuple[tuple[str, str], ...]
    """Name of a kind and the sentence that says what it means."""
    reading: str
    """The input that is judged."""
    step: str
    """The input that says the smallest step the meter shows."""
    finest: float
    """The finest step that an ordinary meter shows, in the base unit of the reading."""
    formula: tuple[str, ...]
    validity: tuple[str, ...]
    sources: tuple[Source, ...]
    example: Example
    cautions: tuple[str, ...]
    version: str
    work: Callable[..., Result]
    """Called with the inputs by name, and `limits`; may raise Refusal."""

    def input(self, name: str) -> Input | None:
        """The input of that name."""
        return next((i for i in self.inputs if i.name == name), None)

    @property
    def judged(self) -> Input:
        """The input that is judged."""
        return next(i for i in self.inputs if i.name == self.reading)
