"""A page of two hundred steps, six energies and four models, and how long it takes.

Run as a script it prints the time: `python -m paths.large` from the folder of the tests,
with the project on the path.
"""

from __future__ import annotations

import random
import time
from dataclasses import replace

from hooks.check import analyse
from hooks.model import Page, Shop
from hooks.parse import page
from hooks.parse.result import ParsedPage, ParsedShop
from hooks.source import from_text

from .shapes import Action, Bullet, Job, Source, markdown

SOURCES = (
    Source("electricity", ("plug", "breaker")),
    Source("water", ("tap",), trapped=True),
    Source("hot-water", ("tap",), trapped=True, only="hot"),
    Source("gas", ("cock",), only="gas"),
    Source("heat", fed_by="electricity"),
    Source("steam", fed_by="heat"),
)
MODELS = (("A1", ()), ("A2", ("hot",)), ("A3", ("gas",)), ("A4", ("hot", "gas")))
NAMES = tuple(s.name for s in SOURCES)
SUPPLIES = tuple(s.name for s in SOURCES if s.fed_by is None)


def job(steps: int = 200, seed: int = 1, wild: bool = False) -> Job:
    """Rounds of making safe, working and testing, with questions that lead back and ahead.

    A wild page closes other lids than it opens and jumps into the middle of rounds, so that
    its states multiply: no writer's page is like that, the state limit is for it.
    """
    chance = random.Random(seed)
    actions: list[Action] = []
    while len(actions) < steps - 1:
        actions += _round(len(actions), steps, chance, wild)
    return Job(MODELS, SOURCES, NAMES, (*actions[: steps - 1], Action(end="in service", says=NAMES)))


def _round(first: int, steps: int, chance: random.Random, wild: bool) -> list[Action]:
    """Ten steps; the question at their end leads to the start of any round, or anywhere."""
    onward = [chance.randrange(0, steps, 1 if wild else 10) for _ in range(3)]
    opened = f"lid-{chance.randrange(4)}"
    closed = f"lid-{chance.randrange(4)}" if wild else opened
    no = Bullet("", first, False)
    hot = Action((("isolate", ("hot-water",)),), frozenset({"optional"}), only="hot")
    return [
        Action((("isolate", SUPPLIES),), says=NAMES),
        replace(hot, says=("hot-water",)),
        Action((("release", NAMES),), says=NAMES),
        Action((("verify", NAMES),), says=NAMES, bullets=(no,)),
        Action((("opens", (opened,)),), frozenset({"work"})),
        Action((), frozenset({"work", "optional"})),
        Action((("closes", (closed,)),), frozenset({"work"})),
        Action((("restore", (chance.choice(SUPPLIES),)),), frozenset({"clear", "for-test"})),
        Action((("test", ("electricity",)),), frozenset({"optional"}), says=NAMES),
        Action((), frozenset({"decide"}), bullets=tuple(Bullet(f"Answer {n}", t) for n, t in enumerate(onward))),
    ]


def parsed(wild: bool = False) -> tuple[Page, ParsedShop]:
    """The page as it comes from its Markdown."""
    one: ParsedPage = page(from_text(markdown(job(wild=wild)), "large.md"), Shop(None))
    assert one.page is not None and one.sound, one.findings
    return one.page, ParsedShop(Shop(None), (one,), ())


if __name__ == "__main__":
    for wild in (False, True):
        made, shop = parsed(wild)
        began = time.process_time()
        found, _ = analyse(made, shop)
        took = time.process_time() - began
        kind = "wild" if wild else "like a writer's"
        print(f"{kind}: {len(made.steps)} steps, {len(found)} findings, {took:.2f} s of CPU")
