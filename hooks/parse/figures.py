"""Figures: pictures on a line of their own, each with its caption and the list of its numbers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from posixpath import dirname, normpath
from urllib.parse import unquote

from hooks.model import Figure
from hooks.parse.blocks import FIGURE, ITEM, Block
from hooks.parse.lines import Body
from hooks.parse.links import plain, without_code
from hooks.source import Span

_ELSEWHERE = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:|[/\\]")


def figure(body: Body, block: Block, file: str, at: int) -> Figure:
    """The figure of a block of the page `file`; `at` is how much of the text stands before it."""
    first = block.lines(body)[0]
    found = FIGURE.search(first)
    assert found, "a block of this kind holds a figure"
    numbered = list(enumerate(block.lines(body)[1:], block.first + 1))
    items = [number for number, line in numbered if ITEM.match(line)]
    start = int(re.findall(r"\d+", body.line(items[0]))[0]) if items else 1
    places = (Span.in_line(line, 0, len(body.line(line).rstrip())) for line in items)
    listed = "\n".join(block.shown(body)[1:]).strip("\n")
    return _figure(found, block.first, file, listed, tuple(enumerate(places, start)), at)


def within(body: Body, file: str) -> Iterator[Figure]:
    """The pictures of an ordinary page, wherever they stand in its lines."""
    for number, line in enumerate(body.lines, body.start):
        if "![" in line and body.fence_at(number) is None:
            for found in FIGURE.finditer(without_code(line)):
                yield _figure(found, number, file, "", (), 0)


def _figure(
    found: re.Match[str], line: int, file: str, listed: str, numbers: tuple[tuple[int, Span], ...], at: int
) -> Figure:
    address = found["address"].strip("<>").strip()
    elsewhere = bool(_ELSEWHERE.match(address))
    name = address if elsewhere else normpath(f"{dirname(file) or '.'}/{unquote(address)}")
    caption, span = plain(found["caption"] or ""), Span.in_line(line, *found.span())
    return Figure(plain(found["words"]), name, elsewhere, caption, listed, numbers, span, at)
