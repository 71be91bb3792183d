"""A step is reached from which no end can be reached.

Why:
    A reader sent round in a circle with no other exit either gives up half way or
    makes up a way out. A loop that may be left is fine.

Example reported:
    ### Cool the tank {#cool release="heat"}
    Run the hot tap.
    ### Is it cool? {#cooled decide check}
    - Yes: [Cool the tank](#cool)
    - No: [Cool the tank](#cool)

Example mended:
    ### Cool the tank {#cool release="heat"}
    Run the hot tap.
    ### Is it cool? {#cooled decide check}
    - Yes: [Leave it](#leave)
    - No: [Cool the tank](#cool)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.graph import OFF_THE_PAGE, applies, lost
from hooks.check.walk import Node, Walk
from hooks.check.walk import concerned, path_to


def on_graph(walks: tuple[Walk, ...]) -> Iterator[Found]:
    """One finding for each step at which a path enters such a part; none where a jump is lost."""
    page = walks[0].page
    if lost(page):
        return
    seen: dict[int, list[tuple[Walk, Node]]] = {}
    for walk in walks:
        for place, node in _entries(walk).items():
            seen.setdefault(place, []).append((walk, node))
    for place, entries in seen.items():
        step = page.steps[place]
        models = tuple(name for walk, _ in entries for name in walk.machine.models)
        yield Found(
            step.span,
            f'no end can be reached from "{step.title}"',
            "Give one of the steps that follow a way out that leads to an `end`.",
            step,
            models=concerned(page, models),
            path=path_to(*entries[0], "no way to an end from here"),
        )


def _entries(walk: Walk) -> dict[int, Node]:
    finishing = _finishing(walk)
    entries: dict[int, Node] = {}
    for node, came in walk.came.items():
        if node.place not in finishing and (came is None or came[0].place in finishing):
            entries.setdefault(node.place, node)
    return entries


def _finishing(walk: Walk) -> set[int]:
    """The places from which an end, or the end of the page, can be reached."""
    before: dict[int, list[int]] = defaultdict(list)
    for place, out in enumerate(walk.ways):
        for way in out:
            before[way.target].append(place)
    ends = [p for p, s in enumerate(walk.page.steps) if s.end is not None and applies(s, walk.machine)]
    found = {OFF_THE_PAGE, *ends}
    waiting = list(found)
    while waiting:
        new = set(before[waiting.pop()]) - found
        found |= new
        waiting += new
    return found
