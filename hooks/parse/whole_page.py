"""A page put together: front matter, stages, steps."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace

from hooks.diagnostics import StepRef
from hooks.model import Figure, Kind, Message, Page, Shop, Stage, Step
from hooks.parse import attributes, front_matter, page_text, reading_incomplete, step_body
from hooks.parse.figures import within
from hooks.parse.front_matter import Head
from hooks.parse.lines import Body, body
from hooks.parse.links import Stretch, plain
from hooks.parse.notes import Notes
from hooks.parse.result import ParsedPage
from hooks.parse.step_body import Content, Under
from hooks.parse.step_line import StepLine, plain_title, step_line
from hooks.parse.words import OWN_ID
from hooks.source import Source, Span


@dataclass(frozen=True, slots=True)
class Section:
    """A heading of level 1 to 3, or what stands before the first (level 0), with its lines."""

    level: int
    line: int
    first: int
    end: int


def page(source: Source, shop: Shop) -> ParsedPage:
    """One page of the shop: its model as far as it could be read, and what is wrong with it."""
    notes = Notes(source.name)
    head = front_matter.head(source, shop, notes)
    made = _page(source, head, notes) if head else None
    findings = tuple(sorted(notes.found, key=lambda finding: finding.order))
    return ParsedPage(source, made, findings, made is not None and not notes.broken)


def _page(source: Source, head: Head, notes: Notes) -> Page:
    text = body(source, front_matter.body_start(source) or 1)
    page_text.check(text, head.kind, notes)
    return _Maker(source, head, text, notes).page()


def _sections(text: Body) -> Iterator[Section]:
    end = text.start + len(text.lines)
    level, line = 0, text.start - 1
    for number in range(text.start, end):
        found = page_text.HEADING.match(text.line(number))
        if found and text.fence_at(number) is None:
            yield Section(level, line, line + 1, number)
            level, line = len(found[1]), number
    yield Section(level, line, line + 1, end)


class _Maker:
    """Goes through the sections once, in order; `page` then gives the whole."""

    def __init__(self, source: Source, head: Head, text: Body, notes: Notes) -> None:
        self.source = source
        self.head = head
        self.text = text
        self.notes = notes
        self.energies = frozenset(energy.name for energy in head.machine.energies)
        self.span = head.title_span
        self.titled = False
        self.messages: list[Message] = []
        self.late: list[Message] = []
        self.intro: list[str] = []
        self.figures: list[Figure] = []
        self.stages: list[Stage] = []
        self.steps: list[Step] = []

    def page(self) -> Page:
        sections = tuple(_sections(self.text))
        if self.head.kind is Kind.TEXT:
            self.ordinary(sections)
        else:
            self.procedure(sections)
        machine = self.head.machine
        return Page(
            source=self.source,
            kind=self.head.kind,
            id=self.head.id,
            title=self.head.title,
            front=self.head.front,
            appliance=machine.title,
            appliance_id=machine.id,
            models=machine.models,
            energies=machine.energies,
            off_limit=machine.off_limit,
            messages=tuple(self.messages),
            intro="\n\n".join(part for part in self.intro if part),
            stages=tuple(self.stages),
            steps=tuple(self.steps),
            span=self.span,
            figures=tuple(self.figures),
        )

    def ordinary(self, sections: tuple[Section, ...]) -> None:
        title = next((s.line for s in sections if s.level == 1), None)
        numbered = enumerate(self.text.shown, self.text.start)
        lines = (line for number, line in numbered if number != title)
        self.span = self.source.whole_line(title) if title else self.span
        self.intro.append("\n".join(lines).strip("\n"))
        self.figures += within(self.text, self.source.name)

    def procedure(self, sections: tuple[Section, ...]) -> None:
        heads = {s.line: self.head_of(s) for s in sections if s.level == 3}
        ids = _ids(list(heads.values()))
        for section in sections:
            if section.level == 3:
                self.step(section, heads[section.line], ids[len(self.steps)])
            else:
                self.between(section)
        self.closing()

    def head_of(self, section: Section) -> StepLine:
        return step_line(self.text.line(section.line), section.line, self.head.kind, self.notes)

    def between(self, section: Section) -> None:
        """What stands before the first step, or under a stage before its first step."""
        made = self.content(section, Under(self.energies, step=False), None)
        messages = [*made.messages, *made.late_messages]
        (self.late if self.steps else self.messages).extend(messages)
        if section.level == 2:
            title, span = self.heading(section)
            self.stages.append(Stage(title, made.prose, span, made.figures))
            return
        if section.level == 1:
            self.title(section)
        before = sum(len(part) + 2 for part in self.intro if part)
        self.figures += (replace(figure, at=before + figure.at) for figure in made.figures)
        self.intro.append(made.prose)

    def title(self, section: Section) -> None:
        _, span = self.heading(section)
        if self.titled or self.stages or self.steps:
            mend = "Write `##` for a stage or `###` for a step."
            self.by_text(span, "a page has one title, before everything else", mend)
        else:
            self.span, self.titled = span, True

    def heading(self, section: Section) -> tuple[str, Span]:
        text = self.text.line(section.line)
        title, span = plain_title(text[section.level :]), self.source.whole_line(section.line)
        if not title:
            self.by_text(span, "this heading has no words", "Write them, or take it out.")
        if attributes.list_start(text) is not None:
            mend = "Write `###` if it is a step, or take the words in braces out."
            self.by_text(span, "only a step has words in braces", mend)
        step_body.stray(Stretch(text, section.line), self.notes)
        return title, span

    def by_text(self, span: Span, what: str, mend: str) -> None:
        self.notes.by(page_text.__name__).error(span, what, mend)

    def step(self, section: Section, line: StepLine, id: str) -> None:
        facts = line.facts
        under = Under(
            self.energies,
            decides=bool(facts.get("decide") or facts.get("verify")),
            proves=bool(facts.get("verify")),
            ends=bool(facts.get("end")),
        )
        ref = StepRef(id, line.title)
        step_body.stray(Stretch(self.text.line(section.line), section.line), self.notes.within(ref))
        made = self.content(section, under, ref)
        late = (*self.late, *made.late_messages)
        self.late.clear()
        self.steps.append(
            Step(
                number=len(self.steps) + 1,
                id=id,
                id_written=line.id is not None,
                title=line.title,
                stage=len(self.stages) - 1 if self.stages else None,
                span=line.span,
                spans=line.spans,
                messages=tuple(made.messages),
                late_messages=late,
                prose=made.prose,
                figures=made.figures,
                readings=tuple(made.readings),
                ways=tuple(made.ways),
                next=made.next,
                jumpless=tuple(made.jumpless),
                **facts,
            )
        )

    def content(self, section: Section, under: Under, ref: StepRef | None) -> Content:
        return step_body.content(
            self.text, section.first, section.end, under, self.notes.within(ref)
        )

    def closing(self) -> None:
        reading_incomplete.named_and_written(self.steps, self.notes)
        for message in self.late:
            self.by_text(
                message.span, "this message stands before no step", "Put it under its step."
            )
        if not self.steps:
            what = f"a page of kind `{self.head.kind.value}` needs steps"
            self.by_text(self.span, what, "Write `### Title {#id …}`, or `page: text`.")


def slug(title: str) -> str:
    """An id made of a title: its letters and digits in lower case, hyphens between."""
    words = unicodedata.normalize("NFC", plain(title)).lower()
    made = re.sub(r"[\W_]+", "-", words).strip("-") or "step"
    return f"step-{made}" if OWN_ID.fullmatch(made) else made


def _ids(heads: list[StepLine]) -> list[str]:
    """Each step's id, those that are not written made from the titles, and unlike all others."""
    taken = {head.id for head in heads if head.id}
    made: list[str] = []
    for head in heads:
        id = head.id or _free(slug(head.title), taken)
        taken.add(id)
        made.append(id)
    return made


def _free(wanted: str, taken: set[str]) -> str:
    if wanted not in taken:
        return wanted
    return next(f"{wanted}-{n}" for n in range(2, len(taken) + 3) if f"{wanted}-{n}" not in taken)
