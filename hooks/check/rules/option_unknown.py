"""`only` names an option that no model has, or another than the energy that the step works on.

Why:
    A step behind an unknown option is for no machine at all: a misspelt word would
    take an isolation out of the procedure without a sound. Where an energy is fitted with one option
    and its step is for another, one of them is likely a slip.

Example reported:
    models: {A1: [], A2: [hot-fill]}

    ### Shut the hot tap {#hot isolate="hot-water" only="hotfill"}

Example mended:
    models: {A1: [], A2: [hot-fill]}

    ### Shut the hot tap {#hot isolate="hot-water" only="hot-fill"}
"""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from hooks.check.found import Found, listed
from hooks.diagnostics import Level
from hooks.model import Energy, Guard, Model, Page, Step
from hooks.parse.result import ParsedShop


LEVELS = (Level.ERROR, Level.WARNING)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each guard of a step; those of energies are read with the machine."""
    known = sorted({option for model in _models(page, shop) for option in model.options})
    for step in page.steps:
        if step.only and step.only.option not in known:
            yield _found(step.only, known, step)
        elif step.only:
            yield from _otherwise(step, step.only, page.energies)


def _otherwise(step: Step, guard: Guard, energies: tuple[Energy, ...]) -> Iterator[Found]:
    worked_on = {*step.isolate, *step.release, *step.verify, *step.restore}
    for energy in energies:
        other = energy.only if energy.name in worked_on else None
        if other and (other.option, other.negated) != (guard.option, guard.negated):
            what = f'"{step.title}" is {_said(guard)}, and {energy.name} is fitted {_said(other)}'
            help = "Write the same option, or take `only` out of the line."
            yield Found(guard.span, what, help, step, energy.name, level=Level.WARNING)


def _said(guard: Guard) -> str:
    return f"only without `{guard.option}`" if guard.negated else f"only with `{guard.option}`"


def _models(page: Page, shop: ParsedShop) -> tuple[Model, ...]:
    """All models of the appliance: a page may have narrowed them."""
    known = (a.models for a in shop.shop.appliances if a.id == page.appliance_id)
    return page.models + next(known, ())


def _found(guard: Guard, known: list[str], step: Step) -> Found:
    near = get_close_matches(guard.option, known, 1)
    have = f"The options are {listed(known)}." if known else "No model has any option."
    return Found(
        guard.span,
        f"no model has the option `{guard.option}`",
        f"Did you mean `{near[0]}`?" if near else have,
        step,
    )
