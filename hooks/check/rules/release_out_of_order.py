"""What is stored or trapped is let out before its supply is off, or proved before it is let out.

Why:
    Letting out what is still being fed never ends, and a proof made before letting
    out proves nothing about what stayed in. Informed by 29 CFR 1910.147(d)(5): stored
    energy is relieved after isolating and before verifying.

Example reported:
    ### Cool the tank {#cool release="heat"}
    Run the hot tap.
    ### Switch off {#off isolate="electricity"}
    Lock it.

Example mended:
    ### Switch off {#off isolate="electricity"}
    Lock it.
    ### Cool the tank {#cool release="heat"}
    Run the hot tap.
"""

from __future__ import annotations

from collections.abc import Iterable

from hooks.check.analysis import State
from hooks.check.breach import Breach, place
from hooks.check.energy import Act, Machine, Situation, Word, can_prove, can_release

ACTS = (Word.RELEASE, Word.VERIFY)
HERE = "out of order here"


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int]:
    """A supply that is still ON at its proof is told by verify-before-isolate instead."""
    if act.word is Word.RELEASE:
        return [e for e in act.energies if not can_release(e, now, machine)]
    return [
        e
        for e in act.energies
        if not can_prove(e, now, machine)
        and (machine.energies[e].stored or now.states[e] is not State.ON)
    ]


def say(breach: Breach) -> tuple[str, str]:
    """What comes too early, and what must come first."""
    line = breach.step.span.line
    if breach.act.word is Word.RELEASE:
        feeder = breach.machine.energies[breach.energy or 0].charged_by or breach.name
        return (
            f'"{breach.step.title}" lets out {breach.name} while {feeder} is still ON',
            f"Isolate {feeder} on this path, before line {line}.",
        )
    first = breach.step_that("release")
    how = f"Lead this path through {place(first, breach)}" if first else f"Let out {breach.name} in a step"
    return (
        f'"{breach.step.title}" proves {breach.name} before it was let out',
        f"{how} before line {line}.",
    )
