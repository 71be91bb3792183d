"""A message lacks the danger, what comes of it, or how to keep out of it.

Why:
    "Be careful!" helps nobody. A message names the danger, what it does to people or things,
    and what keeps one from it; its title counts as the first. Informed by ANSI Z535.6, by the
    message panel of DITA and by IEC/IEEE 82079-1.

Example reported:
    ### Open the panel {#open work}
    !!! warning electricity "Be careful"
        Live parts!

    Six screws.

Example mended:
    ### Open the panel {#open work}
    !!! warning electricity "Shock"
        Live parts are behind it. They can kill. Touch nothing before it is proved off.

    Six screws.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from hooks.check.english import AVOID, sentences
from hooks.check.found import Found
from hooks.check.messages import placed
from hooks.diagnostics import Level
from hooks.model import Page
from hooks.model.page import ORIGINAL
from hooks.parse.result import ParsedShop

LEVELS = (Level.WARNING,)
PARTS = 3
"""The title, and at least two sentences or lines."""


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each English message with too few parts or nothing to do; a notice is not about people."""
    for step, message in placed(page) if page.language == ORIGINAL else ():
        if message.word == "notice":
            continue
        if lacks := _lacks(message.text):
            yield Found(
                message.span,
                f'the {message.word} "{message.title}" {lacks}',
                "Say what can happen, what comes of it, and what to do or leave so that it does not.",
                step,
                level=Level.WARNING,
            )


@lru_cache(maxsize=4096)
def _lacks(text: str) -> str:
    """What a message does not do, empty where it does all; many pages of a shop warn in the same words."""
    if 1 + len(sentences(text)) < PARTS:
        return "says too little"
    return "" if AVOID.search(text) else "does not say how to keep out of it"
