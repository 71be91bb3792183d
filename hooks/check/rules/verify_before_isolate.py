"""An energy is proved off on a path where it was never cut, or is on again.

Why:
    A proof that passes while the supply is on is luck or a broken tester. Informed by
    29 CFR 1910.147(d)(3) to (d)(6): isolate, relieve, then verify.

Example reported:
    ### Is it unplugged? {#already decide}
    - Yes: [Prove it](#prove)
    - No: [Unplug](#unplug)
    ### Unplug {#unplug isolate="electricity"}
    Pull the plug.
    ### Prove it {#prove verify="electricity"}
    - **Not proved**: [Unplug](#unplug)

Example mended:
    ### Unplug, or see that it is unplugged {#unplug isolate="electricity"}
    Keep the plug in sight.
    ### Prove it {#prove verify="electricity"}
    - **Not proved**: [Unplug](#unplug)
"""

from __future__ import annotations

from collections.abc import Iterable

from hooks.check.analysis import State
from hooks.check.breach import Breach, place
from hooks.check.energy import Act, Machine, Situation, Word

ACTS = (Word.VERIFY,)
HERE = "proved here while ON"


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int]:
    """Supplies only: what is stored is let out, not isolated."""
    named = (e for e in act.energies if e in machine.supplies)
    return [e for e in named if now.states[e] is State.ON]


def say(breach: Breach) -> tuple[str, str]:
    """Which supply is still on."""
    first = breach.step_that("isolate")
    how = f"Lead this path through {place(first, breach)}" if first else f"Isolate {breach.name} in a step"
    return (
        f'proof "{breach.step.title}" can be reached with {breach.name} ON',
        f"{how} before line {breach.step.span.line}.",
    )
