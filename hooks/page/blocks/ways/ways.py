"""The ways out of a step as arms of a signpost, the same ways that the analysis walks."""

from __future__ import annotations

from typing import NamedTuple

from hooks.model import Step, WayOut
from hooks.page import words
from hooks.page.languages import language
from hooks.page.view import View

PROVED = "proved"


class Arm(NamedTuple):
    """One way out."""

    look: str
    """on, back or stop."""
    lead: str
    """The answer or the verdict; else "Next", or "Done" where the step may be passed over."""
    rest: str
    """What the writer says beside the verdict: ", no drip"."""
    number: int
    id: str
    label: str
    verdict: str
    main: bool = False
    passed: bool = False
    """Whether the step is passed over, and not done."""


def arms(view: View, step: Step) -> tuple[Arm, ...]:
    """The ways out of a step, in the order in which the writer put them; none out of an end."""
    passing = _passing(view, step)
    if step.end is not None:
        return passing
    say = language(view.page.language)
    on = say("done") if passing else say("next")
    found = _written(view, step)
    following = view.following(step)
    if step.verify and all(way.verdict != PROVED for way in step.ways):
        to = view.page.step(step.next.target) if step.next else following
        found = (*_arm(step, to, "Proved", verdict=PROVED), *found)
    elif step.next:
        to = view.page.step(step.next.target)
        found += _arm(step, to, on, label=step.next.label)
    elif not (step.ways or step.decide or step.jumpless):
        found += _arm(step, following, on)
    if len(found) == 1:
        found = (_filled(found[0]),)
    return found + passing


def _written(view: View, step: Step) -> tuple[Arm, ...]:
    ways = ((way, view.page.step(way.target)) for way in step.ways)
    return tuple(a for way, to in ways for a in _arm(step, to, *_lead(way), way.label, way.verdict or ""))


def _lead(way: WayOut) -> tuple[str, str]:
    """The answer in bold and what follows it; only a verdict is told apart from its words."""
    said = way.words.strip().rstrip(":—–-").strip() or way.label
    if way.verdict and said.lower().startswith(way.verdict):
        return said[: len(way.verdict)], said[len(way.verdict) :]
    return said, ""


def _passing(view: View, step: Step) -> tuple[Arm, ...]:
    """The ways that pass the step over."""
    lacking = view.lacking(step.only) if step.only else ()
    unfitted = f"not fitted on {words.listed(lacking)}" if lacking else ""
    if not (step.optional or unfitted):
        return ()
    lead = "Leave it out" if step.optional else words.capital(unfitted)
    rest = f", or {unfitted}" if step.optional and unfitted else ""
    return tuple(arm._replace(passed=True) for arm in _arm(step, view.following(step), lead, rest))


def _arm(
    step: Step, to: Step | None, lead: str, rest: str = "", label: str = "", verdict: str = ""
) -> tuple[Arm, ...]:
    if to is None:
        return ()
    look = "stop" if to.end in words.STOPS else "back" if to.number <= step.number else "on"
    return (Arm(look, words.capital(lead), rest, to.number, to.id, label or to.title, verdict),)


def _filled(arm: Arm) -> Arm:
    return arm._replace(main=True)
