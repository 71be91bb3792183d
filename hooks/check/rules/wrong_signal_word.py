"""A message about an energy carries a milder signal word than it may.

Why:
    The word is what a reader sees first. Mains, gas and scalding can kill, so nothing below
    `warning` will do; `notice` never stands for an energy. The facts of a machine may ask
    for another word. Informed by ANSI Z535.6: notice is not about injury, caution not about death.

Example reported:
    ### Open the panel {#open work}
    !!! notice electricity "Live parts"
        Prove first.

Example mended:
    ### Open the panel {#open work}
    !!! warning electricity "Live parts"
        Live parts can kill. Prove first.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.model import Energy, Message, Page, Step
from hooks.parse.result import ParsedShop
from hooks.parse.words import SIGNAL_WORDS

MILDEST = dict.fromkeys(("electricity", "gas", "hot-water", "heat"), "warning")
"""By the name of an energy, where its facts say nothing; `caution` for any other."""


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each energy of each message for which its word is too mild."""
    placed: list[tuple[Step | None, Message]] = [(None, m) for m in page.messages]
    placed += [(s, m) for s in page.steps for m in s.messages + s.late_messages]
    for step, message in placed:
        for energy in page.energies:
            if energy.name in message.energies and _too_mild(message, energy):
                what = f"`{message.word}` is too mild a word for {energy.name}"
                help = f"Write `{_least(energy)}`, or a stronger word."
                yield Found(message.span, what, help, step, energy.name)


def _least(energy: Energy) -> str:
    return energy.lowest_word or MILDEST.get(energy.name, "caution")


def _too_mild(message: Message, energy: Energy) -> bool:
    return SIGNAL_WORDS.index(message.word) > SIGNAL_WORDS.index(_least(energy))
