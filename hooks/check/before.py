"""What another page has made true before a page begins: worked out from its ends, never believed.

A page that counts on another begins in the states that its condition names, with the points shut and
the things open that the other page leaves at its ends `left safe`; a finding says where it does not.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from hooks.check.analysis import State
from hooks.check.energy import Machine, Situation, start
from hooks.check.found import Found, listed
from hooks.check.graph import applies
from hooks.check.walk import Walk
from hooks.model import Condition, Kind, Page, Step
from hooks.parse.result import ParsedShop

LEFT_SAFE = "left safe"
"""The end at which a page hands the machine on; at any other it runs, or could not be made safe."""


class End(NamedTuple):
    """An end of the other page, reached on one machine."""

    step: Step
    machine: Machine
    now: Situation


@dataclass(frozen=True, slots=True)
class Before:
    """What is known of the page that a condition names."""

    condition: Condition
    page: Page | None
    """None where there is no such page."""
    unknown: str
    """Why its ends are not known, in words that follow its name; empty where they are."""
    ends: tuple[End, ...]


Look = Callable[[Page, Before | None], tuple[Walk, ...]]
"""Searches a page, that begins as another leaves the machine."""


def before(page: Page, shop: ParsedShop, look: Look, asking: tuple[str, ...] = ()) -> Before | None:
    """What the page named by a page's condition leaves; None where it has no condition.

    `asking` is the ids of the pages that count on this one.
    """
    condition = page.front.condition
    if condition is None:
        return None
    other = shop.by_id.get(condition.page)
    if other is None:
        return Before(condition, None, "", ())
    asking = (*asking, page.id)
    unknown = "is one of those that count on each other in a circle" if other.id in asking else _unfit(page, other, shop)
    earlier = None if unknown else before(other, shop, look, asking)
    if earlier and (earlier.page is None or any(faults(other, earlier))):
        unknown = f"counts on `{earlier.condition.page}`, which {earlier.unknown or 'does not leave what it should'}"
    walks = () if unknown else look(other, earlier)
    if not all(walk.complete for walk in walks):
        unknown = "is too long to be followed to its ends"
    return Before(condition, other, unknown, () if unknown else tuple(_ends(walks)))


def _unfit(page: Page, other: Page, shop: ParsedShop) -> str:
    if other.kind is not Kind.PROCEDURE:
        return f"is a page of kind `{other.kind.value}`, which makes nothing safe"
    if (other.appliance_id, other.appliance) != (page.appliance_id, page.appliance):
        return f"is for another machine, `{other.appliance}`"
    if not any(one.sound for one in shop.pages if one.page is other) or any(s.uses for s in other.steps):
        return "has errors of its own"
    return ""


def _ends(walks: tuple[Walk, ...]) -> Iterator[End]:
    for walk in walks:
        for node in walk.came:
            step = walk.page.steps[node.place]
            if step.end == LEFT_SAFE and applies(step, walk.machine):
                yield End(step, walk.machine, node.now)


def starts(page: Page, machine: Machine, made: Before | None) -> tuple[Situation, ...]:
    """Each situation in which a page may begin on a machine; none where the other page never comes to its end."""
    first = start(machine, page)
    if made is None:
        return (first,)
    held = {name: State[word.upper()] for name, word, _ in made.condition.holds}
    states = tuple(held.get(e.name, State.ON) for e in machine.energies)
    found = (
        first._replace(states=states, shut=_shut(end, machine), clear=end.now.clear, open=end.now.open)
        for end in made.ends
        if not set(end.machine.models).isdisjoint(machine.models)
    )
    return tuple(dict.fromkeys(found))


def _shut(end: End, machine: Machine) -> frozenset[tuple[int, str]]:
    """The points that the other page leaves shut, by this page's energies."""
    places = {e.name: place for place, e in enumerate(machine.energies)}
    named = ((end.machine.energies[e].name, point) for e, point in end.now.shut)
    return frozenset((places[name], point) for name, point in named if name in places)


def faults(page: Page, made: Before) -> Iterator[Found]:
    """Where the other page does not leave what the condition says; a page that is not there is told as lost."""
    if made.page is None:
        return
    if made.unknown:
        what = f"nothing is known of what `{made.page.id}` leaves: it {made.unknown}"
        yield Found(made.condition.span, what, _ALONE)
        return
    reached = {name for end in made.ends for name in end.machine.models}
    lacking = [m.name for m in page.models if m.name not in reached]
    if lacking:
        what = f"`{made.page.id}` has no end `{LEFT_SAFE}` on {listed(lacking)}"
        yield Found(made.condition.span, what, _ALONE, models=() if len(lacking) == len(page.models) else tuple(lacking))
    known = {e.name for e in page.energies}
    for name, word, span in made.condition.holds:
        if name not in known:
            yield Found(span, f"this machine has no energy `{name}`", f"It has {listed(sorted(known))}.", None, name)
            continue
        for end, models in _broken(page, made, name, State[word.upper()]).items():
            step, state = end
            file = step.file or made.page.source.name
            what = f'{name} is not {word}: "{step.title}" ({file} line {step.span.line}) ends `{LEFT_SAFE}` with it {state.words}'
            every = models == tuple(m.name for m in page.models)
            mend = f"Let `{made.page.id}` leave it so on every way to that end, or isolate and prove it here."
            yield Found(span, what, mend, None, name, () if every else models)


_ALONE = "Take the condition out, and isolate and prove on this page."


def _broken(page: Page, made: Before, name: str, promised: State) -> dict[tuple[Step, State], tuple[str, ...]]:
    """By end and what is known there, the models on which less is known than was promised."""
    found: dict[tuple[int, State], set[str]] = {}
    having = {m.name for m in page.models if any(e.name == name for e in page.fitted(m))}
    for end in made.ends:
        states = {e.name: s for e, s in zip(end.machine.energies, end.now.states, strict=True)}
        state = states.get(name, State.ON)
        models = having.intersection(end.machine.models)
        if state < promised and models:
            found.setdefault((end.step.number, state), set()).update(models)
    steps = made.page.steps if made.page else ()
    return {
        (steps[number - 1], state): tuple(m.name for m in page.models if m.name in models)
        for (number, state), models in found.items()
    }
