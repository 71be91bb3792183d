"""From what the search saw to findings with the path that shows them."""

from __future__ import annotations

from collections.abc import Iterator
from types import ModuleType

from hooks.check.breach import NEVER, Breach, state_set
from hooks.check.found import Found
from hooks.check.rules import RULES
from hooks.check.walk import Key, Walk, concerned, last, passing, trail
from hooks.diagnostics import Finding, PathStep
from hooks.model import Page
from hooks.source import Span

_MODULES = {rule.name: rule.module for rule in RULES}


def findings(page: Page, walks: tuple[Walk, ...]) -> Iterator[Finding]:
    """One finding for each rule, step and energy, with the shortest path over all machines."""
    for (rule, place, energy), seen in _merged(walks).items():
        module = _MODULES[rule]
        models = tuple(m for walk, _ in seen for m in walk.machine.models)
        breach = min((_breach(*one) for one in seen), key=lambda b: len(b.trail))
        message, help = module.say(breach)
        path = _path(breach, module)
        named = concerned(page, models)
        found = Found(_span(breach), message, help, breach.step, energy, named, path)
        yield found.finding(rule, page)


def _span(breach: Breach) -> Span:
    """The word of the step line that the breach is about, as exactly as it was written."""
    word = breach.act.word.value
    written = dict(breach.step.spans)
    words = (f"{word} {breach.name}", f"without {breach.name}", word, "opens", "closes")
    return next((written[w] for w in words if w in written), breach.step.span)


def _merged(walks: tuple[Walk, ...]) -> dict[tuple[str, int, str | None], list[tuple[Walk, Key]]]:
    """The same breach has another place among the energies on another machine, but one name."""
    merged: dict[tuple[str, int, str | None], list[tuple[Walk, Key]]] = {}
    for walk in walks:
        for key in walk.breaches:
            name = None if key.energy is None else walk.machine.energies[key.energy].name
            merged.setdefault((key.rule, key.place, name), []).append((walk, key))
    return merged


def _breach(walk: Walk, key: Key) -> Breach:
    node, act, now = walk.breaches[key]
    return Breach(walk.page, walk.machine, act, now, key.energy, node.now, trail(walk, node))


def _path(breach: Breach, module: ModuleType) -> tuple[PathStep, ...]:
    cause = getattr(module, "cause", state_set)
    notes = [cause(move, breach) for move in breach.trail]
    marked = max((i for i, note in enumerate(notes) if note), default=None)
    page, machine = breach.page, breach.machine
    steps = [
        passing(page, machine, move, notes[i] if i == marked else "")
        for i, move in enumerate(breach.trail)
    ]
    here = module.HERE
    if marked is None and cause is state_set and breach.energy is not None:
        here = f"{here}, {NEVER if not breach.stored else 'never let out'}"
    return (*steps, last(page, machine, breach.step, breach.arrived, here))
