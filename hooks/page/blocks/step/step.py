"""A step: its heading, what it does to the energies in words, its short facts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from markupsafe import Markup

from hooks.check.analysis import State
from hooks.model import Step
from hooks.page import words
from hooks.page.blocks.board import board
from hooks.page.blocks.figure import figure
from hooks.page.blocks.rail import rail
from hooks.page.blocks.reading import reading
from hooks.page.blocks.ways import ways
from hooks.page.view import View, guarded


IN_SERVICE = "in service"


class Effect(NamedTuple):
    """What a step does to the energies, in its one line."""

    words: str
    live: bool
    """Whether something is on while or after it is done."""


class StepView(NamedTuple):
    """All that the template of a step needs."""

    step: Step
    of: int
    rail: Markup
    effects: tuple[Effect, ...]
    known: str
    """What is known of the energies, in words."""
    facts: tuple[str, ...]
    clearing: str
    text: Markup
    """What is done, with its figures."""
    readings: tuple[reading.ReadingView, ...]
    judged: reading.Judged | None
    arms: tuple[ways.Arm, ...]
    closing: Closing | None


@dataclass(frozen=True, slots=True)
class Closing:
    """How a job ends here."""

    state: str
    facts: tuple[str, ...]
    then: tuple[str, str] | None
    """Address and title of the page that goes on."""
    leaving: tuple[str, ...] = ()
    """What must be true before one goes, where the machine runs again."""


def of(view: View, step: Step) -> StepView:
    """One step, ready to be drawn."""
    return StepView(
        step,
        len(view.page.steps),
        rail.beside(view, step),
        effects(view, step),
        known(view, step),
        facts(view, step),
        view.shop.clearing if step.clear else "",
        figure.text(step.prose, step.figures, view.links, view.page.language, later=step.number > 1),
        tuple(reading.of(step, r) for r in step.readings),
        reading.judged(view.page, step),
        ways.arms(view, step),
        closing(view, step) if step.end is not None else None,
    )


def effects(view: View, step: Step) -> tuple[Effect, ...]:
    """What the one line of a step says at its end: "water proved off", "power on"."""
    let_out = [e for e in step.release if e not in step.verify]
    cut = [e for e in step.isolate if e not in (*step.verify, *let_out)]
    said = [Effect(_test(step), True)] if step.test else []
    said += [Effect(f"{_names(view, cut)} off", False)] if cut else []
    said += [Effect(f"{words.name(e).lower()} {words.LET_OUT.get(e, 'let out')}", False) for e in let_out]
    said += [Effect(f"{_names(view, step.verify)} proved off", False)] if step.verify else []
    said += [Effect(f"{_names(view, step.restore)} on", True)] if step.restore else []
    return tuple(said)


def _names(view: View, energies: tuple[str, ...] | list[str]) -> str:
    every = len(energies) > 2 and len(energies) == len(view.page.energies)
    return f"all {words.count(len(energies))}" if every else words.names(energies)


def _test(step: Step) -> str:
    if "electricity" in step.test:
        return "meter only"
    return "tube and bucket only" if board.WATERS.issuperset(step.test) else "hands off"


def known(view: View, step: Step) -> str:
    """What is known of the energies on reaching the step."""
    there = view.lines(step)
    if any(line.arriving is None for line in there):
        return "Nothing is proved here."
    said = words.states((x.energy.name, x.arriving or State.ON) for x in there)
    going = board.going_on(there)
    return f"{said} {going}" if going else said


def facts(view: View, step: Step) -> tuple[str, ...]:
    """Short lines: who, how long, with what, on which models."""
    guard = step.only
    told = (
        guard and words.capital(f"{guarded(guard)}: {words.listed(_having(view, step))}."),
        step.optional and "May be left out.",
        step.people and f"{words.capital(words.people(step.people))}.",
        step.skill and f"Only for those allowed to do it: {step.skill}.",
        step.at and f"At the {step.at}.",
        step.time and f"About {words.time(step.time)}.",
        step.wait and f"Wait {words.time(step.wait)}.",
        step.needs and f"Use: {words.listed(step.needs)}.",
        step.installs and f"Fit: {words.listed([_part(view, p) for p in step.installs])}.",
        step.opens and f"Opens: {words.listed(step.opens)}.",
        step.closes and f"Closes: {words.listed(step.closes)}.",
        step.for_test and "On for the test only.",
    )
    return tuple(fact for fact in told if fact)


def _having(view: View, step: Step) -> tuple[str, ...]:
    guard = step.only
    return tuple(m.name for m in view.page.models if guard and guard.holds(m.options))


def _part(view: View, name: str) -> str:
    found = next((p for p in view.page.front.parts or () if p.name == name), None)
    return f"{name} {found.number}" if found and found.number else name


def closing(view: View, step: Step) -> Closing:
    """The closing state of an end, with its outcome and what it leads to."""
    state = words.CLOSING.get(step.end or "", words.capital(step.end or ""))
    without = f", {words.names(step.without)} proved off and tagged" if step.without else ""
    told = (
        step.outcome and f"Outcome: {step.outcome}.",
        step.cause and f"Cause: {step.cause}.",
    )
    then = view.links.pages.get(step.then, ("", step.then)) if step.then else None
    leaving = tuple(item.text for item in view.page.front.after or ()) if step.end == IN_SERVICE else ()
    return Closing(f"{state}{without}.", tuple(t for t in told if t), then, leaving)
