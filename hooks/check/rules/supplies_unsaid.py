"""A page does not say what is used up.

Why:
    Tape, seals and towels that are missing in the cellar cost a drive. Saying "none" is
    information, leaving the list out is not. Informed by DITA (`supplies`, `nosupply`) and
    S1000D (`noSupplies`).

Example reported:
    supplies: []

Example mended:
    supplies: none
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.unsaid import unsaid
from hooks.model import Page
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """The list that is missing; an empty one is told on reading."""
    yield from unsaid(page, "supplies-unsaid")
