"""Someone looks, measures, drains or proves at an open machine while a supply is on.

Why:
    A look becomes a touch. With something open and a supply on, only a marked live
    test is allowed; what lets out or proves one energy must not do it beside another that
    is on. Informed by 29 CFR 1910.147(f)(1) and 1910.333(a).

Example reported:
    ### Open the panel {#open work opens="panel"}
    Six screws.
    ### Power up for the test {#power restore="electricity" for-test clear}
    Tools out.
    ### Look at the relay {#relay check}
    Does it click?

Example mended:
    ### Open the panel {#open work opens="panel"}
    Six screws.
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

ACTS = (Word.LOOK, Word.RELEASE, Word.VERIFY)
HERE = "looked into here"


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int]:
    """Every supply that is ON while something is open, but what is let out or proved itself."""
    live = (e for e in machine.supplies if now.open and now.states[e] is State.ON)
    return [e for e in live if e not in act.energies]


def say(breach: Breach) -> tuple[str, str]:
    """What is open and what is on."""
    return (
        f'"{breach.step.title}" can be reached with {breach.name} ON and the '
        f"{listed(sorted(breach.now.open))} open",
        f"Isolate and prove {breach.name} before line {breach.step.span.line}, or close up first{_or_test(breach)}.",
    )


def _or_test(breach: Breach) -> str:
    looks = breach.act.word is Word.LOOK
    return f'; if {breach.name} must be on for it, mark it `test="{breach.name}"` with its own message' if looks else ""
