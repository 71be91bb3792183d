"""What a job makes of the energies, step by step, in whatever order its steps are really done.

The search follows the ways of the page; at the machine somebody jumps, goes back, is called away. Here
every state that can come of doing steps in any order is worked out with the same effects, as tables
that a page's script only looks up. What is in no table counts as ON.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from operator import ge
from typing import NamedTuple

from hooks.check.analysis import Analysis, State, States, Visits
from hooks.check.energy import EFFECTS, Act, Machine, Situation, Word, acts, failed, machine, proved
from hooks.check.graph import applies
from hooks.model import Page, Step
from hooks.source import Span

MOST = 600
"""States of one machine that are told apart; what comes of any further one counts as ON."""


class Known(NamedTuple):
    """All that decides how the energies of one machine go on."""

    states: States
    shut: frozenset[tuple[int, str]]


@dataclass(frozen=True, slots=True)
class Course:
    """The tables for machines that differ in nothing the page speaks of."""

    models: tuple[str, ...]
    energies: tuple[str, ...]
    known: tuple[States, ...]
    """The states, numbered; 0 is the start: everything ON."""
    away: tuple[int, ...]
    """By state: the one after a break. A proof that nobody watched is none."""
    acts: tuple[tuple[int, bool | None, tuple[int, ...]], ...]
    """Number of a step that changes anything, how its proof ended (None without one), and by state the one
    that follows."""
    fits: tuple[tuple[int, tuple[int, ...]], ...]
    """By number of a step: the states in which no energy is less off than on some checked path to it."""


Doing = tuple[tuple[Word, tuple[int, ...], str | None], ...]
"""What a step does to the energies: each act with the energies it names and the point it is done at."""


def courses(page: Page, analysis: Analysis) -> tuple[Course, ...]:
    """The tables of every machine of a page."""
    return tuple(_course(page, visits) for visits in analysis.visited)


CHANGING = frozenset({Word.ISOLATE, Word.RELEASE, Word.VERIFY, Word.RESTORE})
"""The acts that change what is known of an energy."""


def _course(page: Page, visits: Visits) -> Course:
    fitted = machine(page, tuple(m for m in page.models if m.name in visits.models))
    doing = {s.number: _changing(s, fitted) for s in page.steps if applies(s, fitted)}
    doing = {number: happening for number, happening in doing.items() if happening}
    known, away, ends, fit = _tables(fitted, tuple(dict.fromkeys(doing.values())))
    return Course(
        visits.models,
        tuple(e.name for e in fitted.energies),
        tuple(k.states for k in known),
        away,
        tuple((number, proof, after) for number, happening in doing.items() for proof, after in ends[happening]),
        tuple(_fits(visits, fit)),
    )


def _changing(step: Step, fitted: Machine) -> Doing:
    return tuple((a.word, a.energies, step.at) for a in acts(step, fitted) if a.energies and a.word in CHANGING)


Fit = Callable[[frozenset[States]], tuple[int, ...]]
"""By the states in which some checked path reaches a step: the known ones that are no less off than one of them."""


@lru_cache(maxsize=1024)
def _tables(
    fitted: Machine, doing: tuple[Doing, ...]
) -> tuple[tuple[Known, ...], tuple[int, ...], Mapping[Doing, tuple[tuple[bool | None, tuple[int, ...]], ...]], Fit]:
    """All that can come to be known, and by its number what a break and each doing make of it; and what fits.

    Jobs on one machine do the same things in different words: they share their tables.
    """
    known, away, ends = _closure(fitted, doing)
    places = {k: i for i, k in enumerate(known)}
    numbered: dict[Doing, list[tuple[bool | None, tuple[int, ...]]]] = {}
    for (done, proof), after in ends.items():
        numbered.setdefault(done, []).append((proof, tuple(places.get(k, 0) for k in after)))
    return (
        tuple(known),
        tuple(places.get(k, 0) for k in away),
        {done: tuple(after) for done, after in numbered.items()},
        cache(lambda reached: tuple(i for i, k in enumerate(known) if any(_no_less(k.states, r) for r in reached))),
    )


def _closure(
    fitted: Machine, doing: tuple[Doing, ...]
) -> tuple[list[Known], list[Known], dict[tuple[Doing, bool | None], list[Known]]]:
    known, away = [Known((State.ON,) * len(fitted.energies), frozenset())], []
    ends: dict[tuple[Doing, bool | None], list[Known]] = {}
    found = set(known)
    made = [(done, tuple(Act(word, energies, _only_at(at)) for word, energies, at in done)) for done in doing]
    for one in known:
        away.append(_away(one, fitted))
        fresh = [away[-1]]
        for done, happening in made:
            for proof, after in outcomes(happening, fitted, one):
                ends.setdefault((done, proof), []).append(after)
                fresh.append(after)
        fresh = [k for k in dict.fromkeys(fresh) if k not in found][: MOST - len(known)]
        known += fresh
        found.update(fresh)
    return known, away, ends


def _only_at(point: str | None) -> Step:
    """A step as far as it matters here: the isolating point that it names."""
    return Step(0, "", False, "", None, Span(1, 1, 1, 1), (), at=point)


def outcomes(happening: tuple[Act, ...], fitted: Machine, known: Known) -> tuple[tuple[bool | None, Known], ...]:
    """What the acts of a step make of what is known, by how its proof ended: (None, …) where it has none."""
    ends: list[tuple[bool | None, Situation]]
    ends = [(None, Situation(known.states, known.shut, True, frozenset(), frozenset()))]
    for act in happening:
        ends = [end for proof, now in ends for end in _after(act, proof, now, fitted)]
    return tuple((proof, Known(now.states, now.shut)) for proof, now in ends)


def _after(act: Act, proof: bool | None, now: Situation, fitted: Machine) -> Iterable[tuple[bool | None, Situation]]:
    if act.word is Word.VERIFY:
        return ((True, proved(act, now, fitted)), (False, failed(act, now, fitted)))
    return ((proof, EFFECTS[act.word](act, now, fitted)),)


def _away(known: Known, fitted: Machine) -> Known:
    """After a break: what was proved is off, and nobody has looked since."""
    unseen = (State.RELEASED if e.needs_release else State.OFF for e in fitted.energies)
    states = (u if s is State.PROVED else s for s, u in zip(known.states, unseen, strict=True))
    return known._replace(states=tuple(states))


def _fits(visits: Visits, fit: Fit) -> Iterable[tuple[int, tuple[int, ...]]]:
    by_step: dict[int, list[States]] = {}
    for number, states in visits.spots:
        by_step.setdefault(number, []).append(states)
    return ((number, fit(frozenset(reached))) for number, reached in sorted(by_step.items()))


def _no_less(states: States, least: States) -> bool:
    return all(map(ge, states, least))
