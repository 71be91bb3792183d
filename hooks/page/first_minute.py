"""Signs that a machine must be left alone, and what anyone may do in the first minute.

The words are in `languages/`: common practice, no source. Nothing there asks anyone to
touch the machine, to stand in water or to work a switch where gas may be.
"""

from __future__ import annotations

from dataclasses import dataclass

from hooks.page.languages import Language, language


@dataclass(frozen=True, slots=True)
class Sign:
    """What someone notices, and the first lines of what to do; ringing the shop comes after them."""

    id: str
    title: str
    said: tuple[str, ...]
    """What people type when they notice it."""
    lines: tuple[str, ...]


def signs(say: Language) -> tuple[Sign, ...]:
    """All of them, in one language."""
    return tuple(Sign(s["id"], s["title"], tuple(s["said"]), tuple(s["lines"])) for s in say.texts["signs"])


SIGNS = signs(language())
