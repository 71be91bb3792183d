"""The tables by which a job's script follows the energies, and the boards that go with them.

A script looks up, it works nothing out: by what is known (a number) and what was done it finds what
is known next, and the board for it.
"""

from __future__ import annotations

from collections.abc import Callable

from hooks.check.analysis import State
from hooks.check.course import Course, courses
from hooks.model import Energy, Step
from hooks.page.blocks.board import board
from hooks.page.graph import STATES
from hooks.page.view import Line, View

Drawn = Callable[[board.Board], str]
"""Takes a board, gives the id under which it is drawn."""
PROOFS = {None: "", True: "proved", False: "not proved"}
"""How a proof ended, as the ways out say it."""


def machines(view: View, drawn: Drawn) -> list[dict[str, object]]:
    """By kind of machine: the numbered states and what follows on them.

    `known`: energy to on, off, released or proved. `away`: what is known after a break. `acts`: by number
    of a step and how its proof ended, what is known next; a step that is missing changes nothing. `fits`:
    by number of a step, where no energy is less off than the checked ways have it. `boards`: by number of
    a step that has boards of its own, and under "" for all others, the id of the board.
    """
    found = courses(view.page, view.analysis) if view.analysis else ()
    return [_machine(view, course, drawn) for course in found]


def _machine(view: View, course: Course, drawn: Drawn) -> dict[str, object]:
    energies = tuple(e for name in course.energies for e in view.page.energies if e.name == name)
    acts: dict[str, dict[str, list[int]]] = {}
    for number, proof, after in course.acts:
        acts.setdefault(str(number), {})[PROOFS[proof]] = list(after)
    return {
        "models": list(course.models),
        "known": [dict(zip(course.energies, (STATES[s] for s in states), strict=True)) for states in course.known],
        "away": list(course.away),
        "acts": acts,
        "fits": {str(number): list(where) for number, where in course.fits},
        "boards": {"": [drawn(board.known(_resting(energies, states))) for states in course.known]}
        | {str(step.number): _own(step, energies, course, drawn) for step in view.page.steps if step.test or step.restore},
    }


def _resting(energies: tuple[Energy, ...], states: tuple[State, ...]) -> tuple[Line, ...]:
    return tuple(map(Line, energies, states, states))


def _own(step: Step, energies: tuple[Energy, ...], course: Course, drawn: Drawn) -> dict[str, str]:
    """The boards of a step that turns something on, or that is done with something on, where it fits."""
    then = {proof: after for number, proof, after in course.acts if number == step.number}
    after = then.get(None, then.get(True))
    there = dict(course.fits).get(step.number, ())
    leaving = {k: course.known[after[k]] if after else course.known[k] for k in there}
    lines = {k: tuple(map(Line, energies, course.known[k], leaving[k])) for k in there}
    return {str(k): drawn(board.known(lines[k], step.test)) for k in there}
