"""A proof has no way out for when it fails, or its tester is not proved itself.

Why:
    A proof that can only succeed is no proof: the reader whose tester still reads
    mains voltage is left without a way to go. A tester with a flat battery proves everything: it is
    tried on something live before the proof, and again after it. Informed by 29 CFR 1910.147(d)(6) and
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

from hooks.check.english import METER, TWICE
from hooks.check.found import Found
from hooks.diagnostics import Level
from hooks.model import PROOFS, Page, Step
from hooks.parse.result import ParsedShop


LEVELS = (Level.ERROR, Level.WARNING)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each proof without a **Not proved** bullet, then each tester that is not tried before and after."""
    for step in page.steps:
        if step.verify and not _can_fail(page, step):
            yield Found(
                step.span_of("verify"),
                f'proof "{step.title}" has no way out for when it fails',
                _help(step),
                step,
            )
        if "electricity" in step.verify and any(METER.search(tool) for tool in step.needs) and not TWICE.search(step.prose):
            yield Found(
                step.span_of("needs"),
                f'proof "{step.title}" does not say that the tester is tried before and after',
                "Say: try the tester on something live, test, try it again.",
                step,
                "electricity",
                level=Level.WARNING,
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
