"""A page and what stands on it, down to one way out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from hooks.model.figure import Figure
from hooks.model.front import Front
from hooks.model.shop import Energy, Guard, Model
from hooks.source import Place, Source, Span


class Kind(StrEnum):
    """The kinds of page."""

    PROCEDURE = "procedure"
    SELF_CHECK = "self-check"
    SHARED_STEPS = "shared-steps"
    TEXT = "text"
    """An ordinary page without steps."""


@dataclass(frozen=True, slots=True)
class Message:
    """A safety message: signal word, the energies it covers, title, text."""

    word: str
    """danger, warning, caution or notice."""
    energies: tuple[str, ...]
    title: str
    text: str
    """Markdown, without the indent."""
    span: Span


@dataclass(frozen=True, slots=True)
class WayOut:
    """A jump: a bullet with one link, or a `Next:` line (words empty)."""

    words: str
    """What stands before the link, plain: "Proved, 0 V"."""
    verdict: str | None
    """One of VERDICTS or PROOFS in lower case, where the bullet begins with it in bold."""
    label: str
    """The words of the link, plain."""
    target: str
    """The id of the step it leads to."""
    span: Span
    bound: Place | None = None
    """Where it is said to which step it leads, if not here: at the line that uses the shared steps."""


ORIGINAL = "en"
LANGUAGES = (ORIGINAL, "de")
"""The languages that customers' pages may be in: the original, and those that the site has words for."""
_IN_LANGUAGE = re.compile(r"(?P<original>.+)\.(?P<language>[a-z]{2})\.md")

VERDICTS = ("in limits", "out of limits", "below limits", "above limits", "too close to call")
PROOFS = ("proved", "not proved")


@dataclass(frozen=True, slots=True)
class Reading:
    """A value that the technician reads and types."""

    id: str
    label: str
    unit: str
    low: float | None
    """The lower limit, in `unit`; None where there is only `at-most`."""
    high: float | None
    """The upper limit, in `unit`; None where there is only `at-least`."""
    calculator: str | None
    given: tuple[tuple[str, str], ...]
    """Values the page knows, as written: name of the calculator's input, text."""
    span: Span


@dataclass(frozen=True, slots=True)
class Stage:
    """A `##` heading: a stretch of the job."""

    title: str
    intro: str
    """Markdown between the heading and its first step."""
    span: Span
    figures: tuple[Figure, ...] = ()
    """Those between the heading and its first step."""


@dataclass(frozen=True, slots=True)
class Step:
    """A `###` heading with its body. Energy names stand as written, each with its span in `spans`."""

    number: int
    """Its place on the page, from 1."""
    id: str
    id_written: bool
    title: str
    stage: int | None
    """Index into Page.stages."""
    span: Span
    """The heading line."""
    spans: tuple[tuple[str, Span], ...]
    """Where each word of the attribute list stands, in source order; the entries of a list
    stand as word and entry: ("isolate", …), ("isolate water", …)."""
    file: str = ""
    """The file it is written in; empty for that of its page."""
    used: tuple[Place, ...] = ()
    """For a step of shared steps the lines that use them, that of the page first."""
    # effects
    isolate: tuple[str, ...] = ()
    release: tuple[str, ...] = ()
    verify: tuple[str, ...] = ()
    restore: tuple[str, ...] = ()
    test: tuple[str, ...] = ()
    check: bool = False
    ready: bool = False
    work: bool = False
    """Written `work`; see `hands_on` for what that implies."""
    end: str | None = None
    # facts
    decide: bool = False
    clear: bool = False
    for_test: bool = False
    optional: bool = False
    at: str | None = None
    opens: tuple[str, ...] = ()
    closes: tuple[str, ...] = ()
    judges: str | None = None
    reads: tuple[str, ...] = ()
    only: Guard | None = None
    time: str | None = None
    wait: str | None = None
    needs: tuple[str, ...] = ()
    installs: tuple[str, ...] = ()
    skill: str | None = None
    people: int | None = None
    uses: str | None = None
    without: tuple[str, ...] = ()
    outcome: str | None = None
    cause: str | None = None
    then: str | None = None
    allow: tuple[str, ...] = ()
    """The rules whose warnings and notes are let stand here, for the reason in `because`."""
    because: str | None = None
    # body
    messages: tuple[Message, ...] = ()
    late_messages: tuple[Message, ...] = ()
    """Messages that stand after the instruction: an error, but the analysis must not count them."""
    prose: str = ""
    """Markdown: the body without messages, figures, readings and ways out."""
    figures: tuple[Figure, ...] = ()
    readings: tuple[Reading, ...] = ()
    ways: tuple[WayOut, ...] = ()
    """The bullets that jump, in source order."""
    next: WayOut | None = None
    """The `Next:` line."""
    jumpless: tuple[Span, ...] = ()
    """Bullets among ways out (or of a decision or proof) that have no jump, or more than one."""

    @property
    def told(self) -> str:
        """Markdown: the prose, and what is said at its figures."""
        return "\n\n".join((self.prose, *(figure.said for figure in self.figures))) if self.figures else self.prose

    @property
    def marked(self) -> bool:
        """Whether any word says what kind of step it is. Unmarked means hands-on."""
        effect = self.isolate or self.release or self.verify or self.restore or self.test
        return bool(effect or self.check or self.ready or self.work or self.decide or self.end or self.uses)

    @property
    def hands_on(self) -> bool:
        """Whether hands go to the machine beyond its user controls (analysis: "work")."""
        return self.work or not self.marked or bool(self.opens or self.closes or self.installs)

    @property
    def measures(self) -> bool:
        """Whether a reading or a tool is taken without saying how: more than thinking or a switch."""
        told = self.check or self.ready or self.verify or self.test or self.hands_on
        return bool(self.reads or (self.decide and self.needs)) and not told

    def span_of(self, word: str) -> Span:
        """Where `word` stands on the step line; the heading if it was not written."""
        return dict(self.spans).get(word, self.span)


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the shop."""

    source: Source
    kind: Kind
    id: str
    title: str
    front: Front
    appliance: str
    """The title of the appliance, as shown."""
    appliance_id: str | None
    """Its key in the shop facts; None for a page that declares its own."""
    models: tuple[Model, ...]
    energies: tuple[Energy, ...]
    off_limit: str | None
    messages: tuple[Message, ...]
    """The messages before the first step, for the whole page."""
    intro: str
    """Markdown before the first stage or step, without the messages and the title."""
    stages: tuple[Stage, ...]
    steps: tuple[Step, ...]
    span: Span
    """The line of the title."""
    shared: tuple[Page, ...] = ()
    """The pages of shared steps that are drawn in on it, each once."""
    figures: tuple[Figure, ...] = ()
    """Those of its `intro`."""

    @property
    def language(self) -> str:
        """The language that the file's name gives: "de" for `no-ice.de.md`, else that of the original."""
        return _in_language(self.source.name)[1]

    @property
    def original(self) -> str:
        """The name of the file that this page translates: `no-ice.md` for `no-ice.de.md`; else its own."""
        return _in_language(self.source.name)[0]

    def figured(self) -> Iterator[tuple[Step | None, tuple[Figure, ...]]]:
        """The figures of each stretch of text that has any, with its step; those of shared steps too."""
        yield from ((None, part.figures) for part in (self, *self.stages) if part.figures)
        yield from ((step, step.figures) for step in self.steps if step.figures)

    def step(self, id: str) -> Step | None:
        """The step with that id."""
        return next((s for s in self.steps if s.id == id), None)

    def step_at(self, line: int) -> Step | None:
        """The step in whose lines that line of the page's own file stands."""
        return next((s for s in reversed(self.steps) if not s.used and s.span.line <= line), None)

    def reading(self, id: str) -> Reading | None:
        """The reading with that id, on whichever step it stands."""
        return next((r for s in self.steps for r in s.readings if r.id == id), None)

    def source_of(self, step: Step) -> Source:
        """The file that the step is written in."""
        return next((p.source for p in self.shared if p.source.name == step.file), self.source)

    def fitted(self, model: Model) -> tuple[Energy, ...]:
        """The energies that `model` has."""
        return tuple(e for e in self.energies if e.only is None or e.only.holds(model.options))


@lru_cache(maxsize=4096)
def _in_language(name: str) -> tuple[str, str]:
    """The name of the original and the language, by the name of a file; asked for at every step of a page."""
    named = _IN_LANGUAGE.fullmatch(name)
    return (f"{named['original']}.md", named["language"]) if named else (name, ORIGINAL)
