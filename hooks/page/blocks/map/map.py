"""The map: a column a step, the energies as lying pipes, a stroke under a hand where hands go in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from hooks.check.analysis import State
from hooks.model import Step
from hooks.page import lines, words
from hooks.page.view import View


ROOM = 3.3
"""What a step number needs, in per cent of the map's width."""


class Stretch(NamedTuple):
    """A part of a pipe, or of the strokes where hands go in; per cent of the width."""

    start: float
    width: float
    shown: str


class Sign(NamedTuple):
    """An isolating point or a tick."""

    at: float
    drawing: str


class MapLine(NamedTuple):
    """One energy over the whole job."""

    name: str
    stretches: tuple[Stretch, ...]
    signs: tuple[Sign, ...]
    y: int


@dataclass(frozen=True, slots=True)
class Map:
    """The drawing, and the same in words."""

    lines: tuple[MapLine, ...]
    hands: tuple[Stretch, ...]
    numbers: tuple[tuple[float, int], ...]
    height: int
    label: str
    sentence: str


def of(view: View) -> Map:
    """The map of a page."""
    energies = view.page.energies
    drawn = tuple(_line(view, place) for place in range(len(energies)))
    spells = _spells(view)
    width = 100 / max(len(view.page.steps), 1)
    hands = tuple(Stretch((a - 1) * width, (b - a + 1) * width, "hands") for a, b in spells)
    marked = {s.number for s in view.page.steps if s.isolate or s.verify or s.restore}
    marked |= {start for start, _ in spells}
    numbers = _apart(((n - 0.5) * width, n) for n in sorted(marked))
    sentence = _sentence(view, spells)
    height = 36 + 40 * len(energies) + 26
    return Map(drawn, hands, numbers, height, _label(view, spells), sentence)


def _apart(numbers: Iterable[tuple[float, int]]) -> tuple[tuple[float, int], ...]:
    """The step numbers that can stand beside each other without touching."""
    kept: list[tuple[float, int]] = []
    for at, number in numbers:
        if not kept or at - kept[-1][0] >= ROOM:
            kept.append((at, number))
    return tuple(kept)


def _line(view: View, place: int) -> MapLine:
    energy, steps = view.page.energies[place], view.page.steps
    width = 100 / max(len(steps), 1)
    halves: list[tuple[float, float, str]] = []
    signs: list[Sign] = []
    for step in steps:
        at = (step.number - 0.5) * width
        line = next((x for x in view.lines(step) if x.energy is energy), None)
        if line is None:
            continue
        halves.append((at - width / 2, at, lines.shown(line.arriving)))
        halves.append((at, at + width / 2, lines.shown(line.leaving)))
        sign = _sign(step, energy.name)
        if sign == "tick" or (sign and lines.point(energy) != "tank"):
            drawing = sign if sign == "tick" else lines.sign(energy, sign == "on")
            signs.append(Sign(at, drawing))
    return MapLine(words.name(energy.name), _joined(halves), tuple(signs), 36 + 40 * place + 13)


def _sign(step: Step, energy: str) -> str:
    if energy in step.verify:
        return "tick"
    if energy in step.restore:
        return "on"
    return "off" if energy in step.isolate else ""


def _joined(halves: list[tuple[float, float, str]]) -> tuple[Stretch, ...]:
    """`halves` are start, end and look of half a step's width each; those that touch and look alike are one."""
    joined: list[tuple[float, float, str]] = []
    for start, end, shown in halves:
        if joined and joined[-1][2] == shown and abs(joined[-1][1] - start) < 1e-6:
            start = joined.pop()[0]
        joined.append((start, end, shown))
    return tuple(Stretch(start, end - start, shown) for start, end, shown in joined)


def hollow(view: View, step: Step) -> bool:
    """Whether every energy is proved off all through the step."""
    there = view.lines(step)
    return bool(there) and all(line.worst is State.PROVED for line in there)


def _spells(view: View) -> list[tuple[int, int]]:
    """First and last step of each time that hands go in; it ends where a line is hollow no more."""
    spells: list[tuple[int, int]] = []
    inside = False
    for step in view.page.steps:
        if step.hands_on and inside:
            spells[-1] = (spells[-1][0], step.number)
        elif step.hands_on:
            spells.append((step.number, step.number))
        inside = (inside or step.hands_on) and hollow(view, step)
    return spells


def _sentence(view: View, spells: list[tuple[int, int]]) -> str:
    if not spells:
        return "Hands never go in."
    hands = [s for s in view.page.steps if s.hands_on]
    bad = [s for s in hands if not hollow(view, s)]
    often = words.times(len(spells))
    if bad:
        numbers = words.listed([str(s.number) for s in bad])
        return f"Hands go in {often}. Not every line is proved off at step {numbers}."
    count = len(view.page.energies)
    which = ("", "the line is", "both lines are")[count] if count < 3 else f"all {words.count(count)} lines are"
    each = "each time " if len(spells) > 1 else ""
    return f"Hands go in {often}, {each}only while {which} hollow: proved off."


def _label(view: View, spells: list[tuple[int, int]]) -> str:
    acts = (("off at", "isolate"), ("proved off at", "verify"), ("on again at", "restore"))
    told = []
    for energy in view.page.energies:
        said = []
        for verb, word in acts:
            at = [str(s.number) for s in view.page.steps if energy.name in getattr(s, word)]
            said += [f"{verb} step {words.listed(at)}"] if at else []
        told.append(f"{words.name(energy.name)} {', '.join(said) or 'stays as it is'}")
    inside = [f"{a} to {b}" if b > a else str(a) for a, b in spells]
    told.append(f"Hands in at step {words.listed(inside)}" if inside else "Hands never go in")
    return "Map of the job. " + "; ".join(told) + "."
