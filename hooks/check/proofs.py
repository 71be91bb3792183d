"""What the search reached, drawn together for the page: the worst at each step, and its proofs."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from hooks.check.analysis import Analysis, Edge, Energies, Reached, State, States, Visits
from hooks.check.graph import Way, applies
from hooks.check.walk import Node, Walk
from hooks.model import Page

Covers = tuple[frozenset[int], ...]
"""Per energy, the numbers of the steps whose proof covers it; empty where it is not proved."""


EARLIER = frozenset((0,))
"""The number that stands for the page before, where its proof covers an energy."""


class _Spot(NamedTuple):
    """A step and all that decides how its energies go on; messages and covers do not."""

    place: int
    states: States
    shut: frozenset[tuple[int, str]]


@dataclass(frozen=True, slots=True)
class _Seen:
    """One walk, by spots."""

    walk: Walk
    covers: dict[_Spot, Covers]
    leaving: dict[int, dict[_Spot, States]]
    """Per place the spots that do its step, with the states on leaving, a proof taken as held."""


def analysis(page: Page, walks: tuple[Walk, ...]) -> Analysis:
    """The part of the graph that some path reaches."""
    seen = [_seen(walk) for walk in walks]
    reached = (_reached(page, place, seen) for place in range(len(page.steps)))
    return Analysis(tuple(r for r in reached if r), _edges(page, walks), tuple(map(_visits, walks)))


def _visits(walk: Walk) -> Visits:
    spots = dict.fromkeys((walk.page.steps[n.place].number, n.now.states) for n in walk.came)
    return Visits(walk.machine.models, tuple(spots))


def _seen(walk: Walk) -> _Seen:
    moves = dict.fromkeys((_spot(n), way, _spot(target)) for n, way, target in walk.moves)
    spots = dict.fromkeys(map(_spot, walk.came))
    return _Seen(walk, _covers(walk, spots, moves), _leaving(walk, spots, moves))


def _spot(node: Node) -> _Spot:
    return _Spot(node.place, node.now.states, node.now.shut)


def _covers(
    walk: Walk, spots: Iterable[_Spot], moves: Iterable[tuple[_Spot, Way, _Spot]]
) -> dict[_Spot, Covers]:
    """For each spot the proofs of all paths to it: grows until nothing more comes in."""
    nothing: Covers = (frozenset(),) * len(walk.machine.energies)
    covers = dict.fromkeys(spots, nothing)
    for first in (_spot(node) for node, came in walk.came.items() if came is None):
        covers[first] = tuple(EARLIER if state is State.PROVED else frozenset() for state in first.states)
    onward: dict[_Spot, list[tuple[Way, _Spot]]] = defaultdict(list)
    for spot, way, target in moves:
        onward[spot].append((way, target))
    waiting = deque(covers)
    while waiting:
        spot = waiting.popleft()
        for way, target in onward[spot]:
            if State.PROVED not in target.states:
                continue
            carried = _carried(walk, spot, way, target, covers[spot])
            merged = tuple(a | b for a, b in zip(covers[target], carried, strict=True))
            if merged != covers[target]:
                covers[target] = merged
                waiting.append(target)
    return covers


def _carried(walk: Walk, spot: _Spot, way: Way, target: _Spot, known: Covers) -> Covers:
    """A proof that held replaces the ones before it; a state that is not proved has none."""
    step = walk.page.steps[spot.place]
    fresh = set(walk.machine.indexes(step.verify)) if way.proof else set()
    new = frozenset((step.number,))
    return tuple(
        (new if e in fresh else known[e]) if state is State.PROVED else frozenset()
        for e, state in enumerate(target.states)
    )


def _leaving(
    walk: Walk, spots: Iterable[_Spot], moves: Iterable[tuple[_Spot, Way, _Spot]]
) -> dict[int, dict[_Spot, States]]:
    here: dict[int, dict[_Spot, States]] = defaultdict(dict)
    for spot in spots:
        if applies(walk.page.steps[spot.place], walk.machine):
            here[spot.place][spot] = spot.states
    for spot, way, target in moves:
        if not way.skipped and way.proof is not False:
            here[spot.place][spot] = target.states
    return here


def _reached(page: Page, place: int, seen: list[_Seen]) -> Reached | None:
    arriving: dict[str, State] = {}
    leaving: dict[str, State] = {}
    proofs: dict[str, set[int]] = defaultdict(set)
    models: list[str] = []
    for one in seen:
        spots = one.leaving.get(place)
        if not spots:
            continue
        names = [e.name for e in one.walk.machine.energies]
        models += one.walk.machine.models
        _lower(arriving, names, (spot.states for spot in spots))
        _lower(leaving, names, spots.values())
        for spot in spots:
            for name, steps in zip(names, one.covers[spot], strict=True):
                proofs[name] |= steps
    if not models:
        return None
    proved = [name for name, state in arriving.items() if state is State.PROVED]
    return Reached(
        page.steps[place].number,
        _in_order(page, arriving),
        _in_order(page, leaving),
        tuple((e.name, tuple(sorted(proofs[e.name]))) for e in page.energies if e.name in proved),
        tuple(m.name for m in page.models if m.name in models),
    )


def _lower(known: dict[str, State], names: list[str], there: Iterable[States]) -> None:
    """To the worst of each energy in any of the states; of a machine without energies there is none."""
    for name, state in zip(names, map(min, zip(*there, strict=True)), strict=True):
        known[name] = min(known.get(name, state), state)


def _in_order(page: Page, known: dict[str, State]) -> Energies:
    return tuple((e.name, known[e.name]) for e in page.energies if e.name in known)


def _edges(page: Page, walks: tuple[Walk, ...]) -> tuple[Edge, ...]:
    models: dict[tuple[int, int, str], list[str]] = defaultdict(list)
    for walk in walks:
        taken = {(n.place, t.place, w.skipped or w.words): None for n, w, t in walk.moves}
        for source, target, words in ((-1, 0, ""), *taken):
            number = page.steps[source].number if source >= 0 else 0
            models[number, page.steps[target].number, words] += walk.machine.models
    order = sorted(models, key=lambda edge: edge[0])
    every = [m.name for m in page.models]
    return tuple(
        Edge(*edge, tuple(name for name in every if name in models[edge])) for edge in order
    )
