"""Hands are at the machine while an energy is not proved off.

Why:
    A hand in a live machine can be the last thing it touches. Every energy of the
    machine must be proved off on every path before hands-on work; a live test with
    something open allows only the tested energy on. Turning an energy on charges again all
    that it makes: a tank heated for a test is hot, whatever was proved before. Informed by
    29 CFR 1910.147(d)(5)(ii) (what builds up again), (d)(6) (verify before work) and
    1910.333(b) (treat as live until proved).

Example reported:
    ### Unplug {#unplug isolate="electricity"}
    Pull the plug.
    ### Open the panel {#open work opens="panel"}
    Two screws.

Example mended:
    ### Unplug {#unplug isolate="electricity"}
    Pull the plug.
    ### Prove it {#prove verify="electricity"}
    - **Not proved**: [Unplug](#unplug)
    ### Open the panel {#open work opens="panel"}
    Two screws.
"""

from __future__ import annotations

from collections.abc import Iterable

from hooks.check.analysis import State
from hooks.check.breach import Breach, make_safe
from hooks.check.energy import Act, Machine, Situation, Word
from hooks.model import Step

ACTS = (Word.HANDS, Word.TEST)
HERE = "hands-on here"


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int]:
    """At hands-on, every energy; at a live test with something open, every other supply."""
    if act.word is Word.TEST:
        risky = machine.supplies if now.open else ()
        return [e for e in risky if e not in act.energies and now.states[e] is not State.PROVED]
    if opens_to_prove(act.step):
        return ()
    return [e for e, state in enumerate(now.states) if state is not State.PROVED]


def opens_to_prove(step: Step) -> bool:
    """A proof that must open a cover: with a danger or warning, and a tester in hand.

    Nothing can be proved through a cover; a supply that is ON beside it is told as a look
    into a live machine.
    """
    warned = any(m.word in ("danger", "warning") for m in step.messages)
    tester = any("tester" in tool or "meter" in tool for tool in step.needs)
    return bool(step.verify and step.opens) and not step.work and warned and tester


def say(breach: Breach) -> tuple[str, str]:
    """What was reached with which energy in which state."""
    kind = "live test" if breach.act.word is Word.TEST else "hands-on step"
    return (
        f'{kind} "{breach.step.title}" can be reached with {breach.name} {breach.state.words}',
        make_safe(breach),
    )
