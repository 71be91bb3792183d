"""A message stands after the instruction it should come before.

Why:
    Who reads "take off the cover" and then "it is live" has taken off the cover.
    Informed by DITA 1.2 (notes before the command of a step), S1000D (the warning is
    the first item of its step) and IEC/IEEE 82079-1.

Example reported:
    ### Open the panel {#open work opens="panel"}
    Two screws.

    !!! danger electricity "Live"
        Live terminals kill.

Example mended:
    ### Open the panel {#open work opens="panel"}
    !!! danger electricity "Live"
        Live terminals kill.

    Two screws.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.model import Page
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each message that stands too late; the analysis does not count it."""
    for step in page.steps:
        for message in step.late_messages:
            yield Found(
                message.span,
                f'the {message.word} "{message.title}" stands after what it warns of',
                f'Move it up, first thing under "{step.title}" (line {step.span.line}).',
                step,
            )
