"""A step that is marked as looking asks for hands on the machine.

Why:
    `check` and `ready` need no proof, because nothing is opened. "Look: take off the cover"
    puts a hand where nothing was proved. What only serves to look, listen or measure from
    outside may be needed. Informed by 29 CFR 1910.147 (service and maintenance).

Example reported:
    ### Look at the relay {#look check}
    Remove the cover and look.

Example mended:
    ### Look at the relay {#look check}
    Look through the window.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.english import LOOKING, asks_for_hands
from hooks.check.found import Found
from hooks.diagnostics import Level
from hooks.model import Kind, Page, Step
from hooks.parse.result import ParsedShop

LEVELS = (Level.WARNING,)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each such step of a procedure; on a self-check it is an error of another rule."""
    if page.kind is Kind.SELF_CHECK:
        return
    for step in page.steps:
        reason = _reason(step) if (step.check or step.ready) and not step.hands_on else ""
        if reason:
            yield Found(
                step.span,
                f'"{step.title}" is only looking, and {reason}',
                "Mark it `work`, after the proofs, or let it only look.",
                step,
                level=Level.WARNING,
            )


def _reason(step: Step) -> str:
    said = asks_for_hands(f"{step.title}.\n{step.told}")
    tool = next((tool for tool in step.needs if step.check and not LOOKING.search(tool)), "")
    return f'says "{said}"' if said else f"needs `{tool}`" if tool else ""
