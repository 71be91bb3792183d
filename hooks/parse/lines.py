"""The body of a page, line by line: what fences hold and comments hide.

Comments are blanked out in place, so that every column stays as it was.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from hooks.source import Source, Span

_FENCE = re.compile(r" {0,3}(`{3,}|~{3,})(.*)")
_CODE = re.compile(r"`+")


@dataclass(frozen=True, slots=True)
class Body:
    """The lines of a body without what comments hide."""

    start: int
    """The number of the first line."""
    lines: tuple[str, ...]
    """Same columns as in the file; a comment is blank."""
    shown: tuple[str, ...]
    """What is drawn: the comments cut out."""
    fences: Mapping[int, Fence]
    """The fence that holds a line, by the line's number."""
    unclosed: tuple[tuple[str, Span], ...]
    """What is opened and never closed: "fence" or "comment", and where."""

    def line(self, number: int) -> str:
        """The text of a line of the file, by its number there."""
        return self.lines[number - self.start]

    def fence_at(self, number: int) -> Fence | None:
        """The fence that holds that line."""
        return self.fences.get(number)


@dataclass(frozen=True, slots=True)
class Fence:
    """A fenced block: numbers of its first and last line, the fence lines included."""

    first: int
    last: int
    marks: str
    info: str

    @property
    def inside(self) -> tuple[int, int]:
        """Numbers of the first line within and the one after the last."""
        return self.first + 1, self.last


def body(source: Source, start: int) -> Body:
    """The body that begins on line `start`."""
    walk = _Walk(source, start)
    lines = tuple(walk.lines())
    return Body(start, lines, tuple(walk.shown), walk.fences, tuple(walk.unclosed))


class _Walk:
    def __init__(self, source: Source, start: int) -> None:
        self.source = source
        self.start = start
        self.shown: list[str] = []
        self.fences: dict[int, Fence] = {}
        self.unclosed: list[tuple[str, Span]] = []
        self.comment: Span | None = None
        self.open: Fence | None = None

    def lines(self) -> Iterator[str]:
        for number in range(self.start, len(self.source.lines) + 1):
            yield self.one(number, self.source.line(number))
        if self.comment:
            self.unclosed.append(("comment", self.comment))
        if self.open:
            self.unclosed.append(("fence", self.source.whole_line(self.open.first)))
            self.close(len(self.source.lines) + 1)

    def one(self, number: int, text: str) -> str:
        if self.open:
            if closes(text, self.open.marks):
                self.close(number)
            self.shown.append(text)
            return text
        if self.comment or "<!--" in text:
            text = self.without_comments(number, text)
        else:
            self.shown.append(text)
        if opened := opens(text):
            self.open = Fence(number, number, *opened)
        return text

    def close(self, number: int) -> None:
        opened = self.open
        if opened:
            fence = Fence(opened.first, number, opened.marks, opened.info)
            self.fences |= dict.fromkeys(range(fence.first, fence.last + 1), fence)
        self.open = None

    def without_comments(self, number: int, text: str) -> str:
        kept, shown, at = [], [], 0
        while at < len(text):
            if self.comment:
                end = text.find("-->", at)
                stop = len(text) if end < 0 else end + 3
                kept.append(" " * (stop - at))
                self.comment = self.comment if end < 0 else None
            else:
                stop = _comment_start(text, at)
                kept.append(text[at:stop])
                shown.append(text[at:stop])
                if stop < len(text):
                    self.comment = Span.in_line(number, stop, stop + 4)
                    kept.append("    ")
                    stop += 4
            at = stop
        line = "".join(shown)
        self.shown.append(line if line == text else line.rstrip())
        return "".join(kept)


def opens(text: str) -> tuple[str, str] | None:
    """The marks and the words of a line that opens a fence."""
    found = _FENCE.fullmatch(text)
    if found is None or (found[1][0] == "`" and "`" in found[2]):
        return None
    return found[1], found[2].strip()


def closes(text: str, marks: str) -> bool:
    """Whether a line closes the fence that was opened with `marks`."""
    return len(text) - len(text.lstrip(" ")) <= 3 and text.strip() == marks


def _comment_start(text: str, at: int) -> int:
    """Where a comment begins outside code spans, else the end of the text."""
    if "<!--" not in text:
        return len(text)
    while at < len(text):
        if text.startswith("<!--", at):
            return at
        _, at = code_span(text, at)
    return at


def code_span(text: str, at: int) -> tuple[bool, int]:
    """Whether a code span begins at `at`, and where to read on: behind it, its marks or one character.

    As the Markdown library reads it: a run of backticks that none of its length closes ends at the
    longest that follows, where all are shorter.
    """
    ticks = _CODE.match(text, at)
    if ticks is None:
        return False, at + 1
    closing = re.compile(rf"(?<!`){ticks[0]}(?!`)").search(text, ticks.end())
    if closing is None:
        longest = max(_CODE.finditer(text, ticks.end()), key=lambda run: len(run[0]), default=None)
        closing = longest if longest and len(longest[0]) < len(ticks[0]) else None
    return closing is not None, (closing or ticks).end()
