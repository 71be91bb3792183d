"""Shared steps do not fit the page that uses them, or no page uses them.

Why:
    Shared steps are done as if they stood on the page: what they need must be said before
    that page is begun, and they must be meant for its machine. Steps that no page uses have
    been checked on no machine. Informed by the requirements before a task of DITA.

Example reported:
    tools: [screwdriver]

    ### Make it safe {#safe uses="cord-and-tap"}

Example mended:
    tools: [screwdriver, voltage tester, bucket]

    ### Make it safe {#safe uses="cord-and-tap"}
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found, listed
from hooks.diagnostics import Level
from hooks.model import Kind, Page
from hooks.parse.front_matter import ANY_MODEL
from hooks.parse.result import ParsedShop

LEVELS = (Level.ERROR, Level.WARNING)

LISTS = ("protect", "tools", "supplies", "parts")
"""What is named here on a page of shared steps is named on each page that uses them."""


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """What is not put in place, then machine, models and lists of each page of shared steps."""
    for step in page.steps:
        if step.uses:
            what = f"the shared steps `{step.uses}` are not in place"
            yield Found(step.span_of("uses"), what, "Check the page together with its shop.", step)
    for shared in page.shared:
        yield from _unfit(page, shared)
    if page.kind is Kind.SHARED_STEPS and not any(_uses(p.page, page.id) for p in shop.pages):
        mend = "Use them on a page, or take them out."
        yield Found(page.span, "no page uses these shared steps, so nothing checked them", mend, level=Level.WARNING)


def _uses(page: Page | None, id: str) -> bool:
    return page is not None and (any(s.id == id for s in page.shared) or any(s.uses == id for s in page.steps))


def _unfit(page: Page, shared: Page) -> Iterator[Found]:
    title = f"the shared steps `{shared.id}`"
    if shared.appliance and (shared.appliance_id, shared.appliance) != (page.appliance_id, page.appliance):
        what = f"{title} are for `{shared.appliance}`, and this page is for `{page.appliance}`"
        yield _found(page, "appliance", what, "Use steps that are shared for this machine.")
        return
    meant = {model.name for model in shared.models}
    others = [model.name for model in page.models if model.name not in meant]
    if others and meant != {ANY_MODEL}:
        what = f"{title} are not for {listed(others)}"
        yield _found(page, "models", what, "Narrow the models of this page, or widen those of the shared steps.")
    for name in LISTS:
        if lacking := sorted(_named(shared, name) - _named(page, name) - _told(page, name)):
            what = f"{title} need {listed(lacking)}, which `{name}` does not name"
            yield _found(page, name, what, f"Write it under `{name}` of this page.")


def _found(page: Page, key: str, what: str, mend: str) -> Found:
    return Found(page.front.spans.get(key, page.span), what, mend)


def _named(page: Page, name: str) -> set[str]:
    entries = getattr(page.front, name) or ()
    return {getattr(entry, "name", None) or entry.text for entry in entries}


def _told(page: Page, name: str) -> set[str]:
    """What is told at the step that uses it: see `tool-unlisted` and `part-unlisted`."""
    word = {"tools": "needs", "parts": "installs"}.get(name)
    return {thing for step in page.steps for thing in getattr(step, word)} if word else set()
