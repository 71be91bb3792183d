"""The steps of one way through a page take longer than the page says.

Why:
    The time at the top is what is promised to the customer and to the food in the freezer. It
    must hold for the longest way, each step once. Informed by the estimated time of DITA
    (`esttime`).

Example reported:
    time: 10 min

    ### Look {#look check time="5 min"}
    Look at the lamp.
    ### Wait for the lamp {#wait check wait="20 min"}
    Wait.

Example mended:
    time: 25 min

    ### Look {#look check time="5 min"}
    Look at the lamp.
    ### Wait for the lamp {#wait check wait="20 min"}
    Wait.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.longest import longest
from hooks.check.walk import Walk, concerned
from hooks.diagnostics import Level
from hooks.model import Page, Step
from hooks.parse import durations

LEVELS = (Level.WARNING,)


def on_graph(walks: tuple[Walk, ...]) -> Iterator[Found]:
    """One finding for the page, about its longest way on any machine."""
    page = walks[0].page
    said = durations.seconds(page.front.time or "")
    if said is None or not page.steps:
        return
    costs = tuple(map(_seconds, page.steps))
    taken = [(longest(walk.ways, costs), walk) for walk in walks]
    over = [(seconds, walk) for seconds, walk in taken if seconds > said]
    if over:
        names = tuple(name for _, walk in over for name in walk.machine.models)
        yield _found(page, max(seconds for seconds, _ in over), concerned(page, names))


def _seconds(step: Step) -> float:
    """What a step takes; a time that is said counts the waiting in."""
    return max(durations.seconds(step.time or "") or 0, durations.seconds(step.wait or "") or 0)


def _found(page: Page, seconds: float, models: tuple[str, ...]) -> Found:
    minutes = -(-seconds // 60)
    return Found(
        page.front.spans.get("time", page.span),
        f"the longest way through the steps takes {minutes:.0f} min, and the page says {page.front.time}",
        f"Write `time: {minutes:.0f} min`, or mend the times of the steps.",
        models=models,
        level=Level.WARNING,
    )
