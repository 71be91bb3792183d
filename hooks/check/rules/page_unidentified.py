"""A page does not say which version it is, and when somebody last checked it.

Why:
    Who holds a printed sheet must be able to tell whether it still counts. No program can
    know whether the words fit the machine, so somebody looks, and the date says when.
    Title, appliance and models are asked for too. Informed by IEC/IEEE 82079-1 and by the
    identity that DITA and S1000D give a document.

Example reported:
    revision: 2
    reviewed:

Example mended:
    revision: 2
    reviewed: 2026-11-02
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.unsaid import unsaid
from hooks.model import Page
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """What a page can be read without; a title or appliance that is missing is told on reading."""
    yield from unsaid(page, "page-unidentified")
