"""What is known of a machine on one path, and what each act of a step does to it.

Unknown counts as ON. Energies are named by their place in `Machine.energies`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from hooks.check.analysis import State
from hooks.model import Energy, Kind, Model, Page, Step


class Word(StrEnum):
    """What can happen in a step, in the order in which it happens."""

    MESSAGE = "message"
    HANDS = "work"
    """Hands at the machine: `work`, no mark at all, `opens`, `closes` or `installs`."""
    LOOK = "check"
    """`check` or `ready`; also a reading taken in a step that is no `test`."""
    CLEAR = "clear"
    ISOLATE = "isolate"
    RELEASE = "release"
    VERIFY = "verify"
    RESTORE = "restore"
    TEST = "test"
    END = "end"


@dataclass(frozen=True, slots=True)
class Machine:
    """The appliance as fitted; models that differ in nothing the page speaks of share one."""

    models: tuple[str, ...]
    options: frozenset[str]
    energies: tuple[Energy, ...]
    supplies: tuple[int, ...]
    """The energies that are not stored."""
    fed: tuple[frozenset[int], ...]
    """Per energy: itself and all that it charges, directly or through another."""

    def indexes(self, names: Iterable[str]) -> tuple[int, ...]:
        """The places of these energies; what this machine lacks is left out."""
        wanted = frozenset(names)
        return tuple(i for i, e in enumerate(self.energies) if e.name in wanted) if wanted else ()


class Situation(NamedTuple):
    """What is known on one path, before a step or between two acts."""

    states: tuple[State, ...]
    shut: frozenset[tuple[int, str]]
    """The isolating points shut on this path."""
    clear: bool
    """No tools, hands or people at the machine."""
    open: frozenset[str]
    warned: frozenset[int]
    """The energies with a message in force."""

    def shut_points(self, energy: int) -> tuple[str, ...]:
        """The points of that energy that are still shut."""
        return tuple(sorted(point for e, point in self.shut if e == energy))


class Act(NamedTuple):
    """One thing that happens in a step."""

    word: Word
    energies: tuple[int, ...]
    step: Step

    def point(self, energy: Energy) -> str:
        """The isolating point meant: the one written, else the usual one."""
        return self.step.at or (energy.points[0] if energy.points else "")


def machine(page: Page, models: tuple[Model, ...]) -> Machine:
    """The machine that these models, alike in their options, stand for.

    A customer changes no energy: on a self-check there is none to follow.
    """
    energies = () if page.kind is Kind.SELF_CHECK else page.fitted(models[0])
    names = [e.name for e in energies]
    supplies = tuple(i for i, e in enumerate(energies) if not e.stored)
    fed = tuple(frozenset(names.index(n) for n in _fed(name, energies)) for name in names)
    return Machine(tuple(m.name for m in models), models[0].options, energies, supplies, fed)


def _fed(name: str, energies: tuple[Energy, ...]) -> set[str]:
    found, new = set(), {name}
    while new:
        found |= new
        new = {e.name for e in energies if e.charged_by in found} - found
    return found


def start(machine: Machine, page: Page) -> Situation:
    """Before the first step: everything ON and charged, nothing open, the page's messages read."""
    warned = machine.indexes(name for m in page.messages for name in m.energies)
    on = (State.ON,) * len(machine.energies)
    return Situation(on, frozenset(), True, frozenset(), frozenset(warned))


def acts(step: Step, machine: Machine) -> tuple[Act, ...]:
    """What happens in a step, in order."""
    messages = tuple(name for m in step.messages for name in m.energies)
    happening: tuple[tuple[Word, object, tuple[str, ...]], ...] = (
        (Word.MESSAGE, messages, messages),
        (Word.HANDS, step.hands_on, ()),
        (Word.LOOK, step.check or step.ready, ()),
        (Word.CLEAR, step.clear, ()),
        (Word.ISOLATE, step.isolate, step.isolate),
        (Word.RELEASE, step.release, step.release),
        (Word.VERIFY, step.verify, step.verify),
        (Word.RESTORE, step.restore, step.restore),
        (Word.LOOK, step.measures, ()),
        (Word.TEST, step.test, step.test),
        (Word.END, step.end is not None, ()),
    )
    return tuple(Act(w, machine.indexes(names), step) for w, happens, names in happening if happens)


def can_release(energy: int, now: Situation, machine: Machine) -> bool:
    """A supply must be off; what is stored must have its feeder off."""
    fitted = machine.energies[energy]
    cut = machine.indexes((fitted.charged_by,)) if fitted.charged_by else (energy,)
    return all(now.states[e] >= State.OFF for e in cut)


def can_prove(energy: int, now: Situation, machine: Machine) -> bool:
    """What stays in after shutting off must be let out first, anything else be off."""
    least = State.RELEASED if machine.energies[energy].needs_release else State.OFF
    return now.states[energy] >= least


def proved(act: Act, now: Situation, machine: Machine) -> Situation:
    """The proof held, for the energies that could be proved at all."""
    held = {e for e in act.energies if can_prove(e, now, machine)}
    return now._replace(states=_raised(now.states, held, State.PROVED))


def failed(act: Act, now: Situation, machine: Machine) -> Situation:
    """The proof failed: the isolation is not to be believed, and what it feeds may be charged again."""
    return now._replace(states=_turned_on(now.states, _all_fed(act.energies, machine)))


def renewed(act: Act, machine: Machine) -> frozenset[int]:
    """The energies that an act cuts or turns on: what was told of them before is told again."""
    if act.word not in (Word.ISOLATE, Word.RESTORE):
        return frozenset()
    supplies = machine.supplies if act.word is Word.ISOLATE else act.energies
    return _all_fed((e for e in act.energies if e in supplies), machine)


def _message(act: Act, now: Situation, machine: Machine) -> Situation:
    return now._replace(warned=now.warned | frozenset(act.energies))


def _hands(act: Act, now: Situation, machine: Machine) -> Situation:
    opened = (now.open | frozenset(act.step.opens)) - frozenset(act.step.closes)
    return now._replace(clear=False, open=opened)


def _clear(act: Act, now: Situation, machine: Machine) -> Situation:
    return now._replace(clear=True)


def _isolate(act: Act, now: Situation, machine: Machine) -> Situation:
    cut = [e for e in act.energies if not machine.energies[e].stored]
    points = frozenset((e, act.point(machine.energies[e])) for e in cut)
    return now._replace(
        states=_raised(now.states, cut, State.OFF),
        shut=now.shut | points,
    )


def _release(act: Act, now: Situation, machine: Machine) -> Situation:
    out = {e for e in act.energies if can_release(e, now, machine)}
    return now._replace(states=_raised(now.states, out, State.RELEASED))


def _restore(act: Act, now: Situation, machine: Machine) -> Situation:
    shut = now.shut - {(e, act.point(machine.energies[e])) for e in act.energies}
    partly = {e for e, _ in shut}.intersection(act.energies)
    lowered = tuple(min(s, State.OFF) if e in partly else s for e, s in enumerate(now.states))
    on = _all_fed((e for e in act.energies if e not in partly), machine)
    return now._replace(
        states=_turned_on(lowered, on),
        shut=shut,
        warned=now.warned - _all_fed(act.energies, machine),
    )


EFFECTS: dict[Word, Callable[[Act, Situation, Machine], Situation]] = {
    Word.MESSAGE: _message,
    Word.HANDS: _hands,
    Word.CLEAR: _clear,
    Word.ISOLATE: _isolate,
    Word.RELEASE: _release,
    Word.RESTORE: _restore,
}
"""What each act changes. A look, a test and an end change nothing; a proof has two outcomes."""


def _all_fed(energies: Iterable[int], machine: Machine) -> frozenset[int]:
    return frozenset().union(*(machine.fed[e] for e in energies))


def _raised(states: tuple[State, ...], energies: Iterable[int], least: State) -> tuple[State, ...]:
    chosen = frozenset(energies)
    return tuple(max(s, least) if e in chosen else s for e, s in enumerate(states))


def _turned_on(states: tuple[State, ...], energies: frozenset[int]) -> tuple[State, ...]:
    return tuple(State.ON if e in energies else s for e, s in enumerate(states))
