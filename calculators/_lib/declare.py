"""A calculator as data: its inputs, outputs, formula, sources, example; and what its work hands back.

The form, its checks, the page about the calculator, the printed table and the cases
are all made from the declaration.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from calculators._lib.amounts import Choice, Words
from calculators._lib.chart import Chart

MY_METER = "my meter"
MY_CATCH = "my bucket and watch"
MY_GAUGE = "my pressure gauge"
KEPT = (MY_METER, MY_CATCH, MY_GAUGE)
"""The values of `Input.keep`: what belongs to the reader's own things and is entered once a device."""


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
    rows: int = 1
    """How many stand ready on a page; more where one alone says nothing."""
    row: str = ""
    """Inputs of the same word are typed row by row; empty: with the readings."""
    open_words: bool = False
    """OL, open and the like are understood as a circuit that is open (infinity)."""
    as_typed: bool = False
    """The text itself is handed to the work, which reads it."""
    keep: str = ""
    """One of KEPT if the value belongs to the reader's own things; else empty."""
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
class Quantity:
    """What a calculator works out and judges; the first unit is the base unit."""

    label: str
    units: tuple[Choice, ...]
    low: float | None = None
    high: float | None = None
    """Within which a limit is believed, in the base unit."""


NOTHING = Quantity("", (Choice(""),))
"""The value of `Calculator.judged` where nothing is: no page may give it limits."""


@dataclass(frozen=True, slots=True)
class Sweep:
    """A printed table of verdicts over the readings of one typed input, the others as in the example."""

    input: str
    finest: float
    """The finest step in which it is read, in its base unit."""
    step: str = ""
    """The input that says this step, where the reader can give it."""
    top: float | None = None
    """How far the table goes, in the base unit of the input; None: as far as the limits ask for."""


@dataclass(frozen=True, slots=True)
class Series:
    """The values that one input takes in a printed table, as they would be typed."""

    input: str
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A printed table of one output over one or two inputs, the others as in the example."""

    shows: str
    rows: Series
    columns: Series | None = None


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
    """What the work of a calculator hands back; values in the base unit of what is judged."""

    value: float | None
    """None where there is none: a circuit that is open, a tray that never freezes."""
    uncertainty: float | None
    """Expanded, k = 2; None where nothing was measured."""
    verdict: str | None
    """None where there are no limits."""
    kind: str | None = None
    """A name from `Calculator.kinds`, where the value says more than its verdict."""
    tell: tuple[float | None, float | None] = (None, None)
    """The expanded uncertainty of a value at the lower and at the upper limit."""
    sentence: Words = ""
    """The answer. Empty: it is made from the value, its verdict and the limits."""
    outputs: tuple[tuple[str, Words], ...] = ()
    """The first is the one that is shown large."""
    notes: tuple[Words, ...] = ()
    meter: str = ""
    """The meter, or the bucket and watch, that was counted with, in words."""
    picture: Chart | None = None
    """None: the number line of the value and its limits."""
    limits: Limits | None = None
    """The limits that the work found itself, where the page gave none."""


class Refusal(Exception):
    """A value that is not judged: the field it is about, and why; `row` counts the rows of such fields from 0."""

    def __init__(self, field: str, message: str, row: int = 0) -> None:
        super().__init__(message)
        self.field = field
        self.message = message
        self.row = row


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
    judged: Quantity
    typed: tuple[str, ...]
    """The inputs that are typed at the machine, the reading itself first; a page may give the others."""
    table: Sweep | Grid
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
    def reading(self) -> Input:
        """The input that is read at the machine."""
        return next(i for i in self.inputs if i.name == self.typed[0])
