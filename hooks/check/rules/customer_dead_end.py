"""A path of a customer's page does not end well, or danger is asked for too late.

Why:
    A customer must come out at `solved`, `book a repair` or `stop using it`, must not
    be led to a technician's page, and goes straight to `stop using it` on a sign of
    danger such as a smell, smoke, a spark or a leak. One of the first two questions asks
    for such signs. `stop using it` says what to do where it is wet.

Example reported:
    ### Do you smell burning? {#smell decide}
    - Yes: [Is the light on?](#light)
    - No: [All good](#good)

Example mended:
    ### Do you smell burning? {#smell decide}
    - Yes: [Stop using it](#stop)
    - No: [All good](#good)
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import PurePosixPath

from hooks.check.found import Found
from hooks.diagnostics import Level
from hooks.model import ORIGINAL, Kind, Page, Step, WayOut
from hooks.parse.result import ParsedShop

EARLY = 2
STOP = "stop using it"
DANGER = re.compile(r"\b(smell\w*|smok\w+|spark\w*|leak\w*|burning|shock\w*|scorch\w*)\b", re.IGNORECASE)
"""Signs of danger; common practice, no source."""
WET = re.compile(r"\b(?:dry|wet|water)\b", re.IGNORECASE)
LEVELS = (Level.ERROR, Level.WARNING)
DENIED = re.compile(r"\b(no|not|never|none|without|nothing)\b|n't\b", re.IGNORECASE)
LINK = re.compile(r"\]\(([^)#\s]+)(?:#[^)]*)?\)")


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Links to technicians' pages and signs of danger that do not stop."""
    if page.kind is not Kind.SELF_CHECK:
        return
    yield from _to_technicians(page, shop)
    if page.language == ORIGINAL:
        yield from _late(page)
    for step in page.steps:
        for way in step.ways:
            if _danger(step, way) and not _stops(page, way):
                yield Found(
                    way.span,
                    f'a sign of danger in "{step.title}" does not lead straight to `stop using it`',
                    'Lead this way out to a step with `end="stop using it"`.',
                    step,
                )


def _late(page: Page) -> Iterator[Found]:
    """Danger that is not asked for first, and an end that does not say what to do where it is wet."""
    asked = [step for step in page.steps if step.decide]
    if len(asked) > EARLY and not any(_asks(page, step) for step in asked[:EARLY]):
        yield Found(
            asked[0].span,
            f"none of the first {EARLY} questions asks for signs of danger",
            "Begin with a question about smell, smoke, sparks and water near power, and lead from it to `stop using it`.",
            asked[0],
            level=Level.WARNING,
        )
    for step in page.steps:
        if step.end == STOP and not WET.search(step.prose):
            yield Found(
                step.span,
                f'"{step.title}" does not say what to do where it is wet',
                "Say what to leave alone, and what can be switched off from a dry place.",
                step,
                level=Level.WARNING,
            )


def _asks(page: Page, step: Step) -> bool:
    return bool(DANGER.search(f"{step.title} {step.prose}")) and any(_ends(page, way) for way in step.ways)


def _to_technicians(page: Page, shop: ParsedShop) -> Iterator[Found]:
    texts: list[tuple[Step | None, str]] = [(None, page.intro), *((None, s.intro) for s in page.stages)]
    texts += [(step, f"{step.prose}\n]({step.then or ''})") for step in page.steps]
    for step, text in texts:
        for name in dict.fromkeys(LINK.findall(text)):
            if _technical(shop, PurePosixPath(name).stem):
                yield Found(
                    step.span if step else page.span,
                    f"a customer is led to the technician's page `{name}`",
                    "Let the customer end at `book a repair`.",
                    step,
                )


def _technical(shop: ParsedShop, name: str) -> bool:
    """Whether a page of that id, or in a file of that name, is for technicians."""
    return any(p.kind in (Kind.PROCEDURE, Kind.SHARED_STEPS) for p in shop.named.get(name, ()))


def _danger(step: Step, way: WayOut) -> bool:
    """The words of the way out name a sign of danger, or answer yes to a question that does."""
    if DENIED.search(way.words):
        return False
    asked = DANGER.search(step.title) and way.words.lower().startswith("yes")
    return bool(DANGER.search(way.words) or asked)


def _stops(page: Page, way: WayOut) -> bool:
    return page.step(way.target) is None or _ends(page, way)


def _ends(page: Page, way: WayOut) -> bool:
    target = page.step(way.target)
    return target is not None and target.end == STOP
