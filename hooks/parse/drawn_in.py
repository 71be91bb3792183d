"""Shared steps put in the place of the line that uses them, as if they were written there.

The first of them takes the id of that line, each other one has it before its own, with a point
between: no id that is written holds one, so none can clash. Where the shared steps go on, by the
end of their page or by `end="goes on"`, they go on where the line that uses them says.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import PurePosixPath
from posixpath import relpath

from hooks.diagnostics import StepRef
from hooks.model import Guard, Page, Step, WayOut
from hooks.parse.notes import Notes, choose
from hooks.parse.words import GOES_ON
from hooks.source import Place

ALLOWED = ("id", "uses", "only")
"""The words of a line that uses shared steps."""
_TARGET = re.compile(r"(\]\(\s*<?|^ {0,3}\[[^\]]*\]:\s*<?)([^\s()<>#]+)", re.MULTILINE)
_ELSEWHERE = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:|/")


def drawn_in(page: Page, uses: Mapping[str, Page], notes: Notes) -> Page:
    """The page with the steps of the pages that it uses, by the id of the step that uses each.

    What cannot be put in place is written down, and then the page is not to be trusted.
    """
    steps: list[Step] = []
    ids = {step.id for step in page.steps}
    for step in page.steps:
        used = uses.get(step.id) if step.uses else None
        if used is None:
            steps.append(step)
        else:
            steps += _Use(page, step, used, ids, notes.within(StepRef(step.id, step.title))).steps()
    numbered = tuple(replace(step, number=number) for number, step in enumerate(steps, 1))
    found = {p.source.name: p for used in uses.values() for p in (used, *used.shared)}
    return replace(page, steps=numbered, shared=tuple(found.values()))


class _Use:
    """One line that uses shared steps."""

    def __init__(self, page: Page, line: Step, used: Page, ids: set[str], notes: Notes) -> None:
        self.line = line
        self.used = used
        self.notes = notes
        self.place = Place(page.source.name, line.span)
        self.exits = [s for s in used.steps if s.end == GOES_ON]
        self.kept = [s for s in used.steps if s.end != GOES_ON]
        self.bound = self._bound(ids)
        self.ids = {s.id: self._id(s) for s in self.kept}
        self.readings = {r.id: f"{line.id}.{r.id}" for s in used.steps for r in s.readings}

    def _id(self, step: Step) -> str:
        return self.line.id if step is self.kept[0] else f"{self.line.id}.{step.id}"

    def _bound(self, ids: set[str]) -> dict[str, list[WayOut]]:
        """By the id of each end that goes on: the ways out of the using line that say where, in other words after it."""
        found: dict[str, list[WayOut]] = {}
        for way in self.line.ways:
            ends = [e for e in self.exits if _further(way.words, e.title) is not None]
            if not ends:
                what = f'"{way.words}" begins with no end of these shared steps that goes on'
                self.notes.error(way.span, what, choose(way.words, [step.title for step in self.exits]))
            else:
                end = max(ends, key=lambda e: len(e.title))
                found.setdefault(end.id, []).append(replace(way, words=_further(way.words, end.title) or ""))
        for step in self.exits:
            if step.id not in found:
                what = f'it is not said where the shared steps go on after "{step.title}"'
                mend = f"Write `- {step.title}: […](#…)` under it."
                self.notes.error(self.line.span, what, mend)
        for way in (*self.line.ways, *((self.line.next,) if self.line.next else ())):
            if way.target not in ids:
                mend = f"{choose(way.target, ids - {self.line.id})} Or give the step that is meant this id."
                self.notes.error(way.span, f"`#{way.target}` is no step of this page", mend)
        return found

    def steps(self) -> Iterator[Step]:
        """The shared steps as they stand on the using page."""
        following = [*self.used.steps[1:], None]
        for step, after in zip(self.used.steps, following, strict=True):
            if step.end != GOES_ON:
                yield self._step(step, after)

    def _step(self, step: Step, after: Step | None) -> Step:
        return replace(
            step,
            id=self.ids[step.id],
            id_written=step is self.kept[0] or step.id_written,
            stage=self.line.stage,
            file=step.file or self.used.source.name,
            used=(self.place, *step.used),
            only=self._guard(step),
            ways=tuple(led for way in step.ways for led in self._ways(way)),
            next=self._next(step, after),
            prose=self._moved(step.prose),
            figures=tuple(replace(f, listed=self._moved(f.listed)) for f in step.figures),
            messages=tuple(replace(m, text=self._moved(m.text)) for m in step.messages),
            readings=tuple(replace(r, id=self.readings[r.id]) for r in step.readings),
            reads=tuple(self.readings.get(id, id) for id in step.reads),
            judges=self.readings.get(step.judges, step.judges) if step.judges else None,
        )

    def _guard(self, step: Step) -> Guard | None:
        own, line = step.only, self.line.only
        if own and line and (own.option, own.negated) != (line.option, line.negated):
            what = f'"{step.title}" is shared with an `only` of its own, so this line can have none'
            self.notes.error(line.span, what, "Let a decision lead past these steps.")
        return own or (replace(line, span=step.span) if line else None)

    def _moved(self, text: str) -> str:
        """Links and pictures lead from the using page to where they led from that of the shared steps."""
        start, here = (PurePosixPath(name).parent.as_posix() for name in (self.used.source.name, self.place.file))

        def led(match: re.Match[str]) -> str:
            before, to = match.groups()
            return before + (to if _ELSEWHERE.match(to) else relpath(f"{start}/{to}", here))

        return text if start == here else _TARGET.sub(led, text)

    def _ways(self, way: WayOut) -> list[WayOut]:
        """A way out in place; one to an end that goes on is as many as the using line has for it."""
        if way.target not in self.bound:
            return [replace(way, target=self.ids.get(way.target, way.target))]
        return [
            replace(to, words=way.words + to.words, verdict=way.verdict, span=way.span, bound=Place(self.place.file, to.span))
            for to in self.bound[way.target]
        ]

    def _next(self, step: Step, after: Step | None) -> WayOut | None:
        """Where a step goes on that has no words for it, if it falls out of the shared steps and that is said."""
        if step.next:
            return self._only_one(step, self._ways(step.next))
        out = self._only_one(step, self.bound.get(after.id, [])) if after else self.line.next
        if out is None or not _falls_through(step):
            return None
        if after is None and (step.optional or step.only):
            what = f'"{step.title}", the last of the shared steps, may be passed over: then they go on below this line'
            self.notes.error(out.span, what, "Take the `Next` out, or share a last step that is always done.")
        return out if out.bound else replace(out, bound=Place(self.place.file, out.span))

    def _only_one(self, step: Step, ways: list[WayOut]) -> WayOut | None:
        if len(ways) > 1 and (step.next or _falls_through(step)):
            what = f'"{step.title}" goes on without a question, and there are {len(ways)} ways on'
            self.notes.error(ways[1].span, what, "Keep one of them, and let a decision follow.")
        return replace(ways[0], words="") if ways else None


def _falls_through(step: Step) -> bool:
    """Whether it leads to the step below it, if it is not passed over; a proof if it held."""
    if step.verify:
        return not step.jumpless and all(way.verdict != "proved" for way in step.ways)
    return not (step.end or step.ways or step.decide or step.jumpless)


def _further(words: str, title: str) -> str | None:
    """What is said after the title of an end, from the comma on; None where it is not that end."""
    said, title = (" ".join(text.split()) for text in (words, title))
    rest = said[len(title) :]
    return rest if said[: len(title)].casefold() == title.casefold() and rest[:1] in ("", ",") else None

