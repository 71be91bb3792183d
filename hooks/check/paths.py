"""The search: every step in every state in which some path reaches it.

Breadth first, so the first path to arrive is a shortest one; ways out are taken in
source order, so the same page always gives the same path. A node that was reached before,
in the same state and with no more told, stands for all that come later: every breach that
they could show it shows too, by a path that is no longer.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from types import ModuleType
from typing import NamedTuple

from hooks.check.energy import (
    EFFECTS,
    Act,
    Machine,
    Situation,
    Word,
    acts,
    failed,
    proved,
    renewed,
    start,
)
from hooks.check.graph import OFF_THE_PAGE, Way, applies, ways
from hooks.check.rules import having
from hooks.check.walk import Key, Node, Sighting, Told, Walk
from hooks.model import Page, Step

STATE_LIMIT = 200_000
"""Pairs of step and state on one machine; beyond them the search gives up with an error."""

Asked = tuple[tuple[str, ModuleType], ...]
"""The path rules that are asked at an act, by name."""


class _Outcome(NamedTuple):
    """How a step may come out; `proof` says how its proof ended, None without one."""

    proof: bool | None
    now: Situation
    told: Told


class _Plan(NamedTuple):
    """A step made ready for the search."""

    applies: bool
    acts: tuple[tuple[Act, Asked, frozenset[int]], ...]
    """Each act with the rules asked at it and the energies that it renews."""
    ways: tuple[Way, ...]


@cache
def _asked_at(word: Word) -> Asked:
    return tuple((r.name, r.module) for r in having("breached") if word in r.module.ACTS)


def search(
    page: Page, machine: Machine, limit: int = STATE_LIMIT, begun: tuple[Situation, ...] = ()
) -> Walk:
    """Follow every path from the first step; it begins with everything ON, or as `begun` says."""
    out = ways(page, machine)
    plans = [_plan(step, machine, w) for step, w in zip(page.steps, out, strict=True)]
    queue = [Node(0, now, frozenset()) for now in begun or (start(machine, page),)]
    walk = Walk(page, machine, dict.fromkeys(queue), [], {}, {}, out, True)
    known = {node[:2]: [node] for node in queue}
    for node in queue:
        for way, after, told in _leave(plans[node.place], node, walk):
            if way.target == OFF_THE_PAGE:
                walk.fell_off.setdefault(node.place, node)
                continue
            alike = known.setdefault((way.target, after), [])
            reached = next((n for n in alike if n.told <= told), None)
            if reached is None:
                reached = Node(way.target, after, told)
                alike.append(reached)
                walk.came[reached] = (node, way)
                queue.append(reached)
            walk.moves.append((node, way, reached))
        if len(queue) > limit:
            return replace(walk, complete=False)
    return walk


def _plan(step: Step, machine: Machine, out: tuple[Way, ...]) -> _Plan:
    prepared = tuple((a, _asked_at(a.word), renewed(a, machine)) for a in acts(step, machine))
    return _Plan(applies(step, machine), prepared, out)


def _leave(plan: _Plan, node: Node, walk: Walk) -> Iterator[tuple[Way, Situation, Told]]:
    """Each way out of the step, with what is known and told on taking it."""
    outcomes = [_Outcome(None, node.now, node.told)]
    if plan.applies:
        for act, asked, new in plan.acts:
            outcomes = [
                after
                for before in outcomes
                for after in _after(act, before, _tell(act, asked, new, before, node, walk), walk)
            ]
    for way in plan.ways:
        if way.skipped:
            yield way, node.now, node.told
        else:
            yield from ((way, o.now, o.told) for o in outcomes if way.proof in (None, o.proof))


def _tell(
    act: Act, asked: Asked, new: frozenset[int], before: _Outcome, node: Node, walk: Walk
) -> Told:
    """Ask the rules at an act; a fault that the path has shown is not told again, but at an end."""
    told = before.told
    broken = [(n, e) for n, rule in asked for e in rule.breached(act, before.now, walk.machine)]
    for name, energy in broken:
        if act.word is Word.END or (name, energy) not in told:
            seen = Sighting(node, act, before.now)
            walk.breaches.setdefault(Key(name, node.place, energy), seen)
    if new and told:
        told = frozenset(t for t in told if t[1] not in new)
    return told.union(broken) if broken else told


def _after(act: Act, before: _Outcome, told: Told, walk: Walk) -> tuple[_Outcome, ...]:
    now, machine = before.now, walk.machine
    if act.word is Word.VERIFY:
        return (
            _Outcome(True, proved(act, now, machine), told),
            _Outcome(False, failed(act, now, machine), told),
        )
    effect = EFFECTS.get(act.word)
    return (_Outcome(before.proof, effect(act, now, machine) if effect else now, told),)
