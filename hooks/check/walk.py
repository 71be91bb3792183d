"""All that a search saw of one page on one machine, and the paths in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from hooks.check.breach import Move
from hooks.check.energy import Act, Machine, Situation
from hooks.check.found import reference
from hooks.check.graph import Way
from hooks.diagnostics import PathStep
from hooks.model import Page, Step


Told = frozenset[tuple[str, int | None]]
"""Rule and energy of what a path has already shown: it is not told again."""


class Node(NamedTuple):
    """A step, by its place from 0, what is known on reaching it, and what was told before."""

    place: int
    now: Situation
    told: Told


class Key(NamedTuple):
    """What makes two breaches one finding."""

    rule: str
    place: int
    energy: int | None


class Sighting(NamedTuple):
    """The first place at which a breach was seen."""

    node: Node
    act: Act
    now: Situation


@dataclass(frozen=True, slots=True)
class Walk:
    """All that the search saw of one page on one machine."""

    page: Page
    machine: Machine
    came: dict[Node, tuple[Node, Way] | None]
    """Each node reached, in the order of arrival, and where from; None for the first step."""
    moves: list[tuple[Node, Way, Node]]
    """Each way taken; it leads to the node that stands for what it reaches."""
    breaches: dict[Key, Sighting]
    fell_off: dict[int, Node]
    """The places from which a path runs off the end of the page."""
    ways: tuple[tuple[Way, ...], ...]
    complete: bool
    """False where the search gave up: then nothing about the page is certain."""


def trail(walk: Walk, node: Node) -> tuple[Move, ...]:
    """The moves of the path by which the search first came to a node."""
    moves = []
    came = walk.came[node]
    while came:
        before, way = came
        moves.append(Move(walk.page.steps[before.place], before.now, way, node.now))
        node, came = before, walk.came[before]
    return tuple(reversed(moves))


def path_to(walk: Walk, node: Node, here: str) -> tuple[PathStep, ...]:
    """The path to a node; `here` is noted at its last step."""
    step = walk.page.steps[node.place]
    moves = (passing(walk.page, walk.machine, move, "") for move in trail(walk, node))
    return (*moves, last(walk.page, walk.machine, step, node.now, here))


def concerned(page: Page, models: tuple[str, ...]) -> tuple[str, ...]:
    """The models in the page's order; empty where they are all of them."""
    every = tuple(m.name for m in page.models)
    named = tuple(name for name in every if name in models)
    return () if named == every else named


def passing(page: Page, machine: Machine, move: Move, note: str) -> PathStep:
    """A step on the way, with what is known on leaving it."""
    words = "" if move.way.skipped else move.way.words
    return _path_step(page, move.step, words, move.way.skipped, shown(machine, move.after), note)


def last(page: Page, machine: Machine, step: Step, now: Situation, here: str) -> PathStep:
    """The last step of a path, with what is known on reaching it."""
    return _path_step(page, step, "", "", shown(machine, now), here)


def _path_step(
    page: Page, step: Step, words: str, skipped: str, energies: tuple[tuple[str, str], ...], note: str
) -> PathStep:
    file = step.file or page.source.name
    return PathStep(file, step.span.line, reference(step), words, skipped, energies, note, step.used)


def shown(machine: Machine, now: Situation) -> tuple[tuple[str, str], ...]:
    """Each energy and its state in words."""
    return tuple((e.name, s.words) for e, s in zip(machine.energies, now.states, strict=True))
