"""A page that was begun from a template is not filled in yet.

Why:
    A new page passes every check, because it cuts and proves all that its machine has; of the
    machine itself it says nothing. Whoever opens it at the machine must not find a gap there.

Example reported:
    ### Open the cover {#open work opens="cover"}
    To be filled in: how many screws, where.

Example mended:
    ### Open the cover {#open work opens="cover"}
    Two screws, one at each end.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.diagnostics import Level
from hooks.model import Page
from hooks.parse.result import ParsedShop
from hooks.source import Span

LEVELS = (Level.NOTE,)
WORDS = "To be filled in"
"""What the templates of `stillbench new` write where something is missing."""


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """One note a page, at the first line that is not filled in."""
    found = [(number, line.find(WORDS)) for number, line in enumerate(page.source.lines, 1) if WORDS in line]
    if found:
        number, start = found[0]
        lines = "1 line" if len(found) == 1 else f"{len(found)} lines"
        what = f"{lines} of this page {'is' if len(found) == 1 else 'are'} still to be filled in"
        span = Span.in_line(number, start, start + len(WORDS))
        yield Found(span, what, "Write what is true of the machine there; this is the first one.", level=Level.NOTE)
