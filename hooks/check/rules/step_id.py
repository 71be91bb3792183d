"""A step that something holds on to has no written id, or shares its id.

Why:
    An id made from the title changes when the title is reworded: the jump then leads
    nowhere and the reading on a job sheet loses its step.

Example reported:
    ### Does it leak? {decide check}
    - Yes: [Unplug the machine](#unplug-the-machine)
    - No: [Done](#done)
    ### Unplug the machine {isolate="electricity"}

Example mended:
    ### Does it leak? {#leak decide check}
    - Yes: [Unplug the machine](#unplug)
    - No: [Done](#done)
    ### Unplug the machine {#unplug isolate="electricity"}
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found, line
from hooks.model import Page, Step, WayOut
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each step without the id it needs, and each second step of an id."""
    jumps = {way.target: way.span.line for step in page.steps for way in _jumps(step)}
    first: dict[str, Step] = {}
    for step in page.steps:
        if step.id in first:
            yield _shared(page, step, first[step.id])
        elif not step.id_written and step.id in jumps:
            yield _unwritten(step, f"line {jumps[step.id]} leads to it")
        elif not step.id_written and step.readings:
            yield _unwritten(step, f"its reading `{step.readings[0].id}` is kept")
        first.setdefault(step.id, step)


def _jumps(step: Step) -> Iterator[WayOut]:
    yield from step.ways
    if step.next:
        yield step.next


def _shared(page: Page, step: Step, other: Step) -> Found:
    own = page.source.name
    where = line(other.span.line, other.file or own, step.file or own)
    return Found(
        step.span_of("id"),
        f'"{step.title}" and "{other.title}" ({where}) have the same id `{step.id}`',
        "Give one of them another id.",
        step,
    )


def _unwritten(step: Step, why: str) -> Found:
    return Found(
        step.span,
        f'"{step.title}" needs an id of its own: {why}',
        f"Write `{{#{step.id.rpartition('.')[2]} …}}` on line {step.span.line}.",
        step,
    )
