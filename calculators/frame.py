"""Does current get from a coil or a heater to the metal round it? What a meter can and cannot say about it."""

from __future__ import annotations

from dataclasses import replace
from math import inf, isinf

from calculators._lib import conformity, uncertainty
from calculators._lib.amounts import Amount, Words
from calculators._lib.declare import (
    Calculator, Example, Input, Limits, Output, Quantity, Refusal, Result, Source, Sweep,
)  # fmt: skip
from calculators._lib.meter_form import PERCENT
from calculators._lib.units import OHM, VOLT
from calculators._lib.words import number

MEGOHM = tuple(replace(unit, factor=unit.factor / 1e6) for unit in reversed(OHM))
"""Of insulation it is megohms that are read."""
USUAL_LIMIT = 1.0
"""Where the page gives none (common practice, no source)."""
INSULATION_TEST_VOLTS = 250.0
"""Under this, a reading is no insulation test (common practice, no source)."""
TOUCHING = 0.001
"""Under this the winding touches the metal (common practice, no source)."""
NO_FAULT_SEEN = "No fault seen. That is not a pass: a few volts do not find insulation that fails at mains."
MULTIMETER = "No multimeter shows that insulation holds mains voltage; that takes an insulation test, by its rules."


def work(reading: float, volts: float, error_pct: float, limits: Limits) -> Result:
    """Judge a reading between tab and metal. Raises Refusal for limits that insulation cannot have."""
    if limits.high is not None:
        raise Refusal("limits", "Limits: insulation has a lower limit only. The more ohms, the better.")
    low = USUAL_LIMIT if limits.low is None else limits.low
    expanded = 0.0 if isinf(reading) else uncertainty.K * uncertainty.rectangular(error_pct / 100 * reading)
    verdict, kind = sort_out(reading, expanded, volts, low)
    shown = None if isinf(reading) else reading
    unseen = shown is not None and kind == "no fault seen"
    return Result(
        shown,
        None if shown is None else expanded,
        verdict,
        kind,
        tell=(uncertainty.K * uncertainty.rectangular(error_pct / 100 * low), None),
        sentence=(Amount(reading, (limits.unit,), expanded), f". {NO_FAULT_SEEN}") if unseen else "",
        outputs=(
            ("read", _read(reading, expanded, limits)),
            ("tested", (Amount(volts, VOLT), f", {'no ' if is_weak(volts) else ''}insulation test")),
        ),
        notes=(MULTIMETER,) if is_weak(volts) else (),
        meter=f"a meter that errs by {error_pct:g} %, at {number(volts)} V",
        limits=Limits(low, None, limits.unit),
    )


def _read(reading: float, expanded: float, limits: Limits) -> Words:
    return "OL: more than it shows" if isinf(reading) else (Amount(reading, (limits.unit,), expanded),)


def is_weak(volts: float) -> bool:
    """Whether that voltage is too low to test insulation."""
    return volts < INSULATION_TEST_VOLTS


def sort_out(reading: float, expanded: float, volts: float, low: float) -> tuple[str, str | None]:
    """Verdict and kind. Enough ohms at a meter's few volts are too close to call: a fault was not seen, no more.

    >>> sort_out(inf, 0.0, 3.0, 1.0), sort_out(2.0, 0.1, 500.0, 1.0), sort_out(0.4, 0.04, 3.0, 1.0)
    (('too close to call', 'no fault seen'), ('in limits', None), ('below limits', None))
    """
    verdict = conformity.judge(reading, expanded, low, None)
    if verdict == conformity.BELOW:
        return verdict, "touching" if reading < TOUCHING else None
    if is_weak(volts):
        return conformity.CLOSE, "no fault seen" if verdict == conformity.IN else None
    return verdict, "more than it shows" if isinf(reading) else None


CALCULATOR = Calculator(
    id="frame",
    title="Coil to frame",
    summary="Type what is read between a tab and bare metal. The answer: is there a fault, and could one be seen?",
    judged=Quantity("Resistance to the frame", MEGOHM, low=0.0, high=1e6),
    typed=("reading",),
    table=Sweep("reading", finest=0.001),
    inputs=(
        Input(
            "reading",
            "Between tab and metal",
            MEGOHM,
            low=0.0,
            high=1e6,
            below="Less than nothing means voltage on the wires. Prove it dead and read again.",
            open_words=True,
            given=False,
            hint="The highest range. OL is what a multimeter should show.",
        ),
        Input(
            "volts",
            "Voltage of the test",
            VOLT,
            low=0.1,
            high=5000.0,
            default="3",
            hint="A multimeter: leave 3. An insulation tester: what it is set to.",
        ),
        Input(
            "error_pct",
            "Error of meter or tester",
            PERCENT,
            low=0.0,
            high=50.0,
            default="10",
            hint="Of the reading. At many megohms a good one may err by 10 %.",
        ),
    ),
    outputs=(Output("read", "Read"), Output("tested", "Tested with")),
    kinds=(
        ("no fault seen", NO_FAULT_SEEN),
        ("touching", "The winding touches the metal, or is wet."),
        ("more than it shows", "The insulation tester shows more than it can count: nothing gets through."),
    ),
    formula=(
        "fault: reading + U below the limit, at any voltage",
        "good: reading − U at or above the limit, and tested with 250 V or more",
        "no fault seen: the same ohms from a meter that tests with a few volts",
        "U = 2 × (error × reading) ÷ √3",
    ),
    validity=(
        "Between one tab of a part that is disconnected at both ends, and bare metal of its frame or earth pin.",
        "1 Mohm where the page gives no limit: common practice, no source; the maker's sheet or the standard wins.",
    ),
    sources=(
        Source(1, "Usual limit 1 Mohm, 2 Mohm for a new part; 250 V as the least test voltage", "common practice"),
        Source(2, "JCGM 106, 8.3: guarded acceptance and rejection", "from memory, recomputed"),
    ),
    example=Example(
        {"reading": "OL"},
        1.0,
        None,
        "Mohm",
        NO_FAULT_SEEN,
    ),
    cautions=(
        "Proved dead first, both wires off, and the part dry: a wet coil reads like a broken one.",
        "Scrape to bare metal: paint reads like good insulation.",
        "Hands off the tips: your body is about a megohm and would be read too.",
        "An insulation tester puts hundreds of volts on the part: nobody touches it, electronics are unplugged first,"
        " and it is discharged after.",
    ),
    version="1",
    work=work,
)
