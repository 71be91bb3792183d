"""The rail: one standing pipe an energy, with the isolating point or the tick where the step acts."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from hooks.model import Step
from hooks.page import lines
from hooks.page.view import Line, View


class Pipe(NamedTuple):
    """One energy beside one step."""

    place: int
    """Counted from the left, from 0."""
    arriving: str
    leaving: str
    point: str
    """The isolating point that is turned here; empty for none."""
    proof: bool
    """Whether it is proved off here."""


def beside(view: View, step: Step) -> Markup:
    """The rail beside a step."""
    places = {e.name: place for place, e in enumerate(view.page.energies)}
    pipes = (_pipe(places[line.energy.name], line, step) for line in view.lines(step))
    return draw(tuple(pipes), len(places))


def between(view: View, following: Step) -> Markup:
    """The rail beside a heading: as on arriving at the step that follows."""
    places = {e.name: place for place, e in enumerate(view.page.energies)}
    arriving = ((places[x.energy.name], lines.shown(x.arriving)) for x in view.lines(following))
    return draw(tuple(Pipe(place, s, s, "", False) for place, s in arriving), len(places))


def _pipe(place: int, line: Line, step: Step) -> Pipe:
    name = line.energy.name
    cut, back = name in step.isolate, name in step.restore
    sign = lines.sign(line.energy, on=back) if cut or back else ""
    shown = lines.shown(line.arriving), lines.shown(line.leaving)
    return Pipe(place, *shown, sign, name in step.verify and line.leaving is not None)


@lru_cache(maxsize=4096)
def draw(pipes: tuple[Pipe, ...], of: int) -> Markup:
    """The drawing itself; `of` is how many pipes there is room for."""
    drawn = "".join(_drawn(pipe, of) for pipe in pipes)
    return Markup(f'<svg class="rail" aria-hidden="true">{drawn}</svg>')


def _drawn(pipe: Pipe, of: int) -> str:
    parts, signs = _parts(pipe)
    drawn = "".join(_stretch(top, bottom, shown) for top, bottom, shown in parts)
    used = "".join(_sign(name, at) for name, at in signs)
    return f'<svg x="{100 * pipe.place / of:g}%" overflow="visible">{drawn}{used}</svg>'


def _parts(pipe: Pipe) -> tuple[list[tuple[int, int, str]], list[tuple[str, int]]]:
    if pipe.point and pipe.proof:
        parts = [(0, 26, pipe.arriving), (26, 72, "off"), (72, 100, pipe.leaving)]
        return parts, [(pipe.point, 26), ("tick", 72)]
    signs = [(sign, 50) for sign in (pipe.point or (pipe.proof and "tick"),) if sign]
    if pipe.arriving == pipe.leaving:
        return [(0, 100, pipe.arriving)], signs
    return [(0, 50, pipe.arriving), (50, 100, pipe.leaving)], signs


def _stretch(top: int, bottom: int, shown: str) -> str:
    place = f'y="{top}%" height="{bottom - top}%"'
    drawn = f'<rect class="fill-{shown}" width="14" {place}/>'
    if shown == "on":
        return drawn
    edge = f'<rect class="edge-{shown}" width="2" {place}'
    return f'{drawn}{edge}/>{edge} x="12"/>'


def _sign(name: str, at: int) -> str:
    turn = "" if name == "tick" else " rotate(90)"
    scale = ".9" if name == "tick" else ".72"
    use = f'<use href="#i-{name}" transform="scale({scale}){turn}"/>'
    return f'<svg x="7" y="{at}%" overflow="visible">{use}</svg>'
