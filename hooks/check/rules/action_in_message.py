"""A message holds a procedure, or is too long to be read before the hand moves.

Why:
    What is done inside a message is not ticked off, and no check follows it. Steps belong in
    steps; a message says what can happen, what comes of it, and how to keep out of it. Informed
    by IEC/IEEE 82079-1 (short, before the step; long safe procedures live elsewhere).

Example reported:
    ### Cut the water {#off isolate="water"}
    !!! warning water "Flood"
        1. Turn the valve.
        2. Drain the hose.

    Turn the valve and tag it.

Example mended:
    ### Cut the water {#off isolate="water"}
    !!! warning water "Flood"
        Water stays in the hose. It floods the room. Drain it before you undo it.

    Turn the valve and tag it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.messages import placed
from hooks.diagnostics import Level
from hooks.model import Page
from hooks.parse.result import ParsedShop

LEVELS = (Level.ERROR, Level.WARNING)
NUMBERED = re.compile(r"^\s*1[.)]\s|(?:^|\s)1[.)]\s.*\s2[.)]\s", re.MULTILINE | re.DOTALL)
LONG = 60
"""Words; common practice, no source."""


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each list of acts, else each long text; a jump in a message is told on reading."""
    for step, message in placed(page):
        words = len(message.text.split())
        if NUMBERED.search(message.text):
            what = f'the {message.word} "{message.title}" holds a list of things to do'
            yield Found(message.span, what, "Make each of them a step, and let the message say the danger.", step)
        elif words > LONG:
            what = f'the {message.word} "{message.title}" has {words} words'
            help = f"Keep it under {LONG}: what can happen, what comes of it, how to keep out of it."
            yield Found(message.span, what, help, step, level=Level.WARNING)
