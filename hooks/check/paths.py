"""The search: every step in every state in which some path reaches it.

Breadth first, so the first path to arrive is a shortest one; ways out are taken in
source order, so the same page always gives the same path.
"""

from __future__ import annotations

from collections.abc import Iterable
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
    start,
)
from hooks.check.graph import OFF_THE_PAGE, Way, applies, ways
from hooks.check.rules import having
from hooks.check.walk import Key, Node, Sighting, Walk
from hooks.model import Page, Step

STATE_LIMIT = 200_000
"""Pairs of step and state on one machine; beyond them the search gives up with an error."""

Outcomes = list[tuple[bool | None, Situation]]
"""What is known after a step; the first item says how its proof ended, None without one."""


class _Plan(NamedTuple):
    """A step made ready for the search."""

    step: Step
    applies: bool
    acts: tuple[tuple[Act, tuple[tuple[str, ModuleType], ...]], ...]
    ways: tuple[Way, ...]


@cache
def _asked_at(word: Word) -> tuple[tuple[str, ModuleType], ...]:
    return tuple((r.name, r.module) for r in having("breached") if word in r.module.ACTS)


def search(page: Page, machine: Machine, limit: int = STATE_LIMIT) -> Walk:
    """Follow every path from the first step."""
    out = ways(page, machine)
    plans = [_plan(step, machine, w) for step, w in zip(page.steps, out, strict=True)]
    first = Node(0, start(machine, page))
    walk = Walk(page, machine, {first: None}, [], {}, {}, out, True)
    queue = [first]
    for node in queue:
        for way, after in _leave(plans[node.place], node, walk):
            if way.target == OFF_THE_PAGE:
                walk.fell_off.setdefault(node.place, node)
                continue
            reached = Node(way.target, after)
            walk.moves.append((node, way, reached))
            if reached not in walk.came:
                walk.came[reached] = (node, way)
                queue.append(reached)
        if len(queue) > limit:
            return Walk(page, machine, walk.came, walk.moves, walk.breaches, walk.fell_off, out, False)
    return walk


def _plan(step: Step, machine: Machine, out: tuple[Way, ...]) -> _Plan:
    asked = tuple((act, _asked_at(act.word)) for act in acts(step, machine))
    return _Plan(step, applies(step, machine), asked, out)


def _leave(plan: _Plan, node: Node, walk: Walk) -> Iterable[tuple[Way, Situation]]:
    """Each way out of the step with what is known on taking it."""
    outcomes: Outcomes = [(None, node.now)]
    if plan.applies:
        for act, asked in plan.acts:
            outcomes = [o for proof, now in outcomes for o in _do(act, asked, proof, now, node, walk)]
    for way in plan.ways:
        if way.skipped:
            yield way, node.now
        else:
            yield from ((way, now) for proof, now in outcomes if way.proof in (None, proof))


def _do(
    act: Act,
    asked: tuple[tuple[str, ModuleType], ...],
    proof: bool | None,
    now: Situation,
    node: Node,
    walk: Walk,
) -> Outcomes:
    """One act: ask the rules, then change the state; a fault told once is not told again."""
    told = frozenset(
        (name, energy)
        for name, rule in asked
        for energy in rule.breached(act, now, walk.machine)
        if act.word is Word.END or (name, energy) not in now.told
    )
    for name, energy in told:
        walk.breaches.setdefault(Key(name, node.place, energy), Sighting(node, act, now))
    return [(p, s._replace(told=s.told | told) if told else s) for p, s in _after(act, proof, now, walk.machine)]


def _after(act: Act, proof: bool | None, now: Situation, machine: Machine) -> Outcomes:
    if act.word is Word.VERIFY:
        return [(True, proved(act, now, machine)), (False, failed(act, now, machine))]
    effect = EFFECTS.get(act.word)
    return [(proof, effect(act, now, machine) if effect else now)]
