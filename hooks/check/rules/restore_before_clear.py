"""An energy is turned on again before tools and people are clear of the machine.

Why:
    Someone's hand may still be inside. `clear` prints the shop's clearing sentence;
    any hands-on step after it undoes it. Informed by 29 CFR 1910.147(e)(1) and (2)
    and (f)(1).

Example reported:
    ### Swap the part {#swap work}
    One wire at a time.
    ### Plug in {#plug-in restore="electricity"}
    Dry hands.

Example mended:
    ### Swap the part {#swap work}
    One wire at a time.
    ### Plug in {#plug-in restore="electricity" clear}
    Dry hands.
"""

from __future__ import annotations

from collections.abc import Iterable

from hooks.check.breach import Breach, Move
from hooks.check.energy import Act, Machine, Situation, Word

ACTS = (Word.RESTORE,)
HERE = "turned on here, not clear"


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int]:
    """Every energy turned on while not clear."""
    return () if now.clear else act.energies


def cause(move: Move, breach: Breach) -> str:
    """The last hands-on step."""
    return "hands-on here" if not move.way.skipped and move.step.hands_on else ""


def say(breach: Breach) -> tuple[str, str]:
    """Which energy is turned on too early."""
    return (
        f'"{breach.step.title}" turns on {breach.name} before tools and people are clear',
        f"Write `clear` on line {breach.step.span.line}: the shop's clearing sentence is printed there.",
    )
