"""A page does not say what must be true before the start, or gives an order instead.

Why:
    Saying "none" is information, leaving the list out is not. An entry is something that is so
    or is not so; an order hidden there is a step that nobody ticks off and no check follows.
    Informed by the required conditions of DITA (`reqconds`, `noconds`) and S1000D.

Example reported:
    before: [Unplug the machine]

Example mended:
    before: [The drum is empty]
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.english import surely_commands
from hooks.check.found import Found
from hooks.check.unsaid import unsaid
from hooks.diagnostics import Level
from hooks.model import Page
from hooks.parse.result import ParsedShop

LEVELS = (Level.ERROR, Level.WARNING)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """The list that is missing, or each entry that begins as a command does."""
    yield from unsaid(page, "conditions-unsaid")
    for entry in page.front.before or ():
        if surely_commands(entry.text):
            yield Found(
                entry.span,
                f'"{entry.text}" is an order, not a condition',
                "Write what is so when it is done, or make it a step.",
                level=Level.WARNING,
            )
