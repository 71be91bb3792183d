"""A condition that did not hold on some path, with all that a rule needs to word it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from hooks.check.analysis import State
from hooks.check.energy import Act, Machine, Situation
from hooks.check.graph import Way, applies
from hooks.check.found import line
from hooks.model import Page, Step

NEVER = "never isolated"


class Move(NamedTuple):
    """One step of a path: what was known before it, the way taken, what was known after."""

    step: Step
    before: Situation
    way: Way
    after: Situation


@dataclass(frozen=True, slots=True)
class Breach:
    """Where a path rule found its condition broken, on the shortest path to it."""

    page: Page
    machine: Machine
    act: Act
    now: Situation
    """At the act, after what its step did before it."""
    energy: int | None
    arrived: Situation
    """On reaching the step."""
    trail: tuple[Move, ...]

    @property
    def step(self) -> Step:
        """The step of the breach."""
        return self.act.step

    @property
    def name(self) -> str:
        """The energy's name; empty where no energy is concerned."""
        return "" if self.energy is None else self.machine.energies[self.energy].name

    @property
    def state(self) -> State:
        """The state of the energy at the act; only for a breach of an energy."""
        return self.now.states[self.energy or 0]

    @property
    def stored(self) -> bool:
        """Whether the energy is stored: let out, not cut at a point."""
        return self.energy is not None and self.machine.energies[self.energy].stored

    def step_that(self, word: str) -> Step | None:
        """The first step on this machine whose `word` names the energy."""
        steps = (s for s in self.page.steps if applies(s, self.machine))
        return next((s for s in steps if self.name in getattr(s, word)), None)

    def made_safe_by(self) -> Step | None:
        """The step that cuts the energy, or lets it out where it is stored."""
        return self.step_that("release" if self.stored else "isolate")


def state_set(move: Move, breach: Breach) -> str:
    """How a move set the state of the energy, in the words of a path; empty if it did not."""
    energy = breach.energy
    if energy is None or move.before.states[energy] is move.after.states[energy]:
        return ""
    named = move.step.restore and not move.step.verify
    match move.after.states[energy]:
        case State.ON:
            return "turned on here" if named else "proof failed here"
        case State.OFF:
            return "not all points on again" if move.step.restore else "only shut off here"
        case State.RELEASED:
            return "let out here, not proved"
        case _:
            return "proved off here"


def place(step: Step, breach: Breach) -> str:
    """A step as the help of a breach names it: "Unplug" (line 24)."""
    return f'"{step.title}" ({line_of(step, step.span.line, breach)})'


def line_of(step: Step, number: int, breach: Breach, file: str = "") -> str:
    """A line of a step, or of another `file`, as the help of a breach names it."""
    own = breach.page.source.name
    return line(number, file or step.file or own, breach.step.file or own)


def make_safe(breach: Breach) -> str:
    """The help of a breach where an energy is not proved off."""
    first = breach.made_safe_by()
    verbs = "lets out" if breach.stored else "isolates"
    if first is None:
        return (
            f"Add a step that {verbs} {breach.name} and one that proves it off, "
            f"before line {breach.step.span.line}."
        )
    passed = _passed_over(breach)
    if passed is not None:
        return f"Take `optional` off {place(passed, breach)}, or do without it another way."
    jump = _jump_while_on(breach)
    if jump is not None:
        return (
            f"Send {line_of(jump.step, jump.way.line or 0, breach, jump.way.file)} to a step that {verbs} "
            f"and proves {breach.name}, such as {place(first, breach)}."
        )
    return f"{_still_to_do(breach)} {breach.name} off on this path, before line {breach.step.span.line}."


def _jump_while_on(breach: Breach) -> Move | None:
    """The last written way out on the path that was taken with the energy ON."""
    on = (
        m
        for m in reversed(breach.trail)
        if m.way.line is not None and m.after.states[breach.energy or 0] is State.ON
    )
    return next(on, None) if breach.state is State.ON else None


def _still_to_do(breach: Breach) -> str:
    if breach.state is State.ON:
        return "Let out and prove" if breach.stored else "Isolate and prove"
    fitted = breach.machine.energies[breach.energy or 0]
    return "Let out and prove" if fitted.needs_release and breach.state is State.OFF else "Prove"


def _passed_over(breach: Breach) -> Step | None:
    """An optional step on the path that would have worked on the energy."""
    for move in breach.trail:
        step = move.step
        if move.way.skipped == "skipped" and breach.name in step.isolate + step.release + step.verify:
            return step
    return None
