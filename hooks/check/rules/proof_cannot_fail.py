"""A proof has no way out for when it fails.

Why:
    A proof that can only succeed is no proof: the reader whose tester still reads
    mains voltage is left without a way to go. Informed by 29 CFR 1910.147(d)(6) and
    NFPA 70E 120.5.

Example reported:
    ### Prove it {#prove verify="electricity"}
    - **Proved**: [Open the panel](#open)

Example mended:
    ### Prove it {#prove verify="electricity"}
    - **Proved**: [Open the panel](#open)
    - **Not proved**: [Stop and call the office](#stop)
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.model import PROOFS, Page, Step
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each proof without a **Not proved** bullet."""
    for step in page.steps:
        if step.verify and not _can_fail(page, step):
            yield Found(
                step.span_of("verify"),
                f'proof "{step.title}" has no way out for when it fails',
                _help(step),
                step,
            )


def _help(step: Step) -> str:
    if step.ways and all(way.verdict not in PROOFS for way in step.ways):
        return "Begin the bullet for a proof that held with **Proved**, the other with **Not proved**."
    return f"Add a bullet `- **Not proved**: […](#…)` under line {step.span.line}."


def _can_fail(page: Page, step: Step) -> bool:
    """A bullet that lost its jump is told by way-out-missing and not again here."""
    not_proved = PROOFS[1]
    bullets = (page.source_of(step).line(span.line).lower() for span in step.jumpless)
    return any(w.verdict == not_proved for w in step.ways) or any(not_proved in b for b in bullets)
