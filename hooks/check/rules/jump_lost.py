"""A jump leads to no step of its page, or `then` to no page of the shop.

Why:
    A reader sent nowhere goes on with whatever stands next. Informed by the
    references of DITA, which must resolve.

Example reported:
    ### Unplug {#unplug isolate="electricity"}
    Keep the plug in sight.
    ### Prove it {#prove verify="electricity"}
    - **Not proved**: [Unplug](#unplugg)

Example mended:
    ### Unplug {#unplug isolate="electricity"}
    Keep the plug in sight.
    ### Prove it {#prove verify="electricity"}
    - **Not proved**: [Unplug](#unplug)
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from hooks.check.found import Found
from hooks.model import Page, Step, WayOut
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each lost jump, then each lost `then`."""
    ids = [step.id for step in page.steps]
    for step in page.steps:
        for way in (*step.ways, *((step.next,) if step.next else ())):
            if way.target not in ids:
                yield _jump(step, way, ids)
        if step.then is not None and step.then not in shop.by_id:
            yield Found(
                step.span_of("then"),
                f'"{step.title}" goes on at `{step.then}`, which is no page of this shop',
                _meant(step.then, shop.by_id) or "Write the id of a page of this shop.",
                step,
            )


def _jump(step: Step, way: WayOut, ids: list[str]) -> Found:
    return Found(
        way.span,
        f'"{step.title}" leads to `#{way.target}`, which is no step of this page',
        _meant(way.target, ids) or "Write the id of a step of this page.",
        step,
    )


def _meant(word: str, known: Iterable[str]) -> str:
    near = get_close_matches(word, list(known), 1)
    return f"Did you mean `{near[0]}`?" if near else ""
