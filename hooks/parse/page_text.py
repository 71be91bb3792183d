"""A line of a page does not mean to the reader what it means to the check.

Why:
    A line that looks like a step and is none, a step hidden by a comment that is never
    closed, or a heading made by underlining would be drawn as a part of the job that nobody
    checked. Files that are drawn and never read are reported here too.

Example reported:
    ###Open the panel {#open work}

Example mended:
    ### Open the panel {#open work}
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hooks.model import Kind
from hooks.parse.attributes import like_a_list
from hooks.parse.blocks import BULLET
from hooks.parse.lines import Body
from hooks.parse.links import without_code
from hooks.parse.notes import Notes
from hooks.parse.words import BY_NAME
from hooks.source import Span

HEADING = re.compile(r"(#{1,3})(?!#)(?:[ \t]|$)")
_UNSEEN = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff]"
)
_LIKE_A_HEADING = re.compile(
    r"(?P<before>(?:\s|\u00ad|\u200c|\u200d|>|[-*+](?=[ \t])|\d{1,9}[.)](?=[ \t]))*)#{1,3}(?!#)(?P<gap>[ \t]?)"
)
_ANY_HEADING = re.compile(r"(?:[ \t]|>|[-*+][ \t]|\d{1,9}[.)][ \t])*#")
_UNDERLINE = re.compile(r" {0,3}(=+|-+)[ \t]*$")
_TAG = re.compile(r"</?h[1-6]\b", re.IGNORECASE)
_LATE_MESSAGE = re.compile(r"[ \t>]+!!!|(?:[-*+]|\d+[.)])[ \t]+!!!|\?\?\?")
_ORDINARY = re.compile(
    r" *(?:- )?(?:\*\*)?[A-Za-z][^{<\x00-\x08\x0b-\x1f\x7f-\x9f\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff]*"
)
"""A line of words, as nearly all are: nothing below can say anything of it."""
_LATE_FENCE = re.compile(
    r"(?:[ \t]{4,}|\t|[ \t]*(?:>|[-*+][ \t]))[ \t]*(?:`{3,}|~{3,})[ \t]*reading"
)


def check(body: Body, kind: Kind, notes: Notes) -> None:
    """Write down every line of a body that is not what it looks like."""
    notes = notes.by(__name__)
    for what, span in body.unclosed:
        notes.error(span, f"this {what} is never closed", "Close it.")
    if kind is Kind.TEXT:
        _no_steps(body, notes)
        return
    for number, line, above in _lines(body):
        if not line or _ORDINARY.fullmatch(line):
            continue
        _heading_like(number, line, notes)
        _underline(number, line, above, notes)
        _stray_list(number, line, notes)
        _unseen(number, line, notes)
        _elsewhere(number, line, notes)


def _lines(body: Body) -> Iterator[tuple[int, str, str]]:
    """Number, text and the line above, of the lines outside fences."""
    above = ""
    for number, line in enumerate(body.lines, body.start):
        if body.fence_at(number):
            above = ""
            continue
        yield number, line, above
        above = line


def _heading_like(number: int, line: str, notes: Notes) -> None:
    found = _LIKE_A_HEADING.match(line)
    if found is None or HEADING.match(line):
        return
    span = Span.in_line(number, len(line) - len(line.lstrip()), len(line.rstrip()))
    if not found["before"]:
        notes.error(
            span,
            "this looks like a heading and is none",
            "Put a space after the `#` marks, or write `\\#` if it is no heading.",
        )
    elif found["gap"] or not found["before"].isspace() or like_a_list(line) is not None:
        mend = "Begin the line with `#`, or write `\\#` if it is no heading."
        notes.error(span, "this looks like a heading and is none", mend)


def _stray_list(number: int, line: str, notes: Notes) -> None:
    """An attribute list was meant to say what a step does; no other line may hold one."""
    start = like_a_list(without_code(line))
    if start is None or HEADING.match(line) or _LIKE_A_HEADING.match(line):
        return
    span = Span.in_line(number, start, len(line.rstrip()))
    mend = "Put them at the end of a step's own line, `### Title {#id …}`, or take them out."
    notes.error(span, "words in braces stand in a line that is no step", mend)


def _unseen(number: int, line: str, notes: Notes) -> None:
    for found in _UNSEEN.finditer(line):
        what = f"the character U+{ord(found[0]):04X} cannot be seen, and can hide what a line is"
        mend = "Delete it with the characters on both sides of it, and type those again."
        notes.error(Span.in_line(number, *found.span()), what, mend)


def _underline(number: int, line: str, above: str, notes: Notes) -> None:
    found = _UNDERLINE.match(line)
    if found is None or not above.strip() or HEADING.match(above):
        return
    if BULLET.match(above) and len(found[1]) == 1:
        return
    mend = "Put a blank line before it; write headings with `#`."
    notes.error(
        Span.in_line(number, 0, len(line.rstrip())),
        "this line makes a heading of the one above",
        mend,
    )


def _elsewhere(number: int, line: str, notes: Notes) -> None:
    if found := _TAG.search(line):
        span = Span.in_line(number, *found.span())
        notes.error(span, "a heading is written in HTML", "Write it with `#`.")
    if found := _LATE_MESSAGE.match(line):
        span = Span.in_line(number, 0, found.end())
        what = "a message stands folded or indented, where no check counts it"
        notes.error(span, what, "Begin the line with `!!!`.")
    if found := _LATE_FENCE.match(line):
        span = Span.in_line(number, 0, found.end())
        notes.error(span, "this reading is indented", "Begin the line with the fence.")


def _no_steps(body: Body, notes: Notes) -> None:
    """On an ordinary page nothing is checked, so no step may stand there."""
    for number, line, _ in _lines(body):
        if not _ANY_HEADING.match(line) or "{" not in line:
            continue
        words = re.findall(r"(?<![\w#-])[a-z][\w-]*", line[line.index("{") :])
        if effect := next((word for word in words if word in BY_NAME), None):
            span = Span.in_line(number, len(line) - len(line.lstrip()), len(line.rstrip()))
            what = f"a step (`{effect}`) stands on an ordinary page, where nothing is checked"
            notes.error(span, what, "Write `page: procedure`, or take the words in braces out.")
