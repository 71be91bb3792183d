"""A decision has fewer than two ways out, or a bullet among ways out leads nowhere.

Why:
    A question with one answer is no question, and a reader whose answer has no jump
    guesses. A way out that is missing is taken as no way at all, never as falling
    through to the next step.

Example reported:
    ### Is the coil good? {#good decide}
    - Yes: [Swap the board](#board)
    - No: swap the valve

Example mended:
    ### Is the coil good? {#good decide}
    - Yes: [Swap the board](#board)
    - No: [Swap the valve](#valve)
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.model import Page
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each bullet without exactly one jump; a decision that lacks bullets altogether."""
    for step in page.steps:
        for span in step.jumpless:
            yield Found(
                span,
                f'this way out of "{step.title}" does not have exactly one jump',
                "End it with one link to a step: `[…](#…)`. What leads nowhere stands in a sentence above them.",
                step,
            )
        if step.decide and not step.jumpless and len(step.ways) < 2:
            yield Found(
                step.span_of("decide"),
                f'decision "{step.title}" has {_count(len(step.ways))}',
                "Give each answer a bullet with a link to a step.",
                step,
            )


def _count(ways: int) -> str:
    return "only one way out" if ways else "no way out"
