"""The ways out of a step as arms of a signpost, the same ways that the analysis walks."""

from __future__ import annotations

from dataclasses import dataclass

from hooks.model import Step, WayOut
from hooks.page import words
from hooks.page.view import View

PROVED = "proved"


@dataclass(frozen=True, slots=True)
class Arm:
    """One way out."""

    look: str
    """on, back or stop."""
    lead: str
    """The answer or the verdict, or "Next"."""
    number: int
    id: str
    label: str
    verdict: str
    main: bool = False


def arms(view: View, step: Step) -> tuple[Arm, ...]:
    """The ways out of a step, in the order in which the writer put them; none out of an end."""
    if step.end is not None:
        return _passing(view, step)
    found = _written(view, step)
    following = view.following(step)
    if step.verify and all(way.verdict != PROVED for way in step.ways):
        to = view.page.step(step.next.target) if step.next else following
        found = (*_arm(step, to, "Proved", verdict=PROVED), *found)
    elif step.next:
        to = view.page.step(step.next.target)
        found += _arm(step, to, "Next", step.next.label)
    elif not (step.ways or step.decide or step.jumpless):
        found += _arm(step, following, "Next")
    if len(found) == 1:
        found = (_filled(found[0]),)
    return found + _passing(view, step)


def _written(view: View, step: Step) -> tuple[Arm, ...]:
    ways = ((way, view.page.step(way.target)) for way in step.ways)
    return tuple(a for way, to in ways for a in _arm(step, to, *_lead(way), way.verdict or ""))


def _lead(way: WayOut) -> tuple[str, str]:
    words_before = way.words.strip().rstrip(":—–-").strip()
    return words_before or way.label, way.label


def _passing(view: View, step: Step) -> tuple[Arm, ...]:
    """The ways that pass the step over."""
    following, found = view.following(step), ()
    if step.optional:
        found += _arm(step, following, "Leave it out")
    lacking = view.lacking(step.only) if step.only else ()
    if lacking:
        found += _arm(step, following, f"On {words.listed(lacking)}: not fitted, go on")
    return found


def _arm(
    step: Step, to: Step | None, lead: str, label: str = "", verdict: str = ""
) -> tuple[Arm, ...]:
    if to is None:
        return ()
    look = "stop" if to.end in words.STOPS else "back" if to.number <= step.number else "on"
    return (Arm(look, words.capital(lead), to.number, to.id, label or to.title, verdict),)


def _filled(arm: Arm) -> Arm:
    return Arm(arm.look, arm.lead, arm.number, arm.id, arm.label, arm.verdict, main=True)
