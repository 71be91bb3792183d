"""Something that was opened or fitted for a test is still so when power comes back or the job ends.

Why:
    The next person meets live parts without a cover. Informed by 29 CFR 1910.147(e)(1):
    the machine is operationally intact before it is turned on again.

Example reported:
    ### Open the panel {#open work opens="panel"}
    Two screws.
    ### Plug in {#plug-in restore="electricity" clear}
    Dry hands.

Example mended:
    ### Open the panel {#open work opens="panel"}
    Two screws.
    ### Close the panel {#close work closes="panel"}
    Two screws.
    ### Plug in {#plug-in restore="electricity" clear}
    Dry hands.
"""

from __future__ import annotations

from collections.abc import Iterable

from hooks.check.breach import Breach, Move
from hooks.check.energy import Act, Machine, Situation, Word
from hooks.check.found import listed

ACTS = (Word.RESTORE, Word.END)
HERE = "still open here"


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int | None]:
    """At a restore that is not for a test, and at every end but `stopped`.

    A page that goes on from an end begins with nothing open, so there `stopped` is no excuse.
    """
    if not now.open:
        return ()
    if act.word is Word.RESTORE:
        return () if act.step.for_test else act.energies
    return () if act.step.end == "stopped" and act.step.then is None else (None,)


def cause(move: Move, breach: Breach) -> str:
    """What was opened, and where."""
    opened = sorted((move.after.open - move.before.open) & breach.now.open)
    return f"{listed(opened)} opened here" if opened else ""


def say(breach: Breach) -> tuple[str, str]:
    """What is open."""
    things = listed(sorted(breach.now.open))
    first = sorted(breach.now.open)[0]
    closed = "is closed" if len(breach.now.open) == 1 else "are closed"
    what = f"turns on {breach.name}" if breach.name else "ends the job"
    return (
        f'"{breach.step.title}" {what} before the {things} {closed} again',
        f'Close it first, in a step with `closes="{first}"`.',
    )
