"""What is true of a shop and its machines, said once."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hooks.diagnostics import Level
from hooks.source import Source, Span


@dataclass(frozen=True, slots=True)
class Guard:
    """`only="hot-fill"` or `only="not hot-fill"`."""

    option: str
    negated: bool
    span: Span

    def holds(self, options: frozenset[str]) -> bool:
        """Whether a machine with these options has what is guarded."""
        return (self.option in options) is not self.negated


@dataclass(frozen=True, slots=True)
class Model:
    """A model of an appliance and the options fitted to it."""

    name: str
    options: frozenset[str]
    span: Span


@dataclass(frozen=True, slots=True)
class Energy:
    """One energy of an appliance."""

    name: str
    points: tuple[str, ...]
    """Isolating points, the usual one first; empty for a stored energy."""
    trapped: bool
    """Something stays in after shutting off."""
    charged_by: str | None
    """The energy that makes this one, if it is stored."""
    only: Guard | None
    lowest_word: str | None
    """The mildest signal word a message about it may carry."""
    file: str
    span: Span

    @property
    def stored(self) -> bool:
        """Stored energies have no supply to cut: their feeder is cut, then they are let out."""
        return self.charged_by is not None

    @property
    def needs_release(self) -> bool:
        """Whether it must be let out before a proof can hold."""
        return self.trapped or self.stored


@dataclass(frozen=True, slots=True)
class Appliance:
    """What is true of a machine, said once."""

    id: str
    title: str
    models: tuple[Model, ...]
    energies: tuple[Energy, ...]
    off_limit: str | None
    """How long it may stand without power, as written ("2 h")."""
    does: str | None
    """One sentence: what it does when it is well."""
    span: Span
    translated: tuple[tuple[str, str], ...] = ()
    """Its title in other languages: language, title."""


@dataclass(frozen=True, slots=True)
class Raised:
    """A rule whose findings weigh more in this shop."""

    rule: str
    level: Level
    """What its findings weigh at least."""
    span: Span


@dataclass(frozen=True, slots=True)
class Shop:
    """The shop facts: `procedures/shop.yml`."""

    source: Source | None
    """None where the shop has no such file."""
    name: str = ""
    phone: str = ""
    hours: str = ""
    mail: str = ""
    """Where a customer may send the answers of a self-check; empty where the shop takes none."""
    about: str = ""
    """Any more words about the shop, shown at the foot of each page."""
    clearing: str = "Tools out, hands out, people back."
    away_limit: str = "30 min"
    """After how long a break proofs count no more, as written."""
    skills: tuple[str, ...] = ("basic", "live testing")
    live_skills: tuple[str, ...] = ("live testing",)
    """The skills that may carry out `test` steps."""
    reading_grade: int = 6
    """The school grade above which a customer's question is too hard to read."""
    trade_words: tuple[tuple[str, str], ...] = ()
    """Words of the trade and what each means, for customers."""
    raised: tuple[Raised, ...] = ()
    appliances: tuple[Appliance, ...] = ()
    unread: tuple[str, ...] = ()
    """Words and titles of appliances whose facts have errors, and so are left out."""
    translated: tuple[tuple[str, str, str], ...] = ()
    """What customers read of it in other languages: language, `hours` or `about`, text."""

    def within(self, language: str) -> Shop:
        """The same shop as its customers read of it in that language; what has no translation stays."""
        own = {key: text for code, key, text in self.translated if code == language}
        titled = (replace(a, title=dict(a.translated).get(language, a.title)) for a in self.appliances)
        return replace(self, appliances=tuple(titled), **own)
