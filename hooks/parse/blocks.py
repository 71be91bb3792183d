"""What the lines under a heading are: messages, bullets, `Next` lines, fences, prose."""

from __future__ import annotations

import re
from collections.abc import Iterator
from enum import Enum, auto
from typing import NamedTuple

from hooks.parse.lines import Body
from hooks.parse.links import Stretch
from hooks.source import Span

_ADMONITION = re.compile(r"!!!")
_NEXT = re.compile(r" {0,3}Next:")
_RULE = re.compile(r" {0,3}([-*_])[ \t]*(\1[ \t]*){2,}$")
BULLET = re.compile(r" {0,3}[-*+](?:[ \t]+|$)")
ITEM = re.compile(r" {0,3}\d{1,2}[.)][ \t]+")
"""The beginning of an entry of a numbered list."""
FIGURE = re.compile(
    r"""!\[(?P<words>[^\[\]]*)\]\([ ]*(?P<address><[^<>]*>|[^\s()<>]*)(?:[ ]+(?P<quote>["'])(?P<caption>(?:(?!(?P=quote)).)*)(?P=quote))?[ ]*\)"""
)
_ALONE = re.compile(rf" {{0,3}}{FIGURE.pattern}[ \t]*")
_INDENTED = re.compile(r" {4}| {0,3}\t")
_CONTINUED = re.compile(r" {2}| ?\t")


class What(Enum):
    """The kinds of block."""

    ADMONITION = auto()
    BULLET = auto()
    NEXT = auto()
    FENCE = auto()
    FIGURE = auto()
    """A picture on a line of its own, with the numbered list right under it."""
    PROSE = auto()


class Block(NamedTuple):
    """Some lines that belong together, `first` to `last`, by their numbers in the file."""

    what: What
    first: int
    last: int

    def lines(self, body: Body) -> list[str]:
        """Its lines."""
        return [body.line(number) for number in range(self.first, self.last + 1)]

    def shown(self, body: Body) -> list[str]:
        """Its lines as they are drawn, without comments."""
        return list(body.shown[self.first - body.start : self.last + 1 - body.start])

    def stretch(self, body: Body) -> Stretch:
        """Its lines as one text."""
        return Stretch("\n".join(self.lines(body)), self.first)

    def span(self, body: Body) -> Span:
        """From its first mark to the end of its text."""
        first, last = body.line(self.first), body.line(self.last).rstrip()
        column = len(first) - len(first.lstrip()) + 1
        return Span(self.first, column, self.last, max(len(last), 1) + 1)


def blocks(body: Body, first: int, end: int) -> Iterator[Block]:
    """The blocks of the lines from `first` up to, not including, `end`."""
    at = first
    while at < end:
        fence = body.fence_at(at)
        if fence:
            block = Block(What.FENCE, at, min(fence.last, end - 1))
        elif not body.line(at).strip():
            at += 1
            continue
        else:
            block = _one(body, at, end)
        yield block
        at = block.last + 1


def _kind(line: str) -> What:
    if _ADMONITION.match(line):
        return What.ADMONITION
    if _NEXT.match(line):
        return What.NEXT
    if "![" in line and _ALONE.fullmatch(line):
        return What.FIGURE
    if BULLET.match(line) and not _RULE.match(line):
        return What.BULLET
    return What.PROSE


def _one(body: Body, at: int, end: int) -> Block:
    what = _kind(body.line(at))
    if what is What.NEXT:
        return Block(what, at, at)
    if what is What.FIGURE:
        return Block(what, at, _list_end(body, at, end))
    if what is What.ADMONITION:
        return Block(what, at, _hanging(body, at, end, _INDENTED))
    last = at
    while last + 1 < end and _goes_on(body, last + 1):
        last += 1
    if what is What.BULLET:
        last = _item_end(body, last, end)
    return Block(what, at, last)


def _list_end(body: Body, at: int, end: int) -> int:
    """The last line of the numbered list that follows line `at`; that line where none does."""
    last = at + 1
    while last < end and not body.line(last).strip() and body.fence_at(last) is None:
        last += 1
    if last >= end or body.fence_at(last) or not ITEM.match(body.line(last)):
        return at
    while last + 1 < end and _goes_on(body, last + 1):
        last += 1
    return last


def _goes_on(body: Body, number: int) -> bool:
    line = body.line(number)
    return bool(line.strip()) and _kind(line) is What.PROSE and body.fence_at(number) is None


def _hanging(body: Body, at: int, end: int, indent: re.Pattern[str]) -> int:
    """The last line of the indented text below line `at`, blank lines between allowed."""
    last = at
    for number in range(at + 1, end):
        line = body.line(number)
        if body.fence_at(number) or (line.strip() and not indent.match(line)):
            break
        last = number if line.strip() else last
    return last


def _item_end(body: Body, last: int, end: int) -> int:
    """The last line of a bullet whose first paragraph ends on line `last`."""
    while (further := _further(body, last, end)) > last:
        last = further
    return last


def _further(body: Body, last: int, end: int) -> int:
    number = last + 1
    while number < end and not body.line(number).strip() and body.fence_at(number) is None:
        number += 1
    if number >= end or body.fence_at(number) or not _CONTINUED.match(body.line(number)):
        return last
    if _kind(body.line(number)) is not What.PROSE:
        return last
    while number + 1 < end and _goes_on(body, number + 1):
        number += 1
    return number
