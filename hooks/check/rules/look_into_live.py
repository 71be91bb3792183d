"""Someone looks into an open machine while a supply is on.

Why:
    A look becomes a touch. With something open and a supply on, only a marked live
    test is allowed. Informed by 29 CFR 1910.147(f)(1) and 1910.333(a).

Example reported:
    ### Power up for the test {#power restore="electricity" for-test clear}
    Tools out.
    ### Look at the relay {#relay check}
    Does it click?

Example mended:
    ### Power up for the test {#power restore="electricity" for-test clear}
    Tools out.
    ### Look at the relay {#relay test="electricity"}
    !!! danger electricity "Live"
        Live terminals kill. Keep your hands behind you.

    Does it click?
"""

from __future__ import annotations

from collections.abc import Iterable

from hooks.check.analysis import State
from hooks.check.breach import Breach
from hooks.check.energy import Act, Machine, Situation, Word
from hooks.check.found import listed

ACTS = (Word.LOOK,)
HERE = "looked into here"


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int]:
    """Every supply that is ON while something is open."""
    return [e for e in machine.supplies if now.open and now.states[e] is State.ON]


def say(breach: Breach) -> tuple[str, str]:
    """What is open and what is on."""
    return (
        f'"{breach.step.title}" can be reached with {breach.name} ON and the '
        f"{listed(sorted(breach.now.open))} open",
        f'Close up before line {breach.step.span.line}, or mark it `test="{breach.name}"` '
        "with its own message.",
    )
