"""Does a thermistor have the ohms that the temperature it is held at asks for?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isinf

from calculators._lib import boiling, conformity, ntc, ohmmeter, sensing, uncertainty
from calculators._lib.amounts import Amount, Words
from calculators._lib.circuit import SHORT_OHM
from calculators._lib.declare import (
    Calculator, Example, Input, Limits, Output, Quantity, Refusal, Result, Source, Sweep, Typed,
)  # fmt: skip
from calculators._lib.meter_form import METER
from calculators._lib.ohmmeter import Conditions, meter_words, standard_uncertainty
from calculators._lib.sensing import Sensor
from calculators._lib.thermistor_form import DESCRIBED, FORMULA, NOMINAL, READINGS, SENSOR_SOURCES
from calculators._lib.units import ALTITUDE, CELSIUS, KELVIN_STEP, OHM

OPEN_TIMES, SHORT_SHARE = 10.0, 0.01
"""Beyond these multiples of its limits it is open or short (common practice, no source)."""
TYPICAL_SHARE = 0.055
"""By this share a thermistor falls with each kelvin, where its kind is not told (common practice, no source)."""
SUSPECT = (0.3, 5.0)
"""Kelvin beside 0 °C from where on, and up to where, the ice bath itself is suspected."""


@dataclass(frozen=True, slots=True)
class Held:
    """A sensor, if its kind is told, in a bath of `t` ± `error`; and the meter at it. degC, kelvin."""

    sensor: Sensor | None
    t: float
    error: float
    at: Conditions

    def expanded(self, r: float, u_repeat: float = 0.0) -> float:
        """Expanded uncertainty of `r` ohm as the resistance at exactly `t`."""
        share = ntc.share_per_kelvin(self.t, self.sensor.curve) if self.sensor else TYPICAL_SHARE
        bath = r * share * uncertainty.rectangular(self.error)
        return uncertainty.K * uncertainty.combined(standard_uncertainty(r, self.at, u_repeat), bath)


def sort_out(value: float, expanded: float, low: float | None, high: float | None) -> tuple[str, str | None]:
    """The verdict, and its kind where there is more to say. An open or a shorted sensor is never in limits.

    >>> sort_out(33900.0, 300.0, 33260.0, 34550.0), sort_out(0.0, 0.1, None, 34550.0), sort_out(4e5, 2e3, 3e4, 4e4)
    (('in limits', None), ('below limits', 'short'), ('above limits', 'open'))
    """
    verdict = conformity.judge(value, expanded, low, high)
    if value <= max(SHORT_OHM, SHORT_SHARE * (low or 0.0)) and verdict != conformity.CLOSE:
        return conformity.BELOW, "short"
    if verdict == conformity.ABOVE and value >= OPEN_TIMES * (high or 0.0):
        return verdict, "open"
    unable = verdict == conformity.CLOSE and conformity.cannot_pass(expanded, low, high)
    return verdict, "cannot tell" if unable else None


def work(
    readings: Sequence[Typed],
    r25: float | None,
    b: float | None,
    r25_pct: float,
    b_pct: float,
    bath: float,
    bath_error: float,
    warmed: float | None,
    altitude: float | None,
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
    """Judge the readings. Raises Refusal where nothing says what is wanted, or it rises when it gets warm."""
    sensor = sensing.sensor_of(r25, b, (sh_a, sh_b, sh_c), table_t, table_r, (r25_pct, b_pct))
    at = Conditions(meter_pct, meter_counts, resolution or max(r.digit for r in readings))
    values = [r.value for r in readings]
    wanted = _wanted(sensor, bath, limits)
    if any(map(isinf, values)):
        return _open(values, at, wanted)
    _must_fall(uncertainty.mean(values), warmed, at)
    outputs = (*_expected(sensor, bath), *_boiling(altitude))
    return _measured(values, Held(sensor, bath, bath_error, at), wanted, outputs)


def _wanted(sensor: Sensor | None, bath: float, limits: Limits) -> Limits:
    if limits.low is not None or limits.high is not None:
        return limits
    if sensor is None:
        ways = "R25 and B, or a b c, or its table; or limits in ohm for this bath"
        raise Refusal("r25", f"Resistance at 25 °C: the sensor is not described. Give {ways}.")
    if not sensor.reach[0] <= bath <= sensor.reach[1]:
        raise Refusal("bath", "Temperature of the bath: the maker's table does not reach there.")
    low, high = (float(f"{r:.4g}") for r in sensor.band(bath))
    return Limits(low, high, limits.unit)


def _open(values: list[float], at: Conditions, wanted: Limits) -> Result:
    if not all(map(isinf, values)):
        raise Refusal("readings", "Sensor reading: one says open and another does not. Clip on, and read again.")
    fixed = "If the meter was on a fixed range, set a higher one and read again: too small a range shows OL too."
    return Result(None, None, conformity.ABOVE, "open", notes=(fixed,), meter=meter_words(at), limits=wanted)


def _must_fall(cold: float, warm: float | None, at: Conditions) -> None:
    if warm is not None and warm - cold > uncertainty.K * standard_uncertainty(warm, at):
        why = "it rose when it got warm. A PTC or a platinum sensor does that, and is not judged here."
        raise Refusal("warmed", f"Reading, warmed in the hand: {why}")


def _measured(values: list[float], held: Held, wanted: Limits, outputs: tuple[tuple[str, Words], ...]) -> Result:
    shown, repeat = uncertainty.mean(values), uncertainty.of_the_mean(values) or 0.0
    expanded = held.expanded(shown, repeat)
    verdict, kind = sort_out(shown, expanded, wanted.low, wanted.high)
    told = held.sensor and held.sensor.told(shown, standard_uncertainty(shown, held.at, repeat))
    said: list[tuple[str, Words]] = [("resistance", (Amount(shown, OHM, expanded),))]
    if told:
        said.append(("temperature", (Amount(told[0], CELSIUS, told[1]),)))
    return Result(
        shown,
        expanded,
        verdict,
        kind,
        tell=tuple(held.expanded(limit) if limit else None for limit in (wanted.low, wanted.high)),
        outputs=(*said, *outputs),
        notes=_notes(shown, told and told[0], held, verdict),
        meter=meter_words(held.at),
        picture=sensing.picture(held.t, held.sensor, (held.t, shown, expanded)) if held.sensor else None,
        limits=wanted,
    )


def _expected(sensor: Sensor | None, bath: float) -> tuple[tuple[str, Words], ...]:
    if sensor is None:
        return ()
    middle = Amount(ntc.ohm(bath, sensor.curve), OHM, digits=4)
    low, high = (Amount(r, OHM, digits=4) for r in sensor.band(bath))
    return (("expected", (middle, "; a good one lies from ", low, " to ", high)),)


def _boiling(altitude: float | None) -> tuple[tuple[str, Words], ...]:
    if altitude is None:
        return ()
    return (("boiling", (Amount(boiling.celsius(altitude), CELSIUS, boiling.WEATHER_KELVIN),)),)


def _notes(shown: float, told: float | None, held: Held, verdict: str) -> tuple[Words, ...]:
    said: list[Words] = []
    off = (told - held.t) if told is not None else 0.0
    platinum = None if verdict == conformity.IN else sensing.platinum(shown, held.t, held.error)
    if platinum:
        has = f"That is what a platinum sensor, Pt{platinum:g}, has there."
        said.append(f"{has} It rises when it warms, and is not judged here: look at the part number.")
    if held.t == 0 and verdict != conformity.IN and SUSPECT[0] < abs(off) < SUSPECT[1]:
        ice = Amount(0.0, CELSIUS)
        salt = ("Salt makes the bath colder than ", ice, ", and a good sensor reads high. Plain water, new ice, again.")
        warm = ("Too little ice, or not stirred, makes it warmer than ", ice, ", and a good sensor reads low.")
        said.append(salt if off < 0 else warm)
    if held.sensor is None:
        said.append("Its kind was not told: it is counted as falling by 5.5 % a degree.")
    return (*said, *ohmmeter.notes(held.at))


CALCULATOR = Calculator(
    id="thermistor",
    title="Thermistor in a bath",
    summary="Hold the sensor in ice and water and type its ohms. The answer: does it have what a good one has there?",
    judged=Quantity("Resistance of the sensor", OHM, low=0.0, high=1e9),
    typed=("readings",),
    table=Sweep("readings", finest=0.1, step="resolution"),
    inputs=(
        READINGS,
        *NOMINAL,
        Input(
            "bath",
            "Temperature of the bath",
            CELSIUS,
            low=sensing.COLDEST,
            high=sensing.WARMEST,
            default="0",
            hint="Ice and water, stirred: 0 °C. Else what a good thermometer beside the sensor says.",
        ),
        Input(
            "bath_error",
            "How well that is known, ±",
            KELVIN_STEP,
            low=0.0,
            high=20.0,
            default="0.5",
            hint="Crushed ice with just enough water, stirred: 0.2. A glass with cubes: 0.5.",
        ),
        Input(
            "warmed",
            "Reading, warmed in the hand",
            OHM,
            low=0.0,
            high=1e9,
            required=False,
            hint="A thermistor of this sort must fall. Left empty: not looked at.",
        ),
        Input(
            "altitude",
            "Your height above the sea",
            ALTITUDE,
            low=-430.0,
            high=9000.0,
            required=False,
            hint="Tells at what temperature water boils there, for a second bath.",
        ),
        *DESCRIBED,
        *METER,
    ),
    outputs=(
        Output("resistance", "Resistance of the sensor"),
        Output("temperature", "Temperature that it tells"),
        Output("expected", "What it should have"),
        Output("boiling", "Boiling bath at your height"),
    ),
    kinds=(
        ("open", "The sensor or its lead is open."),
        ("short", "That is a short, or water in the connector."),
        ("cannot tell", "This meter in this bath cannot tell: together they err by more than half the band."),
    ),
    formula=(
        *FORMULA,
        "band at the bath: R25 and B both at their worst, R25 (1 ± p) × (R ÷ R25)^(1 ± q)",
        "u² = (meter ÷ √3)² + scatter² ÷ n + (R × share of R a kelvin × error of the bath ÷ √3)²",
        "U = 2 u. In limits only if all of R ± U is in the band; out only if all of it is outside.",
    ),
    validity=(
        "Thermistors that fall when they warm (NTC), unplugged at both ends, from −80 to 300 °C.",
        "One B holds within 1 to 3 % far from its two temperatures; a b c and a table within what they were made for.",
        "Without R25, B or a table: only by limits of the page, and 5.5 % a degree (common practice, no source).",
    ),
    sources=(
        *SENSOR_SOURCES,
        Source(4, "JCGM 106, 8.3, guard band w = U; JCGM 100, 4.3.7 and 5.1.2", "from memory, recomputed"),
        Source(5, "IEC 60751, platinum sensors", "from memory, its value at 100 °C recomputed"),
        Source(6, "Boiling: US Standard Atmosphere 1976 and IAPWS vapour pressure", "from memory, recomputed"),
    ),
    example=Example(
        {"readings": "34.0k", "bath_error": "0.2", "r25": "10k", "b": "3977", "r25_pct": "3", "b_pct": "1"},
        None,
        None,
        "ohm",
        "34\u202f000 ± 600 ohm is between 32\u202f480 and 35\u202f350.",
    ),
    cautions=(
        "Power proved off; both ends unplugged, or the board is read too.",
        "Crushed ice from plain water, only enough water to fill the gaps; stir, wait two minutes, stir again.",
        "Keep the connector dry. Water in it reads like a lower sensor.",
        "No salt: 5 g in a litre lowers the bath by a third of a degree.",
        "Read quickly: a meter's current warms it, 0.1 mA through 10 kohm in still air by about 0.1 °C.",
        "Boiling water is 100 °C only at the sea: about 95 °C at 1500 m.",
    ),
    version="1",
    work=work,
)
