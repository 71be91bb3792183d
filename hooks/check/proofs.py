"""What the search reached, drawn together for the page: the worst at each step, and its proofs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from hooks.check.analysis import Analysis, Edge, Energies, Reached, State
from hooks.check.graph import Way, applies
from hooks.check.walk import Node, Walk
from hooks.model import Page

States = tuple[State, ...]
Covers = tuple[frozenset[int], ...]
"""Per energy, the numbers of the steps whose proof covers it; empty where it is not proved."""


def analysis(page: Page, walks: tuple[Walk, ...]) -> Analysis:
    """The part of the graph that some path reaches."""
    seen = [(walk, _covers(walk), _leaving(walk)) for walk in walks]
    reached = (_reached(page, place, seen) for place in range(len(page.steps)))
    return Analysis(tuple(r for r in reached if r), _edges(page, walks))


def _covers(walk: Walk) -> dict[Node, Covers]:
    """For each node the proofs of all paths to it: grows until nothing more comes in."""
    nothing: Covers = (frozenset(),) * len(walk.machine.energies)
    covers = dict.fromkeys(walk.came, nothing)
    onward: dict[Node, list[tuple[Way, Node]]] = defaultdict(list)
    for node, way, target in walk.moves:
        onward[node].append((way, target))
    waiting = dict.fromkeys(walk.came)
    while waiting:
        node = next(iter(waiting))
        del waiting[node]
        for way, target in onward[node]:
            carried = _carried(walk, node, way, target, covers[node])
            merged = tuple(a | b for a, b in zip(covers[target], carried, strict=True))
            if merged != covers[target]:
                covers[target] = merged
                waiting[target] = None
    return covers


def _carried(walk: Walk, node: Node, way: Way, target: Node, known: Covers) -> Covers:
    """A proof that held replaces the ones before it; a state that is not proved has none."""
    step = walk.page.steps[node.place]
    fresh = set(walk.machine.indexes(step.verify)) if way.proof else set()
    states = enumerate(target.now.states)
    new = frozenset((step.number,))
    return tuple(
        (new if e in fresh else known[e]) if state is State.PROVED else frozenset()
        for e, state in states
    )


def _leaving(walk: Walk) -> dict[int, dict[Node, States]]:
    """Per place the nodes that do its step, with the states on leaving, a proof taken as held."""
    steps = walk.page.steps
    here: dict[int, dict[Node, States]] = defaultdict(dict)
    for node in walk.came:
        if applies(steps[node.place], walk.machine):
            here[node.place][node] = node.now.states
    for node, way, target in walk.moves:
        if not way.skipped and way.proof is not False:
            here[node.place][node] = target.now.states
    return here


def _reached(
    page: Page, place: int, seen: list[tuple[Walk, dict[Node, Covers], dict[int, dict[Node, States]]]]
) -> Reached | None:
    arriving: dict[str, State] = {}
    leaving: dict[str, State] = {}
    proofs: dict[str, set[int]] = defaultdict(set)
    models: list[str] = []
    for walk, covered, left in seen:
        nodes = left.get(place, {})
        names = [e.name for e in walk.machine.energies]
        models += walk.machine.models if nodes else ()
        for node, after in nodes.items():
            _lower(arriving, names, node.now.states)
            _lower(leaving, names, after)
            for name, steps in zip(names, covered[node], strict=True):
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


def _lower(known: dict[str, State], names: list[str], states: Iterable[State]) -> None:
    for name, state in zip(names, states, strict=True):
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
