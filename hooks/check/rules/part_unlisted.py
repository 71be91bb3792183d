"""A step fits a part that the page does not list, or more of it, or a part is listed that none fits.

Why:
    The part is taken from the shelf, and counted, by the list. Informed by the spares of DITA
    (`spares`) and S1000D, which have a quantity each.

Example reported:
    parts: [{name: hose washer, quantity: 1}]

    ### Refit the hoses {#refit work installs="hose washer"}
    Two new hose washers, then hand-tight.

Example mended:
    parts: [{name: hose washer, quantity: 2}]

    ### Refit the hoses {#refit work installs="hose washer"}
    Two new hose washers, then hand-tight.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches

from hooks.check.english import NUMBERS
from hooks.check.found import Found
from hooks.check.unsaid import unsaid
from hooks.diagnostics import Level
from hooks.model import Page, Part, Step
from hooks.parse.result import ParsedShop

LEVELS = (Level.ERROR, Level.WARNING)
COUNT = rf"\b({'|'.join(NUMBERS)}|[1-9]\d?) (?:of the )?(?:new |fresh )?"


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """The list that is missing; else what is fitted and not there, not enough, and there for nothing."""
    yield from unsaid(page, "part-unlisted")
    if page.front.parts is None:
        return
    own = {part.name.casefold(): part for part in page.front.parts}
    shared = {part.name.casefold(): part for one in page.shared for part in one.front.parts or ()}
    fitted: set[str] = set()
    for step in page.steps:
        for name in step.installs:
            fitted.add(name.casefold())
            yield from _fits(step, name, shared | own)
    for key, part in own.items():
        if key not in fitted:
            what = f"no step fits the part `{part.name}`"
            yield Found(part.span, what, "Name it with `installs` where it is fitted, or take it out.", level=Level.WARNING)


def _fits(step: Step, name: str, listed: dict[str, Part]) -> Iterator[Found]:
    span = dict(step.spans).get(f"installs {name}", step.span_of("installs"))
    part = listed.get(name.casefold())
    if part is None:
        near = get_close_matches(name, [p.name for p in listed.values()], 1)
        help = f"Did you mean `{near[0]}`?" if near else "Add it to `parts`, with its quantity."
        yield Found(span, f'"{step.title}" fits `{name}`, which is not among the `parts`', help, step)
        return
    most = max(_counts(step.prose, name), default=0)
    if most > part.quantity:
        what = f'"{step.title}" fits {most} of `{name}`, and `parts` lists {part.quantity}'
        yield Found(span, what, f"Write `quantity: {most}` there.", step)


def _counts(text: str, name: str) -> Iterator[int]:
    for found in re.finditer(f"{COUNT}{re.escape(name)}", text, re.IGNORECASE):
        said = found[1].lower()
        yield NUMBERS[said] if said in NUMBERS else int(said)
