"""Signs that a machine must be left alone, and what anyone may do in the first minute.

Common practice, no source, except where a line names one. Nothing here asks anyone to
touch the machine, to stand in water or to work a switch where gas may be.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sign:
    """What someone notices, and the first lines of what to do; ringing the shop comes after them."""

    id: str
    title: str
    said: tuple[str, ...]
    """What people type when they notice it."""
    lines: tuple[str, ...]


SIGNS = (
    Sign(
        "burning",
        "It smells of burning",
        ("burning smell", "smoke", "sparks", "fire", "scorched plug or cable"),
        (
            "Leave the machine alone. Do not touch it, its plug or its cable.",
            "Flames, or smoke that grows: everyone out, close the door behind you, ring the fire service from outside.",
            "Else cut the power at the breaker, if you can get there on dry floor and away from the smoke.",
            "Keep people away from it. Leave it off, also if the smell goes.",
        ),
    ),
    Sign(
        "water",
        "Water on the floor",
        ("water near the plug", "water under the machine", "leak", "flood", "wet outlet"),
        (
            "Stay out of the water: it may be live where a plug, a cable or a machine stands in it.",
            "Cut the power at the breaker, standing on dry floor. If you cannot, keep everyone out.",
            "Shut the water where it enters the room or the house, if you can get there dry.",
            "Do not pull plugs and do not mop before the power is off.",
        ),
    ),
    Sign(
        "shock",
        "It tingles, or someone had a shock",
        ("electric shock", "tingles when touched", "got a shock"),
        (
            "Nobody touches the machine, nor the pipes and metal beside it.",
            "Someone hurt or still holding on: cut the power at the breaker first, then ring the emergency service.",
            "Cut the power at the breaker in any case, standing on dry floor.",
        ),
    ),
    Sign(
        "gas",
        "It smells of gas",
        ("gas smell", "gas leak"),
        (
            "No flame, no switch, no plug, no telephone in the room: leave them all as they are.",
            "Everyone out. Leave doors open as you go.",
            "Shut the gas outside the room if you can get at it. Ring the gas supplier or the fire service from outside.",
        ),
    ),
)
