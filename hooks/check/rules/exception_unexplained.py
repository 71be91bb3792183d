"""A step lets a warning stand without a reason, or one that cannot be let stand.

Why:
    An exception is part of the page: it names the rule, gives its reason beside its step, and is
    shown on the page and in every report. An error is never let stand, nor what the shop has made
    one. A reason whose finding is gone would hide the next one.

Example reported:
    ### Unplug it {#unplug isolate="electricity" allow="isolating-point-uncontrolled"}
    Pull the plug.

Example mended:
    ### Unplug it {#unplug isolate="electricity" allow="isolating-point-uncontrolled" because="the cord is a foot long"}
    Pull the plug.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from difflib import get_close_matches

from hooks.check.found import Found
from hooks.diagnostics import Finding, Level
from hooks.model import Page, Step

LEVELS = (Level.ERROR, Level.WARNING)


def on_findings(page: Page, findings: Collection[Finding], known: Mapping[str, Level]) -> Iterator[Found]:
    """What is wrong with each exception; `known` are the names of all rules."""
    for step in page.steps:
        if step.allow and not step.because:
            what = f'"{step.title}" lets a warning stand and does not say why'
            yield Found(step.span_of("allow"), what, 'Write `because="…"` beside it.', step)
        elif step.because and not step.allow:
            what = f'"{step.title}" gives a reason, and lets nothing stand'
            help = 'Name the rule with `allow="…"`, or take the reason out.'
            yield Found(step.span_of("because"), what, help, step, level=Level.WARNING)
        for name in step.allow:
            here = [f for f in findings if f.rule == name and f.step and f.step.id == step.id]
            yield from _about(step, name, here, known)


def _about(step: Step, name: str, here: list[Finding], known: Mapping[str, Level]) -> Iterator[Found]:
    span = dict(step.spans).get(f"allow {name}", step.span_of("allow"))
    if name not in known:
        near = get_close_matches(name, known, 1)
        help = f"Did you mean `{near[0]}`?" if near else "Write the name that the finding gives."
        yield Found(span, f"there is no rule `{name}`", help, step)
    elif any(f.level is Level.ERROR for f in here) or (not here and known[name] is Level.ERROR):
        what = f"`{name}` reports an error, and no error is let stand"
        yield Found(span, what, "Mend what it reports, and take this out.", step)
    elif not here:
        what = f"`{name}` reports nothing in this step"
        yield Found(span, what, "Take it out: it would hide the next finding.", step, level=Level.WARNING)
