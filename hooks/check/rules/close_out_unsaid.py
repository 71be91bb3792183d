"""A page does not say what is left to do after the end, or has no end.

Why:
    A job that just stops leaves tools inside and nobody told. Saying "none" is information,
    leaving the list out is not. Informed by the close-out of DITA (`closereqs`) and S1000D
    (`closeRqmts`), and by 29 CFR 1910.147(e).

Example reported:
    after: none

    ### Close the panel {#close work}
    Six screws.

Example mended:
    after: none

    ### Close the panel {#close work}
    Six screws.
    ### Back in service {#done end="in service"}
    Run it once.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.unsaid import unsaid
from hooks.model import Kind, Page
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """The list that is missing, then a page on which no step is an end."""
    yield from unsaid(page, "close-out-unsaid")
    if page.kind is Kind.PROCEDURE and page.steps and not any(step.end for step in page.steps):
        last = page.steps[-1]
        yield Found(
            last.span,
            f'no step ends the job; the last one is "{last.title}"',
            'Add a step with `end="in service"`, or another closing state.',
            last,
        )
