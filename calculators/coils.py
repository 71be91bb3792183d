"""Does one of several equal coils stand out? The coils of one valve, or of two equal machines, side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isinf, log

from calculators._lib import conformity, uncertainty, winding
from calculators._lib.amounts import Amount, Words
from calculators._lib.circuit import SHORT_OHM
from calculators._lib.declare import (
    Calculator, Example, Grid, Input, Limits, Output, Quantity, Refusal, Result, Series, Source, Typed,
)  # fmt: skip
from calculators._lib.meter_form import METER, PERCENT
from calculators._lib.ohmmeter import Conditions, meter_words, standard_uncertainty
from calculators._lib.units import KELVIN_STEP, OHM
from calculators._lib.words import listed

USUAL_PERCENT = 10.0
"""So far equal coils may lie apart, where the page gives no limit (common practice, no source)."""
ROOM = 20.0
"""degC at which the coils are about compared."""


@dataclass(frozen=True, slots=True)
class Furthest:
    """The coil that lies furthest from the mean of the others: its place from 0, its ohms, theirs."""

    place: int
    own: float
    others: float

    @property
    def percent(self) -> float:
        """How far it is off, percent of the others, below zero if it is lower."""
        return (self.own / self.others - 1) * 100


def furthest(values: Sequence[float]) -> Furthest:
    """The one that lies furthest by ratio; of two, the higher. Two values or more, all above zero.

    >>> found = furthest([312.0, 318.0, 430.0])
    >>> found.place, round(found.percent, 1)
    (2, 36.5)
    """
    rest = [uncertainty.mean([v for j, v in enumerate(values) if j != i]) for i in range(len(values))]
    place = max(range(len(values)), key=lambda i: (abs(round(log(values[i] / rest[i]), 12)), values[i]))
    return Furthest(place, values[place], rest[place])


def work(
    readings: Sequence[Typed],
    warmth: float,
    meter_pct: float,
    meter_counts: float,
    resolution: float | None,
    limits: Limits,
) -> Result:
    """Judge how far the furthest lies from the others. Raises Refusal where there is nothing to compare."""
    values = [r.value for r in readings]
    at = Conditions(meter_pct, meter_counts, resolution or max(r.digit for r in readings))
    wanted = _wanted(limits)
    dead = [("open", isinf), ("short", lambda v: v <= SHORT_OHM)]
    if len(values) < 2:
        raise Refusal("readings", "Coil reading: one alone cannot be compared. Type the other coils too.")
    for kind, is_dead in dead:
        found = [f"{i}" for i, v in enumerate(values, 1) if is_dead(v)]
        if len(found) == len(values):
            why = f"all are {kind}. Look at the meter, its range and the clips first."
            raise Refusal("readings", f"Coil reading: {why}")
        if found:
            said = f"Coil {listed(found).replace(' or ', ' and ')} {'is' if len(found) == 1 else 'are'} {kind}."
            return Result(None, None, conformity.ABOVE, kind, sentence=said, meter=meter_words(at), limits=wanted)
    return _compared(values, at, warmth, wanted)


def _wanted(limits: Limits) -> Limits:
    if limits.low is not None:
        raise Refusal("limits", "Limits: coils cannot be too equal. Only an upper limit is wanted.")
    return limits if limits.high is not None else Limits(None, USUAL_PERCENT, limits.unit)


def expanded_percent(found: Furthest, at: Conditions, warmth: float) -> float:
    """Expanded uncertainty of the difference, percent: the meter at both, and warmer or colder by `warmth` kelvin."""
    meter = (standard_uncertainty(r, at) / r for r in (found.own, found.others))
    warm = uncertainty.rectangular(warmth) / (winding.COPPER + ROOM)
    return uncertainty.K * 100 * found.own / found.others * uncertainty.combined(*meter, warm)


def _compared(values: list[float], at: Conditions, warmth: float, wanted: Limits) -> Result:
    found = furthest(values)
    value, expanded = abs(found.percent), expanded_percent(found, at, warmth)
    verdict = conformity.judge(value, expanded, None, wanted.high)
    two = len(values) == 2
    side = f"{'above' if found.percent >= 0 else 'below'} {'the other' if two else 'the others'}"
    differs: Words = (Amount(value, PERCENT, expanded), f" {side}")
    heads = {
        conformity.IN: f"None stands out. The furthest is coil {found.place + 1}, ",
        conformity.ABOVE: f"Coil {found.place + 1} stands out: ",
        conformity.CLOSE: f"Coil {found.place + 1} may stand out: ",
    }
    return Result(
        value,
        expanded,
        verdict,
        "cannot tell" if verdict == conformity.CLOSE and conformity.cannot_pass(expanded, 0.0, wanted.high) else None,
        tell=(None, expanded),
        sentence=(heads[verdict], *differs, "."),
        outputs=(
            ("difference", (Amount(value, PERCENT, expanded),)),
            ("furthest", (f"coil {found.place + 1}: ", *differs)),
            ("others", (Amount(found.others, OHM),)),
        ),
        notes=_notes(verdict, two),
        meter=meter_words(at),
        limits=wanted,
    )


def _notes(verdict: str, two: bool) -> tuple[Words, ...]:
    if verdict == conformity.IN:
        return ("Equal is not good yet: all may be off alike. The maker's limits judge each.",)
    return ("Of two, nobody can say which is at fault. The maker's limits, or a third coil, can.",) if two else ()


CALCULATOR = Calculator(
    id="coils",
    title="Coils side by side",
    summary="Type the ohms of two or more equal coils. The answer: does one of them stand out?",
    judged=Quantity("Difference from the others", PERCENT, low=0.0, high=1000.0),
    typed=("readings",),
    table=Grid(
        "furthest",
        Series("readings", tuple(f"100.0; 100.0; {third}.0" for third in (100, 105, 110, 115, 120, 150, 95, 90, 85, 80, 50))),
    ),
    inputs=(
        Input(
            "readings",
            "Coil reading",
            OHM,
            low=0.0,
            high=1e9,
            below="Less than nothing means voltage on the wires, or a bad zero. Prove it dead and read again.",
            many=True,
            rows=3,
            open_words=True,
            given=False,
            hint="One field a coil, all with one meter on one range. OL counts as open.",
        ),
        Input(
            "warmth",
            "One may be warmer than the others by",
            KELVIN_STEP,
            low=0.0,
            high=100.0,
            default="5",
            hint="10 °C change copper by 4 %. Let all stand equally long.",
        ),
        *METER,
    ),
    outputs=(
        Output("difference", "Difference"),
        Output("furthest", "Furthest from the others"),
        Output("others", "Mean of the others"),
    ),
    kinds=(
        ("open", "One of them is open."),
        ("short", "One of them is a short."),
        ("cannot tell", "This meter, with coils that unequal in warmth, cannot tell."),
    ),
    formula=(
        "difference = (its ohms ÷ mean of the others − 1) × 100 %, for the coil whose ratio lies furthest from one",
        "u² = both readings' (a ÷ √3 ÷ ohms)² + (warmth ÷ √3 ÷ (234.5 + 20))², a = percent × reading + digits × step",
        "U = 2 u, percent. None stands out only if all of it is inside the limit.",
    ),
    validity=(
        "Coils of one kind and one part number, cold, disconnected, read one after the other with one meter.",
        "10 % where the page gives no limit: common practice, no source.",
        "The meter's percent is counted for each reading, though on one range most of it is the same: the safe side.",
    ),
    sources=(
        Source(1, "JCGM 100 (GUM), 4.3.7 and 5.1.2: uncertainty of a ratio", "from memory, recomputed"),
        Source(2, "Resistance method, k = 234.5 for copper", "a published copy"),
        Source(3, "Equal coils lie within 10 % of each other", "common practice, no source"),
    ),
    example=Example({"readings": "312; 318; 430"}, None, 10.0, "%", "Coil 3 stands out: 37 ± 4 % above the others."),
    cautions=(
        "Proved dead first; both wires off each coil.",
        "Compare only coils with the same number on them.",
        "Two that differ do not say which is bad. Three do, most of the time.",
        "A coil that matches may still sit on a stuck valve.",
    ),
    version="1",
    work=work,
)
