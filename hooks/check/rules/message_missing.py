"""An energy is met on some path without its message having been read.

Why:
    A reader who was not told does not look out. Every message of an energy is spent
    when that energy is turned on again: the reader has been away and needs telling
    again. Informed by IEC/IEEE 82079-1 (a warning stands before the first step or
    directly before the step it concerns) and by S1000D (the warnings of a procedure
    name all that applies).

Example reported:
    ### Plug in for the test {#power restore="electricity" for-test clear}
    Tools out.
    ### Unplug again {#unplug isolate="electricity"}
    Pull the plug.
    ### Prove it again {#prove verify="electricity"}
    - **Not proved**: [Unplug again](#unplug)

Example mended:
    ### Plug in for the test {#power restore="electricity" for-test clear}
    Tools out.
    ### Unplug again {#unplug isolate="electricity"}
    Pull the plug.
    ### Prove it again {#prove verify="electricity"}
    !!! warning electricity "Shock"
        Live parts can kill. Prove it is dead before you touch it.

    - **Not proved**: [Unplug again](#unplug)
"""

from __future__ import annotations

from collections.abc import Iterable

from hooks.check.breach import Breach, Move
from hooks.check.energy import Act, Machine, Situation, Word

ACTS = (Word.HANDS, Word.RELEASE, Word.VERIFY, Word.TEST)
HERE = "no message in force here"

KINDS = {
    Word.HANDS: "hands-on step",
    Word.RELEASE: "step",
    Word.VERIFY: "proof",
    Word.TEST: "live test",
}


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int]:
    """Hands-on meets every energy; the other acts the ones they name."""
    met = range(len(machine.energies)) if act.word is Word.HANDS else act.energies
    return [e for e in met if e not in now.warned]


def cause(move: Move, breach: Breach) -> str:
    """Turning the energy on again is what spends its message."""
    spent = move.before.warned - move.after.warned
    return "its message is spent here" if breach.energy in spent else ""


def say(breach: Breach) -> tuple[str, str]:
    """Which energy is met untold."""
    kind = KINDS[breach.act.word]
    return (
        f'{kind} "{breach.step.title}" can be reached without a message about {breach.name} in force',
        f'Put a message such as `!!! warning {breach.name} "…"` first under line '
        f"{breach.step.span.line}.",
    )
