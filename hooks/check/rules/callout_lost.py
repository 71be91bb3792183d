"""A number in the text or in a list is not in the figure, or one in the figure is named nowhere.

Why:
    "Close it (3)" sends a hand to what is marked 3. Where the drawing was renewed and the text was not, the
    hand goes to something else. Informed by IEC/IEEE 82079-1 (illustrations and text agree).

Example reported:
    ### Find the stop valve {#find check}
    Stand before the machine and follow the tube (1) to the valve (3).

    ![The tube from the machine to the stop valve](tube-and-valve.svg)

Example mended:
    ### Find the stop valve {#find check}
    Stand before the machine and follow the tube (1) to the valve (2).

    ![The tube from the machine to the stop valve](tube-and-valve.svg)
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from posixpath import basename

from hooks.check.found import Found, listed
from hooks.check.written import written
from hooks.model import Figure, Kind, Page, Picture
from hooks.parse.links import without_code
from hooks.parse.result import ParsedShop
from hooks.source import Span

CALLOUT = re.compile(r"(?<![\w\])])\(([1-9]\d?)\)")
"""A number in brackets, in a step that has a figure; none is the address of a link."""
Said = list[tuple[int, Span]]


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each number that is only in the text, or only in the figure, of a step or of what stands before the first."""
    figured = [] if page.kind is Kind.TEXT else list(page.figured())
    said = _said(page) if figured else {}
    for step, figures in figured:
        known = [(figure, shop.pictures.get(figure.file)) for figure in figures]
        shown = [(figure, picture) for figure, picture in known if picture and not picture.fault]
        if shown and len(shown) == len(known) and not (step and step.used):
            told = None if page.kind is Kind.SHARED_STEPS else step
            for span, *fault in _lost(shown, said.get(_heading(page, figures[0].span.line), [])):
                yield Found(span, *fault, told)


def _said(page: Page) -> dict[int, Said]:
    """By the line of the heading above: the numbers in brackets of the lines under it, each with its place."""
    found: dict[int, Said] = {}
    for number, line, _ in written(page, "("):
        for mark in CALLOUT.finditer(without_code(line)) if not line.startswith("#") and "![" not in line else ():
            found.setdefault(_heading(page, number), []).append((int(mark[1]), Span.in_line(number, *mark.span())))
    return found


def _heading(page: Page, line: int) -> int:
    """The line of the step or the stage in which a line stands; 0 before the first."""
    own = (*page.stages, *(step for step in page.steps if not step.used))
    return max((one.span.line for one in own if one.span.line <= line), default=0)


def _lost(shown: list[tuple[Figure, Picture]], said: Said) -> Iterator[tuple[Span, str, str]]:
    named = {number for number, _ in said}
    there: set[int] = set()
    for figure, picture in shown:
        entries = {number for number, _ in figure.numbers}
        drawn = entries if picture.numbers is None else set(picture.numbers)
        there |= drawn
        name = basename(figure.file)
        for number, span in figure.numbers:
            if number not in drawn:
                yield span, f"`{name}` shows no {number}", "Draw it as a number that stands alone, or take it out of the list."
        if missing := sorted(drawn - entries - named):
            numbers = listed([str(number) for number in missing])
            help = f"Name it in the text, `({missing[0]})`, or in a numbered list right under the figure."
            yield figure.span, f"`{name}` shows {numbers}, which nothing names", help
    for number, span in said:
        if number not in there:
            yield span, f"no figure of this step shows ({number})", "Write the number that is drawn, or list the numbers of a photo under it."
