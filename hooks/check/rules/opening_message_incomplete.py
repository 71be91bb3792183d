"""The messages before the first step do not name every energy of the machine.

Why:
    Before starting, the reader must know all that the machine holds. Informed by
    S1000D (the safety list names every warning that applies to the procedure) and by
    the section messages of ANSI Z535.6.

Example reported:
    energies:
      electricity: {points: [plug]}
      water: {points: [tap], trapped: true}

    !!! warning electricity "Shock"
        Live parts can kill. Unplug and prove it before you open the machine.

Example mended:
    energies:
      electricity: {points: [plug]}
      water: {points: [tap], trapped: true}

    !!! warning electricity water "Shock and flood"
        Live parts and water under pressure. Isolate and prove both before you open it.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found, listed
from hooks.model import Kind, Page
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """One finding for all the energies that go unnamed."""
    named = {name for message in page.messages for name in message.energies}
    missing = [e.name for e in page.energies if e.name not in named]
    if page.kind is Kind.PROCEDURE and page.steps and missing:
        first = page.steps[0]
        yield Found(
            page.span,
            f"no message before the first step names {listed(missing)}",
            f'Write `!!! warning {" ".join(e.name for e in page.energies)} "…"` before line '
            f"{first.used[0].span.line if first.used else first.span.line}.",
        )
