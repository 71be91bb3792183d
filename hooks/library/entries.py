"""What the library is made of: frozen, in the order in which it is shown."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hooks.model import Kind, LANGUAGES, ORIGINAL, Part, People


@dataclass(frozen=True, slots=True)
class StepEntry:
    """One step of such a page."""

    id: str
    title: str
    stage: str
    """See `stages.of_step`; may be empty."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One page that a reader may be led to."""

    name: str
    """The name of its file, as in `Source.name`."""
    address: str
    """Where it stands in the site, from the site's root."""
    id: str
    kind: Kind
    title: str
    appliance: str
    machine: str
    """The `id` of its machine; empty for an ordinary page."""
    models: tuple[str, ...]
    does: str
    """One sentence: what the machine does when it is well; may be empty."""
    time: str
    """As written ("45 min"); empty where the page does not say."""
    people: People | None
    revision: str
    reviewed: str
    """YYYY-MM-DD; empty where the page does not say."""
    symptoms: tuple[str, ...]
    tools: tuple[str, ...]
    parts: tuple[Part, ...]
    """Its own and those of the shared steps drawn on it."""
    calculators: tuple[str, ...]
    stage: str
    """What it is for, see `stages.of_page`; may be empty."""
    steps: tuple[StepEntry, ...]
    shared: tuple[str, ...] = ()
    """The ids of the pages of shared steps that are drawn in on it."""
    language: str = ORIGINAL
    translates: str = ""
    """The name of the file that it translates; empty for an original."""


@dataclass(frozen=True, slots=True)
class Symptom:
    """What someone sees, and the pages that deal with it."""

    text: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class PartUse:
    """A part, by its number where it has one."""

    number: str
    names: tuple[str, ...]
    """All the names it goes by; one is usual."""
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class ToolUse:
    """A tool and the pages that ask for it."""

    name: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class ReadingUse:
    """A reading that a calculator judges."""

    label: str
    step: int
    anchor: str
    """The id of the step."""
    entry: Entry


@dataclass(frozen=True, slots=True)
class CalculatorUse:
    """A calculator and the readings that it judges."""

    id: str
    readings: tuple[ReadingUse, ...]


@dataclass(frozen=True, slots=True)
class Machine:
    """An appliance and its pages."""

    id: str
    title: str
    models: tuple[str, ...]
    does: str
    energies: tuple[str, ...]
    procedures: tuple[Entry, ...]
    self_checks: tuple[Entry, ...]

    @property
    def entries(self) -> tuple[Entry, ...]:
        """All its pages."""
        return self.procedures + self.self_checks


@dataclass(frozen=True, slots=True)
class Library:
    """All pages of a shop together."""

    entries: tuple[Entry, ...]
    machines: tuple[Machine, ...]
    customer_symptoms: tuple[Symptom, ...]
    """What customers see, each leading to self-checks."""
    technician_symptoms: tuple[Symptom, ...]
    parts: tuple[PartUse, ...]
    tools: tuple[ToolUse, ...]
    calculators: tuple[CalculatorUse, ...]
    translations: tuple[Entry, ...] = ()
    """Customers' pages in other languages; everything else here is of the originals."""

    @property
    def languages(self) -> tuple[str, ...]:
        """The languages, beside the original, that some customers' page is in."""
        there = {e.language for e in self.translations}
        return tuple(code for code in LANGUAGES if code in there)

    @property
    def texts(self) -> tuple[Entry, ...]:
        """The shop's ordinary pages."""
        return tuple(e for e in self.entries if e.kind is Kind.TEXT)

    @property
    def led_to(self) -> tuple[object, ...]:
        """All of it that the pages which no one wrote are drawn from: each entry once, and without its steps."""
        entries = tuple(_without_steps(entry) for entry in self.entries)
        machines = tuple(replace(m, procedures=(), self_checks=()) for m in self.machines)
        uses = tuple((c.id, tuple(replace(r, entry=_without_steps(r.entry)) for r in c.readings)) for c in self.calculators)
        return entries, self.translations, machines, uses

    def entry(self, name: str) -> Entry | None:
        """The entry of the file of that name."""
        return next((e for e in self.entries if e.name == name), None)

    def machine(self, id: str) -> Machine | None:
        """The machine with that id."""
        return next((m for m in self.machines if m.id == id), None)

    def uses_of(self, calculator: str) -> tuple[ReadingUse, ...]:
        """The readings that a calculator judges."""
        found = (c.readings for c in self.calculators if c.id == calculator)
        return next(found, ())


def _without_steps(entry: Entry) -> Entry:
    return replace(entry, steps=())
