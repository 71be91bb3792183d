"""A reading names a calculator that there is not, or one that cannot judge what the page gives it.

Why:
    The verdict at the machine comes from the calculator. A name that is not known, a unit
    of something else or limits that it refuses would leave the technician with a field that
    never answers, and nobody would see it before standing there.

Example reported:
    ```reading
    id: coil
    label: Coil resistance
    unit: ohm
    limits: [100, 500]
    calculator: coli
    ```

Example mended:
    ```reading
    id: coil
    label: Coil resistance
    unit: ohm
    limits: [100, 500]
    calculator: coil
    ```
"""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from calculators._lib import fields, shelf
from calculators._lib.declare import NOTHING, Calculator, Refusal
from hooks.check import calculators
from hooks.check.found import Found
from hooks.check.limits import bounds
from hooks.model import Page, Reading, Step
from hooks.parse.notes import choose
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Every reading that a calculator shall judge."""
    for step in page.steps:
        for reading in step.readings:
            if reading.calculator:
                yield from _unfit(step, reading)


def _unfit(step: Step, reading: Reading) -> Iterator[Found]:
    calculator = shelf.get(reading.calculator or "")
    if calculator is None:
        yield _unknown(step, reading)
        return
    limits = {"low": reading.low, "high": reading.high, "unit": reading.unit}
    problems = fields.problems(calculator, dict(reading.given), limits)
    for refusal in problems:
        what = f'the calculator `{calculator.id}` refuses what the reading "{reading.label}" gives it'
        yield Found(reading.span, what, _mend(calculator, refusal), step)
    if not problems and bounds(reading) == (None, None) and calculator.judged is not NOTHING:
        yield _unlimited(step, reading, calculator)


def _mend(calculator: Calculator, refusal: Refusal) -> str:
    names = calculators.given(calculator)
    if refusal.field != "limits" and calculator.input(refusal.field) is None:
        return f"{choose(refusal.field, names)[:-1]} under `given`; `stillbench explain {calculator.id}` says what each is."
    return f"Mend `{refusal.field}` in the reading: {refusal.message}"


def _unlimited(step: Step, reading: Reading, calculator: Calculator) -> Found:
    what = f'the reading "{reading.label}" has no limits, and the calculator `{calculator.id}` works out none'
    try:
        fields.own_limits(calculator, dict(reading.given), {"unit": reading.unit})
        help = "Write limits: [low, high], or `at-least`, or `at-most`."
    except Refusal as refusal:
        help = f"Write limits, or mend `{refusal.field}` in the reading: {refusal.message}"
    return Found(reading.span, what, help, step)


def _unknown(step: Step, reading: Reading) -> Found:
    near = get_close_matches(reading.calculator or "", shelf.ids(), 1)
    known = f"The nearest is `{near[0]}`." if near else f"There are: {', '.join(shelf.ids())}."
    help = f"{known} Leave the line out where no calculator judges the reading."
    return Found(reading.span, f"there is no calculator `{reading.calculator}`", help, step)
