"""How an energy is drawn, on every scale: its pipe, its isolating point, its proof."""

from __future__ import annotations

from hooks.check.analysis import State
from hooks.model import Energy

SHOWN = {None: "off", State.ON: "on", State.OFF: "off", State.RELEASED: "off", State.PROVED: "proved"}


def point(energy: Energy) -> str:
    """What cuts it: a blade for power, a round tap for the rest, nothing (a tank) for what is stored."""
    if energy.stored or not energy.points:
        return "tank"
    return "blade" if energy.name == "electricity" else "tap"


def sign(energy: Energy, on: bool) -> str:
    """The id of the isolating point's drawing; empty where there is no point."""
    kind = point(energy)
    if kind == "tank":
        return ""
    return f"{kind}-{'closed' if on else 'open'}" if kind == "blade" else f"tap-{'open' if on else 'shut'}"


def shown(state: State | None) -> str:
    """How a line is drawn: full, hatched or hollow. What is not known is hatched."""
    return SHOWN[state]
