"""A figure shows no file of the shop, or a picture stands where it cannot be drawn as a figure.

Why:
    The page is read in a cellar without a network: what is fetched from elsewhere is not there, and who
    holds the other end can change it after the review. A picture within a line of text, a message or an
    answer is not scaled and has no place for its words. Informed by IEC/IEEE 82079-1 (illustrations).

Example reported:
    ### Find the stop valve {#find check}
    ![The stop valve under the sink, its handle across the pipe](https://pictures.example/stop-valve.svg)

Example mended:
    ### Find the stop valve {#find check}
    ![The stop valve under the sink, its handle across the pipe](stop-valve.svg)
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches
from posixpath import basename, splitext

from hooks.check.found import Found
from hooks.check.written import written
from hooks.model import Figure, Kind, Page, Step
from hooks.parse.links import without_code
from hooks.parse.pictures import SHOWN
from hooks.parse.result import ParsedShop
from hooks.source import Span

ALONE = 'Write `![what it shows](file.svg "caption")` on a line of its own.'


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each figure of the page's own whose file is not there, and each picture that is no figure."""
    own = [(step, figure) for step, figures in page.figured() if not (step and step.used) for figure in figures]
    for step, figure in own:
        if fault := _fault(figure, shop):
            yield Found(figure.span, *fault, None if page.kind is Kind.SHARED_STEPS else step)
    places = {(figure.span.line, figure.span.column) for _, figure in own}
    for number, line, step in written(page, "!["):
        for mark in re.finditer(r"!\[", without_code(line)):
            if (number, mark.start() + 1) not in places:
                yield Found(Span.in_line(number, *mark.span()), _within(page, step), ALONE, step)


def _within(page: Page, step: Step | None) -> str:
    return "this picture cannot be read" if page.kind is Kind.TEXT else "this picture is no figure: it stands within other text"


def _fault(figure: Figure, shop: ParsedShop) -> tuple[str, str] | None:
    """What is wrong with its address, and how to mend it."""
    if figure.elsewhere:
        return f"`{figure.file}` is none of the shop's files", "Copy it into the shop's folder, and write its way from this page."
    if figure.file in shop.pictures:
        return None
    name, ending = basename(figure.file), splitext(figure.file)[1].lower()
    if ending not in SHOWN:
        return f"`{name}` is no picture that every device shows", f"Save it as one of: {', '.join(SHOWN)}."
    near = [basename(known) for known in shop.pictures]
    close = get_close_matches(name, near, 1)
    help = f"Did you mean `{close[0]}`?" if close else "Write the way to its file from this page."
    return f"there is no picture `{figure.file}` among the shop's files", help
