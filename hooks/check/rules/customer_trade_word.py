"""A customer's page uses a word of the trade that is not explained.

Why:
    A customer who does not know a word guesses, or stops. The shop explains such words once,
    under `trade-words` in the shop facts, and the page shows the explanation on each
    question that has the word. Words in brackets right behind it explain it too. Only
    English words are known here; a translation has the same explanations by its own words.

Example reported:
    ### Is the inlet valve humming? {#hum decide}
    - Yes: [Book a repair](#book)
    - No: [All good](#good)

Example mended:
    ### Does the machine hum when it should take in water? {#hum decide}
    - Yes: [Book a repair](#book)
    - No: [All good](#good)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hooks.check.customers import read, trade_words
from hooks.check.found import Found, listed
from hooks.diagnostics import Level
from hooks.model import ORIGINAL, Kind, Page
from hooks.parse.result import ParsedShop

LEVELS = (Level.WARNING,)

TRADE = tuple(
    """
    ampere, backflow, ballast, bimetal, breaker, calibrate, capacitor, circuit board, compressor, condenser,
    continuity, contactor, control board, cut-out, cycle fault, de-energize, defrost cycle, diagnose, diverter, drain
    pump, earth leakage, evaporator, fill tube, fill valve, flow control, fuse, GFCI, harness, heating element,
    impeller, inlet, isolate, isolating valve, limit switch, manifold, mains, motherboard, multimeter, ohm, PCB,
    pressure switch, purge, RCD, refrigerant, relay, residual current, saddle valve, sensor, shut-off valve, siphon,
    solenoid, stop valve, stopcock, strainer, sump, supply line, terminal, thermal fuse, thermistor, thermostat,
    transformer, voltage, water hammer, winding
    """.replace("\n", " ").split(",")
)
"""Words that people who do not repair machines may not know; common practice, no source."""
WORDS = tuple(" ".join(word.split()) for word in TRADE)
IN_BRACKETS = re.compile(r"(\b[\w-]+(?: [\w-]+)?) \([^()]+\)")


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """One finding a question; the words before the first one count as one."""
    if page.kind is not Kind.SELF_CHECK or page.language != ORIGINAL:
        return
    explained = {word.lower() for word, _ in shop.shop.trade_words}
    words = tuple(word for word in WORDS if word.lower() not in explained)
    for step, texts in read(page):
        said = trade_words(texts, words)
        here = trade_words((found for text in texts if said for found in IN_BRACKETS.findall(text)), words)
        missing = [f'"{word}"' for word in said if word not in here]
        if missing:
            yield Found(
                step.span if step else page.span,
                f'"{step.title if step else page.title}" says {listed(missing)} and does not explain it',
                "Say it in other words, or explain it under `trade-words` in the shop facts.",
                step,
                level=Level.WARNING,
            )
