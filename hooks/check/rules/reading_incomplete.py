"""A decision that judges a reading leaves a verdict without a way out, or names one twice.

Why:
    A reading can be in limits, out of them (below, above), or too close to call with
    this meter. A verdict without a way out leaves the reader at the machine guessing;
    one with two ways leaves it to chance. Informed by the decision rule of JCGM 106.

Example reported:
    ### Is the coil good? {#good decide judges="coil"}
    - **In limits**: [Swap the board](#board)
    - **Out of limits**: [Swap the valve](#valve)

Example mended:
    ### Is the coil good? {#good decide judges="coil"}
    - **In limits**: [Swap the board](#board)
    - **Out of limits**: [Swap the valve](#valve)
    - **Too close to call**: [Measure again](#measure)
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from hooks.check.found import Found, listed
from hooks.check.limits import bounds
from hooks.model import VERDICTS, Page, Reading, Step
from hooks.parse.result import ParsedShop

IN, OUT, BELOW, ABOVE, CLOSE = VERDICTS


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Every decision that judges; a reading that does not exist is told where the page is read."""
    for step in page.steps:
        reading = page.reading(step.judges) if step.judges else None
        if reading:
            yield from _outcomes(step, reading)


def _outcomes(step: Step, reading: Reading) -> Iterator[Found]:
    verdicts = Counter(way.verdict for way in step.ways if way.verdict in VERDICTS)
    missing = _missing(set(verdicts), reading)
    if missing:
        bullets = listed([f"`- **{v.capitalize()}**: […](#…)`" for v in missing])
        yield _found(step, f"has no way out for {listed(missing)}", f"Add {bullets}.")
    for verdict in (v for v, count in verdicts.items() if count > 1):
        yield _found(step, f"has two ways out for {verdict}", "Leave one of them.")
    if verdicts[OUT] and (verdicts[BELOW] or verdicts[ABOVE]):
        yield _found(step, "says out of limits and below or above apart", "Write one or the other.")
    for way in step.ways:
        if way.verdict not in VERDICTS:
            help = f"Begin it with {listed([f'**{v.capitalize()}**' for v in VERDICTS], 'or')}."
            yield Found(way.span, f'this way out of "{step.title}" has no verdict', help, step)


def _missing(verdicts: set[str], reading: Reading) -> list[str]:
    """What a reading with these limits can come out as and has no way."""
    sides = [side for side, limit in zip((BELOW, ABOVE), bounds(reading), strict=True) if limit is not None]
    outside = [] if OUT in verdicts else [side for side in sides if side not in verdicts]
    if len(outside) == len(sides) and outside:
        outside = [OUT]
    return [v for v in (IN, *outside, CLOSE) if v in outside or v not in verdicts]


def _found(step: Step, what: str, help: str) -> Found:
    return Found(step.span_of("judges"), f'decision "{step.title}" {what}', help, step)
