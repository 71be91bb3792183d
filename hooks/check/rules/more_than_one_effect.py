"""A step does more than one thing to the machine.

Why:
    Where one step does two things, nobody can say what is known between them. Only
    isolate, release and verify of the same energies may share a step; they apply in
    that order. Informed by DITA (one command a step).

Example reported:
    ### Shut the tap and take off the hose {#tap isolate="water" work}
    Turn it fully, then undo the hose.

Example mended:
    ### Shut the tap, drain it, prove it dry {#tap isolate="water" release="water" verify="water"}
    Turn it fully, drain the hose, watch its end.
    - **Not proved**: [Stop](#stop)
    ### Take off the hose {#hose work}
    Undo it.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found, listed
from hooks.model import Page, Step
from hooks.parse.result import ParsedShop

EFFECTS = ("isolate", "release", "verify", "work", "restore", "test", "check", "ready", "end", "uses")
MAKES_SAFE = {"isolate", "release", "verify"}
BARE = {"end", "restore", "test"}
"""Effects beside which hands do nothing: who reads the step might do that after turning on."""
HANDS = ("opens", "closes", "installs")


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """One finding at the second effect of a step."""
    for step in page.steps:
        written = _written(step)
        if len(written) > 1 and not _may_share(step, written):
            second = sorted((step.span_of(word), word) for word in written)[1][1]
            yield Found(
                step.span_of(second),
                f'step "{step.title}" does {len(written)} things: {listed([f"`{w}`" for w in written])}',
                _help(written, second),
                step,
            )


def _written(step: Step) -> list[str]:
    words = [word for word in EFFECTS if getattr(step, word)]
    if BARE.intersection(words):
        words += [word for word in HANDS if getattr(step, word)]
    return words


def _may_share(step: Step, written: list[str]) -> bool:
    named = {frozenset(getattr(step, word)) for word in written} if MAKES_SAFE >= set(written) else ()
    return len(named) == 1


def _help(written: list[str], second: str) -> str:
    if MAKES_SAFE >= set(written):
        return "Let each of them name the same energies, or make a step of each."
    return f"Move `{second}` into a step of its own."
