"""The board: worked out here for every step, so that no script has to know a rule about energy."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from hooks.check.analysis import State
from hooks.model import Step
from hooks.page import lines, words
from hooks.page.view import Line, View

WATERS = frozenset({"water", "hot-water"})


class Target(NamedTuple):
    """A step that the board links to."""

    number: int
    id: str


class BoardLine(NamedTuple):
    """One energy on the board."""

    energy: str
    name: str
    shown: str
    """on, off or proved: full, hatched, hollow."""
    state: str
    only: str
    point: str
    """The drawing of its isolating point; empty for what is stored."""
    proofs: tuple[Target, ...]
    prove: Target | None
    earlier: tuple[str, str] | None = None
    """Address and title of the page before, where its proof covers on some way."""


class Board(NamedTuple):
    """What is safe to touch now."""

    look: str
    """in, unproved, live or test."""
    icon: str
    word: str
    say: str
    lines: tuple[BoardLine, ...]


def before(view: View) -> Board:
    """The board before the first step: everything is on."""
    on = tuple(Line(e, State.ON, State.ON) for e in view.page.energies)
    drawn = tuple(_line(view, line, None, {}, frozenset()) for line in on)
    if not on:
        return _unknown("This page names no energy, so none is proved.", drawn)
    return Board("live", "hand-off", "HANDS OFF", _on(on), drawn)


def at(view: View, step: Step) -> Board:
    """The board while this step is being done: the worst over all paths that reach it."""
    there, proofs, earlier = view.lines(step), view.proofs(step), view.proved_before(step)
    return _board(step.test, there, tuple(_line(view, line, step, proofs, earlier) for line in there))


@lru_cache(maxsize=4096)
def known(there: tuple[Line, ...], test: tuple[str, ...] = ()) -> Board:
    """The board of a job in which just this is known; `test` are the energies that a test has on.

    It links nowhere: which step proved what, and when, the job knows. Jobs on one machine share theirs.
    """
    return _board(test, there, tuple(_bare(line, test) for line in there))


def _board(test: tuple[str, ...], there: tuple[Line, ...], drawn: tuple[BoardLine, ...]) -> Board:
    if not there:
        return _unknown("No energy is named for this step, so none is proved.", drawn)
    if any(line.worst is None for line in there):
        return _unknown("Nothing is proved here: no checked way leads to this step.", drawn)
    if test:
        return _test(test, there, drawn)
    if any(line.worst is State.ON for line in there):
        return Board("live", "hand-off", "HANDS OFF", _on(there), drawn)
    open_proofs = [line.energy.name for line in there if line.worst is not State.PROVED]
    if open_proofs:
        say = f"Prove the {words.names(open_proofs)} first."
        return Board("unproved", "hand-off", "HANDS OFF", say, drawn)
    say = "Inside the machine. The wall side stays on."
    return Board("in", "hand", "HANDS IN", say, drawn)


def _unknown(say: str, drawn: tuple[BoardLine, ...]) -> Board:
    return Board("unproved", "hand-off", "HANDS OFF", say, drawn)


def _test(test: tuple[str, ...], there: tuple[Line, ...], drawn: tuple[BoardLine, ...]) -> Board:
    tested = words.names(test)
    verb = "is" if len(test) == 1 else "are"
    say = f"{words.capital(tested)} {verb} on for the test."
    others = tuple(x for x in there if x.energy.name not in test and x.worst is State.ON)
    if others:
        say += f" {_on(others)}"
    if "electricity" in test:
        return Board("test", "meter", "METER ONLY", say, drawn)
    if WATERS.issuperset(test):
        return Board("test", "bucket", "TUBE ONLY", f"Hold tube and bucket. {say}", drawn)
    return Board("live", "hand-off", "HANDS OFF", say, drawn)


def _on(there: tuple[Line, ...]) -> str:
    on = [x.energy.name for x in there if x.arriving is State.ON]
    said = f"{words.capital(words.names(on))} {'is' if len(on) == 1 else 'are'} on." if on else ""
    return " ".join(filter(None, (said, going_on(there))))


def going_on(there: tuple[Line, ...]) -> str:
    """What the step itself turns on, in a sentence; empty where it turns on nothing."""
    going = [x.energy.name for x in there if x.worst is State.ON and x.arriving is not State.ON]
    verb = "goes" if len(going) == 1 else "go"
    return f"{words.capital(words.names(going))} {verb} on in this step." if going else ""


def _bare(line: Line, test: tuple[str, ...]) -> BoardLine:
    energy, worst = line.energy, line.worst
    sign = lines.sign(energy, worst is State.ON)
    return BoardLine(energy.name, words.name(energy.name), lines.shown(worst), _state(line, test), "", sign, (), None)


def _line(
    view: View, line: Line, step: Step | None, covering: Mapping[str, tuple[Step, ...]], before: frozenset[str]
) -> BoardLine:
    """`covering` and `before` are the proofs of this page and of the page before that cover the step."""
    energy, worst = line.energy, line.worst
    proofs = covering.get(energy.name, ()) if worst is State.PROVED else ()
    unproved = worst is not State.PROVED and worst is not State.ON
    prove = view.next_proof(energy.name, step) if step and unproved else None
    return BoardLine(
        energy.name,
        words.name(energy.name),
        lines.shown(worst),
        _state(line, step.test if step else ()),
        view.only(energy),
        lines.sign(energy, worst is State.ON),
        tuple(Target(s.number, s.id) for s in proofs),
        Target(prove.number, prove.id) if prove else None,
        view.earlier if worst is State.PROVED and energy.name in before else None,
    )


def _state(line: Line, test: tuple[str, ...]) -> str:
    if line.worst is None:
        return "NOT proved"
    if line.worst is State.ON and line.arriving is not State.ON:
        return "goes ON here"
    said = words.state(line.energy.name, line.worst)
    tested = line.energy.name in test and line.worst is State.ON
    return f"{said} for the test" if tested else said
