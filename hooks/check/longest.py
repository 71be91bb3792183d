"""The longest way through the steps on which none is done twice."""

from __future__ import annotations

from collections.abc import Sequence

from hooks.check.graph import OFF_THE_PAGE, Way


def longest(ways: Sequence[Sequence[Way]], costs: Sequence[float]) -> float:
    """What it costs from the first step to the end; a step that is passed over costs nothing.

    A way back to a step that is being followed is a lap and not taken. What is left has no laps, so each
    step is worked out once; where laps cross, a longer way may be missed, none is made up.
    """
    known: dict[int, float] = {}
    following: set[int] = set()
    queue = [(0, False)]
    while queue:
        place, done = queue.pop()
        if done:
            following.discard(place)
            known[place] = max((_way(way, costs[place], known) for way in ways[place]), default=costs[place])
        elif place not in known and place not in following:
            following.add(place)
            queue.append((place, True))
            queue += [(way.target, False) for way in ways[place] if way.target != OFF_THE_PAGE]
    return known.get(0, 0)


def _way(way: Way, cost: float, known: dict[int, float]) -> float:
    return (0 if way.skipped else cost) + known.get(way.target, 0)
