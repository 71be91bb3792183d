"""A step says by no word what it does, and so counts as hands-on.

Why:
    A mark that was forgotten must make the check stricter, never looser. Nothing is wrong with
    the page; a word on the line says that hands are meant. On a self-check such a step is an
    error, told by `customer-hands-on`.

Example reported:
    ### Open the panel {#open}
    Six screws.

Example mended:
    ### Open the panel {#open work}
    Six screws.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.diagnostics import Level
from hooks.model import Kind, Page
from hooks.parse.result import ParsedShop

LEVELS = (Level.NOTE,)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each step of a procedure without a mark."""
    if page.kind is Kind.SELF_CHECK:
        return
    for step in page.steps:
        if not step.marked:
            what = f'"{step.title}" has no mark, so it counts as hands-on'
            yield Found(step.span, what, "Write `work` on its line, or what else it is.", step, level=Level.NOTE)
