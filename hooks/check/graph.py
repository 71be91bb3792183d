"""The steps of a page as a graph: which way leads where, on one machine."""

from __future__ import annotations

from typing import NamedTuple

from hooks.check.energy import Machine
from hooks.model import PROOFS, Page, Step, WayOut

PROVED, NOT_PROVED = PROOFS
OFF_THE_PAGE = -1
"""The place a way leads to that runs off the end."""


class Way(NamedTuple):
    """One way from a step to the next, by places counted from 0."""

    target: int
    words: str
    skipped: str = ""
    """Empty, or why the step was passed over."""
    proof: bool | None = None
    """Whether it is taken when the proof held (True) or failed (False); None: either."""
    line: int | None = None
    """Where it is said to which step the jump leads; None for falling through."""
    file: str = ""
    """The file of that line, where it is not that of the step."""


def ways(page: Page, machine: Machine) -> tuple[tuple[Way, ...], ...]:
    """The ways out of every step, in source order, those that pass a step over first."""
    places: dict[str, int] = {}
    for place, step in enumerate(page.steps):
        places.setdefault(step.id, place)
    return tuple(_ways(page, place, places, machine) for place in range(len(page.steps)))


def applies(step: Step, machine: Machine) -> bool:
    """Whether the step is for this machine."""
    return step.only is None or step.only.holds(machine.options)


def way_of(way: WayOut, places: dict[str, int]) -> tuple[Way, ...]:
    """The way that a jump stands for; none where it leads to no step."""
    target = places.get(way.target)
    file, span = way.bound or ("", way.span)
    return () if target is None else (Way(target, way.words, line=span.line, file=file),)


def _ways(page: Page, place: int, places: dict[str, int], machine: Machine) -> tuple[Way, ...]:
    step = page.steps[place]
    following = place + 1 if place + 1 < len(page.steps) else OFF_THE_PAGE
    if not applies(step, machine):
        return (Way(following, "", f"not on {', '.join(machine.models)}"),)
    passed = (Way(following, "", "skipped"),) if step.optional else ()
    return passed + _own(step, following, places)


def _own(step: Step, following: int, places: dict[str, int]) -> tuple[Way, ...]:
    if step.end is not None:
        return ()
    if step.verify:
        return _proof(step, following, places)
    jumps = step.ways + ((step.next,) if step.next else ())
    if jumps or step.decide or step.jumpless:
        return tuple(w for jump in jumps for w in way_of(jump, places))
    return (Way(following, ""),)


def _proof(step: Step, following: int, places: dict[str, int]) -> tuple[Way, ...]:
    """A bullet that is not the proof's success counts as its failure: unknown is unsafe."""
    bullets = tuple(
        way._replace(proof=jump.verdict == PROVED)
        for jump in step.ways
        for way in way_of(jump, places)
    )
    if step.jumpless or any(w.verdict == PROVED for w in step.ways):
        return bullets
    if step.next is None:
        return (Way(following, "Proved", proof=True), *bullets)
    return tuple(w._replace(words="Proved", proof=True) for w in way_of(step.next, places)) + bullets


def lost(page: Page) -> bool:
    """Whether a jump or a way out of the page is missing: then what follows is not reached."""
    ids = {step.id for step in page.steps}
    return any(_lost(step, ids) for step in page.steps)


def _lost(step: Step, ids: set[str]) -> bool:
    jumps = step.ways + ((step.next,) if step.next else ())
    no_failure = step.verify and not any(way.verdict == NOT_PROVED for way in step.ways)
    too_few = step.decide and len(step.ways) < 2
    return bool(step.jumpless or no_failure or too_few) or any(jump.target not in ids for jump in jumps)
