"""A step's body has a message, a way out or a jump that no check could follow.

Why:
    Every way on that a reader could take must be one that is checked: a bullet with one link
    to a step, or a line `Next: [Close up](#close)`. A link to a step anywhere else would be
    a path that nobody checked. A message that cannot be read is a message that nobody gets.

Example reported:
    ### Look at the joints {#look check}
    If they leak, look [again](#look).

Example mended:
    ### Do the joints leak? {#look decide check}
    - They leak: [Do the joints leak?](#look)
    - They are dry: [Do the joints leak?](#look)
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass, field

from hooks.model import PROOFS, VERDICTS, Figure, Message, Reading, WayOut
from hooks.parse.blocks import BULLET, Block, What, blocks
from hooks.parse.figures import figure
from hooks.parse.lines import Body
from hooks.parse.links import Link, Stretch, links, plain
from hooks.parse.messages import is_message, message
from hooks.parse.notes import Notes, nearest
from hooks.parse.reading_incomplete import is_reading, reading
from hooks.source import Span

_BOLD = re.compile(r"(\*\*|__)(.+?)\1")
_PROOF = re.compile(r"(not\s+proved|proved)\b", re.IGNORECASE)
_MORE = re.compile(r"proved\s*[^\s.,:;()—–-]", re.IGNORECASE)
_FORM = "Write it as a bullet, `- words: [Title](#id)`, or as `Next: [Title](#id)`."


@dataclass(slots=True)
class Content:
    """What stands under one heading."""

    messages: list[Message] = field(default_factory=list)
    late_messages: list[Message] = field(default_factory=list)
    readings: list[Reading] = field(default_factory=list)
    ways: list[WayOut] = field(default_factory=list)
    next: WayOut | None = None
    jumpless: list[Span] = field(default_factory=list)
    prose: str = ""
    figures: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True)
class Under:
    """What is known of the heading above a body."""

    energies: Collection[str]
    step: bool = True
    decides: bool = False
    """Whether its bullets are ways out even where none of them jumps."""
    proves: bool = False
    ends: bool = False


def content(body: Body, first: int, end: int, under: Under, notes: Notes) -> Content:
    """What the lines from `first` up to `end` hold."""
    return _Reader(body, under, notes.by(__name__)).all(list(blocks(body, first, end)))


def stray(text: Stretch, notes: Notes, rule: str = __name__) -> None:
    """Write down jumps that no check follows, under the name of a rule."""
    for link in links(text.text):
        if link.jumps or link.lands_in_a_page or link.leads_back(notes.file):
            _not_a_way_out(text.span(link.start, link.end), notes.by(rule))


def _not_a_way_out(span: Span, notes: Notes) -> None:
    notes.error(span, "this jump is not a way out, so no check follows it", _FORM)


class _Reader:
    def __init__(self, body: Body, under: Under, notes: Notes) -> None:
        self.body = body
        self.under = under
        self.notes = notes
        self.made = Content()
        self.kept: list[Block] = []

    def all(self, found: list[Block]) -> Content:
        bullets = [block for block in found if block.what is What.BULLET]
        jumping = self.under.step and (
            self.under.decides or any(self.jumps(block.stretch(self.body)) for block in bullets)
        )
        begun = False
        for block, after in zip(found, [*found, None][1:], strict=True):
            if block.what is What.ADMONITION and is_message(
                self.body, block, self.under.energies, self.notes
            ):
                self.message(block, begun)
                continue
            begun = True
            if block.what is What.FENCE:
                self.fence(block)
            elif block.what is What.NEXT:
                self.next(block, after)
            elif block.what is What.BULLET and jumping:
                self.bullet(block)
            else:
                self.keep(block)
        self.both()
        self.made.prose, self.made.figures = _joined(self.body, self.kept, self.notes.file)
        return self.made

    @staticmethod
    def jumps(text: Stretch) -> list[Link]:
        return [link for link in links(text.text) if link.jumps and link.inline]

    def message(self, block: Block, begun: bool) -> None:
        made = message(self.body, block, self.notes)
        stray(block.stretch(self.body), self.notes, "action-in-message")
        if made:
            (self.made.late_messages if begun else self.made.messages).append(made)

    def fence(self, block: Block) -> None:
        fence = self.body.fence_at(block.first)
        span = Span(block.first, 1, block.first, len(self.body.line(block.first).rstrip()) + 1)
        if fence is None or not is_reading(fence):
            word = fence.info.split()[0] if fence and fence.info else ""
            if word and nearest(word, ["reading"]):
                self.notes.error(span, f"`{word}` is not a known block", "Write `reading`.")
            self.kept.append(block)
        elif not self.under.step:
            self.notes.error(
                span, "this reading stands in no step", "Put it into the step that takes it."
            )
        elif made := reading(self.body, fence, span, self.notes):
            self.made.readings.append(made)

    def keep(self, block: Block) -> None:
        self.kept.append(block)
        stray(block.stretch(self.body), self.notes)

    def next(self, block: Block, after: Block | None) -> None:
        text = block.stretch(self.body)
        jumps = self.jumps(text)
        if not self.under.step:
            self.notes.error(
                block.span(self.body), "this `Next` stands in no step", "Put it into a step."
            )
        elif self.made.next is not None:
            what = f"a second `Next`; the first is on line {self.made.next.span.line}"
            self.notes.error(block.span(self.body), what, "Keep one of them.")
        elif len(jumps) != 1:
            what = "`Next` must hold one link to a step"
            self.notes.error(block.span(self.body), what, "Write `Next: [Title](#id)`.")
        else:
            self.made.next = self.way(jumps[0], "", None, block.span(self.body))
            self.alone(block, text, jumps[0], after)

    def alone(self, block: Block, text: Stretch, jump: Link, after: Block | None) -> None:
        around = text.text[text.text.index(":") + 1 : jump.start] + text.text[jump.end :]
        more = after and after.what is What.PROSE and after.first == block.last + 1
        if around.strip(" \t.") or more:
            what = "words stand beside the link of `Next`, which holds without a condition"
            mend = "Put the words above it, or write ways out as bullets."
            self.notes.error(block.span(self.body), what, mend)

    def bullet(self, block: Block) -> None:
        text = block.stretch(self.body)
        jumps = self.jumps(text)
        if len(jumps) != 1:
            self.made.jumpless.append(block.span(self.body))
            self.kept.append(block)
            return
        marker = BULLET.match(text.text)
        before = text.text[marker.end() if marker else 0 : jumps[0].start]
        words = re.sub(r"[\s:—–-]+$", "", plain(before)) or jumps[0].label
        span = block.span(self.body)
        self.made.ways.append(
            self.way(jumps[0], words, self.verdict(before, span), span)
        )
        self.whole(text, jumps[0])

    def whole(self, text: Stretch, jump: Link) -> None:
        """Write down what a bullet says that would not be shown."""
        rest = text.text[jump.end :]
        if re.sub(r"[\s.,;:)]", "", rest):
            start = jump.end + len(rest) - len(rest.lstrip())
            what = "these words follow the link of a way out, and would not be shown"
            span = text.span(start, jump.end + len(rest.rstrip()))
            self.notes.error(span, what, "Put them before the link.")
        for link in links(text.text):
            back = link.lands_in_a_page or link.leads_back(self.notes.file)
            if back or (link.jumps and not link.inline):
                _not_a_way_out(text.span(link.start, link.end), self.notes)

    def verdict(self, before: str, span: Span) -> str | None:
        bold = _BOLD.match(before.lstrip())
        said = " ".join((bold[2] if bold else "").lower().split()).rstrip(" :.,;—–-")
        if said in VERDICTS + PROOFS:
            return said
        words = plain(before)
        if self.under.proves and _MORE.match(words):
            what = f'"{words.rstrip(" :")}" can be read as proved, or as the opposite'
            mend = "Write `- **Proved**: [Title](#id)`, and any other words after a comma."
            self.notes.error(span, what, mend)
        proof = _PROOF.match(words) if self.under.proves else None
        return " ".join(proof[1].lower().split()) if proof else None

    def way(self, jump: Link, words: str, verdict: str | None, span: Span) -> WayOut:
        if not jump.label:
            self.notes.error(
                span, "the link has no words", "Write the title of the step between [ and ]."
            )
        return WayOut(words, verdict, jump.label, jump.id, span)

    def both(self) -> None:
        ways = [*self.made.ways, *([self.made.next] if self.made.next else [])]
        if self.under.ends and ways:
            what = "the job ends in this step, so its way out would not be shown"
            self.notes.error(ways[0].span, what, "Take it out, or `end`.")
        if self.made.next and self.made.ways:
            what = "a step has bullets that jump, or a `Next`, not both"
            mend = "Write the `Next` as a bullet too: `- Proved: [Title](#id)`."
            self.notes.error(self.made.next.span, what, mend)


def _joined(body: Body, kept: Iterable[Block], file: str) -> tuple[str, tuple[Figure, ...]]:
    """The text of the blocks, and the figures among them."""
    text, last, figures = "", None, []
    for block in kept:
        if block.what is What.FIGURE:
            figures.append(figure(body, block, file, len(text)))
            continue
        gap = "" if last is None else "\n" if block.first == last + 1 else "\n\n"
        text += gap + "\n".join(block.shown(body))
        last = block.last
    return text.strip("\n"), tuple(figures)
