"""A step's title is no command or question, or is two of them, or has nothing under it.

Why:
    A step is one thing to do: what is read aloud, ticked off and jumped to is its title. A
    title such as "Panel" leaves open what to do with it; "unplug it, then open it" is two steps
    of which one is lost. Informed by DITA (a step has exactly one `cmd`).

Example reported:
    ### Panel {#panel work}
    Six screws.

Example mended:
    ### Open the panel {#panel work}
    Six screws.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hooks.check.english import commands, surely_commands
from hooks.check.found import Found
from hooks.diagnostics import Level
from hooks.model import Kind, Page, Step
from hooks.parse.links import plain
from hooks.parse.result import ParsedShop

LEVELS = (Level.WARNING,)
THEN = re.compile(r",? (?:and )?then (.+)", re.IGNORECASE)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """One finding a step of a procedure; an end is a state of things, and needs neither."""
    for step in page.steps if page.kind is Kind.PROCEDURE else ():
        if step.end is None:
            yield from _faults(step)


def _faults(step: Step) -> Iterator[Found]:
    title = plain(step.title)
    second = THEN.search(title)
    if not title.endswith("?") and not commands(title):
        yield _found(step, "is no command and no question", "Begin it with what to do, or end it with `?`.")
    elif second and surely_commands(second[1]):
        yield _found(step, "is two commands", "Make two steps of it.")
    elif not (step.prose.strip() or step.ways or step.readings or step.uses or step.next):
        yield _found(step, "has nothing under it", "Say how it is done, and how one sees that it is.")


def _found(step: Step, what: str, help: str) -> Found:
    return Found(step.span, f'the step "{step.title}" {what}', help, step, level=Level.WARNING)
