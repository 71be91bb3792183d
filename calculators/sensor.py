"""What temperature does a thermistor tell by its ohms, and is that where it should be?"""

from __future__ import annotations

from collections.abc import Sequence
from math import isinf

from calculators._lib import conformity, ntc, sensing, uncertainty
from calculators._lib.amounts import Amount
from calculators._lib.declare import (
    Calculator, Example, Grid, Limits, Output, Quantity, Refusal, Result, Series, Source, Typed,
)  # fmt: skip
from calculators._lib.meter_form import METER
from calculators._lib.ohmmeter import Conditions, meter_words, standard_uncertainty
from calculators._lib.thermistor_form import DESCRIBED, FORMULA, NOMINAL, READINGS, SENSOR_SOURCES
from calculators._lib.units import CELSIUS, OHM

STEPS = ("110.0k", "80.0k", "60.0k", "45.0k", "34.0k", "26.0k", "20.0k", "15.00k", "10.00k", "7.00k", "5.00k", "3.50k")
"""Readings of the printed table."""
NOWHERE = "no thermistor is at home there: open, short, or another sort of sensor"


def work(
    readings: Sequence[Typed],
    r25: float | None,
    b: float | None,
    r25_pct: float,
    b_pct: float,
    sh_a: float | None,
    sh_b: float | None,
    sh_c: float | None,
    table_t: Sequence[Typed] | None,
    table_r: Sequence[Typed] | None,
    meter_pct: float,
    meter_counts: float,
    resolution: float | None,
    limits: Limits,
) -> Result:
    """Judge the temperature. Raises Refusal where the sensor is not described, or tells none."""
    sensor = sensing.sensor_of(r25, b, (sh_a, sh_b, sh_c), table_t, table_r, (r25_pct, b_pct))
    if sensor is None:
        ways = "Give R25 and B, or a b c, or its table."
        raise Refusal("r25", f"Resistance at 25 °C: the sensor is not described. {ways}")
    at = Conditions(meter_pct, meter_counts, resolution or max(r.digit for r in readings))
    values = [r.value for r in readings]
    if any(map(isinf, values)) or not all(values):
        raise Refusal("readings", f"Sensor reading: {NOWHERE}.")
    shown = uncertainty.mean(values)
    u = standard_uncertainty(shown, at, uncertainty.of_the_mean(values) or 0.0)
    told = sensor.told(shown, u)
    if told is None or not sensor.reach[0] <= told[0] <= sensor.reach[1]:
        raise Refusal("readings", f"Sensor reading: {NOWHERE}, or the maker's table does not reach that far.")
    t, expanded = told
    verdict, kind = _verdict(t, expanded, limits)
    steepness = Amount(shown * ntc.share_per_kelvin(t, sensor.curve), OHM, digits=2)
    return Result(
        t,
        expanded,
        verdict,
        kind,
        tell=(expanded, expanded),
        outputs=(("temperature", (Amount(t, CELSIUS, expanded),)), ("step", (steepness, " for each °C"))),
        meter=meter_words(at),
        picture=sensing.picture(t, sensor, (t, shown, uncertainty.K * u)),
    )


def _verdict(t: float, expanded: float, limits: Limits) -> tuple[str | None, str | None]:
    if limits.low is None and limits.high is None:
        return None, None
    verdict = conformity.judge(t, expanded, limits.low, limits.high)
    unable = verdict == conformity.CLOSE and conformity.cannot_pass(expanded, limits.low, limits.high)
    return verdict, "cannot tell" if unable else None


CALCULATOR = Calculator(
    id="sensor",
    title="Temperature from a thermistor",
    summary="Type the ohms of a sensor where it sits. The answer: what temperature it tells, and if that is right.",
    judged=Quantity("Temperature that it tells", CELSIUS, low=sensing.COLDEST, high=sensing.WARMEST),
    typed=("readings",),
    table=Grid("temperature", Series("readings", STEPS)),
    inputs=(READINGS, *NOMINAL, *DESCRIBED, *METER),
    outputs=(
        Output("temperature", "Temperature that it tells"),
        Output("step", "Its ohms change by"),
    ),
    kinds=(("cannot tell", "This sensor with this meter cannot tell: together they err by more than half the band."),),
    formula=(
        *FORMULA,
        "u of T = √((meter ÷ √3 ÷ R)² + (p ÷ √3)² + (q × ln(R ÷ R25) ÷ √3)²) ÷ share of R a kelvin",
        "U = 2 u. In limits only if all of T ± U is inside; out only if all of it is outside.",
    ),
    validity=(
        "Thermistors that fall when they warm (NTC), unplugged from their board, from −80 to 300 °C.",
        "What the maker allows R25 (p) and B (q) to be off counts: a sensor of 5 % tells a temperature to about 1 °C.",
        "One B holds within 1 to 3 % of the ohms far from its two temperatures: up to half a degree more.",
    ),
    sources=(
        *SENSOR_SOURCES,
        Source(4, "JCGM 106, 8.3, guard band w = U; JCGM 100, 5.1.2", "from memory, recomputed"),
    ),
    example=Example(
        {"readings": "76.5k", "r25": "10k", "b": "3977", "r25_pct": "3", "b_pct": "1"},
        -20.0,
        -13.0,
        "°C",
        "-14.5 ± 0.7 °C is between -20 and -13.",
    ),
    cautions=(
        "Power proved off; the sensor unplugged, or the board is read too.",
        "Beside it a thermometer that you trust: a sensor tells its own temperature, not the room's.",
        "Wait until the reading stands still: metal and ice follow slowly.",
        "Fingers warm it at once. Hold the wires.",
    ),
    version="1",
    work=work,
)
