"""A page names another page that is not there.

Why:
    Who is told to make the machine safe "as in" a page that was renamed finds nothing, and goes
    on without. Where a job goes on (`then`) is told by `jump-lost`. Informed by the references
    of DITA (`reqcontp`).

Example reported:
    ### Is the mould dry? {#mould check}
    A dry mould is another job: [No ice](page-of-another-name.md).

Example mended:
    ### Is the mould dry? {#mould check}
    A dry mould is another job: [No ice](page.md).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches
from posixpath import basename, dirname, normpath
from urllib.parse import unquote

from hooks.check.found import Found
from hooks.check.written import written
from hooks.model import Page, Step
from hooks.parse.links import Link, links
from hooks.parse.result import ParsedShop
from hooks.source import Span

MADE = frozenset("index about customers first-minute job-sheet jobs offline parts-and-tools symptoms".split())
"""Pages that the site makes itself, unless the shop has written them; tests/site/test_references.py holds it."""
LANGUAGE = re.compile(r"\.[a-z]{2}$")
MADE_IN = frozenset(("calculators", "machines"))


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each link of any page to a page of the shop that there is not, and the page that a condition names."""
    condition = page.front.condition
    if condition and condition.page not in shop.by_id:
        near = get_close_matches(condition.page, [basename(known) for known in shop.names], 1)
        help = f"Did you mean `{near[0]}`?" if near else "Write the id of a page of this shop."
        yield Found(condition.span, f"there is no page `{condition.page}` to make this condition true", help)
    for number, line, step in written(page, ".md"):
        for link in links(line):
            yield from _lost(page, number, step, link, shop)


def is_there(name: str, written: frozenset[str]) -> bool:
    """Whether the site has that page, without its ending: written, made, or made in another language."""
    first = LANGUAGE.sub("", name)
    return name in written or first in written or basename(first) in MADE or basename(dirname(name)) in MADE_IN


def _lost(page: Page, number: int, step: Step | None, link: Link, shop: ParsedShop) -> Iterator[Found]:
    place = unquote(link.target.partition("#")[0])
    if not place.endswith(".md") or place.startswith("/") or ":" in place:
        return
    name = normpath(f"{dirname(page.source.name) or '.'}/{place}").removesuffix(".md")
    if is_there(name, shop.names):
        return
    near = get_close_matches(basename(name), [basename(known) for known in shop.names], 1)
    help = f"Did you mean `{near[0]}.md`?" if near else "Write the way to its file from this one."
    span = Span.in_line(number, link.start, link.end)
    yield Found(span, f"there is no page `{place}`", help, step)
