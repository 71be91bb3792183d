"""Does a heating element have the ohms that its label asks for? And what it takes, elsewhere and together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isinf

from calculators._lib import conformity, heating, ohmmeter, uncertainty
from calculators._lib.amounts import Amount, Words
from calculators._lib.circuit import sort_out
from calculators._lib.declare import (
    Calculator, Example, Input, Limits, Option, Output, Quantity, Refusal, Result, Source, Sweep, Typed,
)  # fmt: skip
from calculators._lib.meter_form import METER, PERCENT
from calculators._lib.ohmmeter import Conditions, meter_words, resistance, standard_uncertainty
from calculators._lib.units import AMPERE, CELSIUS, MILLILITRE, OHM, POWER, SECOND, VOLT
from calculators._lib.words import number

PTC = 0.0
"""The place of a ratio where there is none."""


@dataclass(frozen=True, slots=True)
class Label:
    """What the label of an element says, and how its ohms rise from cold to hot."""

    volts: float
    watts: float
    plus_pct: float
    minus_pct: float
    ratio: float

    def band(self) -> tuple[float, float]:
        """Least and most ohms of a good one, cold."""
        low, high = heating.band(self.volts, self.watts, self.plus_pct, self.minus_pct)
        return heating.cold(low, self.ratio), heating.cold(high, self.ratio)

    def watts_of(self, cold: float, volts: float | None = None) -> float:
        """What one of `cold` ohm takes when it is hot, at that voltage or its own."""
        return heating.watts(volts or self.volts, cold * self.ratio)


@dataclass(frozen=True, slots=True)
class Water:
    """A mass of water to be warmed: kilograms, degrees Celsius, the share of the heat that stays in it."""

    kilogram: float | None
    cold: float | None
    hot: float | None
    efficiency: float


def work(
    readings: Sequence[Typed],
    volts: float,
    watts: float,
    plus: float,
    minus: float,
    material: float,
    ratio: float | None,
    lead: float,
    other_volts: float | None,
    second: float | None,
    water: float | None,
    cold: float | None,
    hot: float | None,
    efficiency: float,
    meter_pct: float,
    meter_counts: float,
    resolution: float | None,
    limits: Limits,
) -> Result:
    """Judge the readings. Raises Refusal for a PTC, and where readings contradict each other or the leads."""
    if material == PTC:
        why = "a PTC sets its watts by its heat; its cold ohms say nothing about them. Only open or short can be seen."
        raise Refusal("material", f"Kind of element: {why}")
    label = Label(volts, watts, plus, minus, ratio or material)
    at = Conditions(meter_pct, meter_counts, resolution or max(r.digit for r in readings), lead)
    values = [r.value for r in readings]
    wanted = _wanted(label, limits)
    if any(map(isinf, values)):
        return _open(values, at, wanted)
    kettle = Water(water and water / 1e3, cold, hot, efficiency / 100)
    return _measured(values, label, at, wanted, second, (*_elsewhere(label, other_volts), *_heating(label, kettle)))


def _wanted(label: Label, limits: Limits) -> Limits:
    if limits.low is not None or limits.high is not None:
        return limits
    low, high = (float(f"{r:.4g}") for r in label.band())
    return Limits(low, high, limits.unit)


def _open(values: list[float], at: Conditions, wanted: Limits) -> Result:
    if not all(map(isinf, values)):
        why = "one says open and another does not. Clean the tabs, and read again."
        raise Refusal("readings", f"Element reading: {why}")
    part = "A thermostat or cut-out in the same loop may be what is open: read each part alone."
    return Result(None, None, conformity.ABOVE, "open", notes=(part,), meter=meter_words(at), limits=wanted)


def _measured(
    values: list[float],
    label: Label,
    at: Conditions,
    wanted: Limits,
    second: float | None,
    extra: tuple[tuple[str, Words], ...],
) -> Result:
    shown = uncertainty.mean(values)
    expanded = uncertainty.K * standard_uncertainty(shown, at, uncertainty.of_the_mean(values) or 0.0)
    value = resistance(shown, at)
    if value < -expanded:
        raise Refusal("lead", "Lead resistance: it is more than the whole reading. Read the shorted leads again.")
    value = max(value, 0.0)
    verdict, kind = sort_out(value, expanded, wanted.low, wanted.high)
    found: list[tuple[str, Words]] = [("resistance", (Amount(value, OHM, expanded),))]
    if value > 0 and kind is None:
        found.append(("watts", _takes(label.watts_of(value), label.volts)))
    return Result(
        value,
        expanded,
        verdict,
        kind,
        tell=tuple(_near(limit, at) for limit in (wanted.low, wanted.high)),
        outputs=(*found, *_together(label, value, second), *extra),
        notes=_notes(wanted, at, label),
        meter=meter_words(at),
        limits=wanted,
    )


def _near(limit: float | None, at: Conditions) -> float | None:
    return uncertainty.K * standard_uncertainty(limit + at.lead, at) if limit else None


def _takes(watts: float, volts: float) -> Words:
    return (Amount(watts, POWER), " at ", Amount(volts, VOLT), ", ", Amount(watts / volts, AMPERE))


def _together(label: Label, value: float, second: float | None) -> tuple[tuple[str, Words], ...]:
    if not second or value <= 0:
        return ()
    ways = (("series", heating.series((value, second))), ("parallel", heating.parallel((value, second))))
    return tuple((n, (Amount(r, OHM), ": ", *_takes(label.watts_of(r), label.volts))) for n, r in ways)


def _elsewhere(label: Label, other: float | None) -> tuple[tuple[str, Words], ...]:
    if other is None:
        return ()
    watts = label.watts * (other / label.volts) ** 2
    return (("elsewhere", (*_takes(watts, other), f": {100 * watts / label.watts:.0f} % of its label")),)


def _heating(label: Label, water: Water) -> tuple[tuple[str, Words], ...]:
    if water.kilogram is None:
        return ()
    if water.cold is None or water.hot is None or water.cold >= water.hot:
        raise Refusal("hot", "Water, wanted: type how cold the water is and how hot it shall be, hotter than it is.")
    seconds = heating.heating_seconds(water.kilogram, water.cold, water.hot, label.watts, water.efficiency)
    minutes = Amount(seconds, SECOND[1:2] if seconds >= 120 else SECOND)
    return (("heating", (minutes, f", if {number(100 * water.efficiency)} % of the heat stays in the water")),)


def _notes(wanted: Limits, at: Conditions, label: Label) -> tuple[Words, ...]:
    said: list[Words] = []
    if label.ratio != 1:
        said.append(f"Its ohms rise {number(label.ratio)} times from cold to hot: the limits are for a cold one.")
    return (*said, *ohmmeter.notes(at, wanted.low, wanted.high))


CALCULATOR = Calculator(
    id="heater",
    title="Heating element",
    summary="Type the ohms and what the label says. The answer: does the element have the ohms for its watts?",
    judged=Quantity("Resistance of the element", OHM, low=0.0, high=1e9),
    typed=("readings",),
    table=Sweep("readings", finest=0.1, step="resolution"),
    inputs=(
        Input(
            "readings",
            "Element reading",
            OHM,
            low=0.0,
            high=1e9,
            below="Less than nothing means voltage on the wires, or a bad zero. Prove it dead and read again.",
            many=True,
            open_words=True,
            given=False,
            hint="All the digits that the meter shows. OL counts as open.",
        ),
        Input("volts", "Volts on the label", VOLT, low=1.0, high=1000.0, hint="Of the element, or of the plate."),
        Input("watts", "Watts on the label", POWER, low=0.1, high=1e5, hint="Of this one element."),
        Input(
            "plus",
            "Watts may be above by",
            PERCENT,
            low=0.0,
            high=50.0,
            default="5",
            hint="The maker's sheet wins. More watts are fewer ohms.",
        ),
        Input("minus", "Watts may be below by", PERCENT, low=0.0, high=50.0, default="10", hint="More ohms."),
        Input(
            "material",
            "Kind of element",
            options=(
                Option("resistance wire", 1.0),
                Option("nickel, heats at once", 4.5),
                Option("tungsten lamp", 12.0),
                Option("ptc", PTC),
            ),
            default="resistance wire",
            hint="How far its ohms rise from cold to hot: not, 4.5 times, 12 times.",
        ),
        Input(
            "ratio",
            "Ohms hot ÷ cold",
            low=1.0,
            high=20.0,
            required=False,
            hint="If the maker's sheet says it; else by the kind.",
        ),
        Input("lead", "Lead resistance", OHM, low=0.0, high=100.0, default="0", hint="What the shorted leads read."),
        Input("other_volts", "At another voltage", VOLT, low=1.0, high=1000.0, required=False, hint="The outlet's."),
        Input("second", "A second element, ohms", OHM, low=0.1, high=1e6, required=False, hint="For both together."),
        Input("water", "Water to heat", MILLILITRE, low=1.0, high=1e6, required=False),
        Input("cold", "Water, cold", CELSIUS, low=0.0, high=100.0, required=False),
        Input("hot", "Water, wanted", CELSIUS, low=0.0, high=100.0, required=False),
        Input("efficiency", "Heat that stays in the water", PERCENT, low=10.0, high=100.0, default="90"),
        *METER,
    ),
    outputs=(
        Output("resistance", "Resistance of the element"),
        Output("watts", "With these ohms it takes"),
        Output("series", "Both, one after the other"),
        Output("parallel", "Both, side by side"),
        Output("elsewhere", "A good one at the other voltage"),
        Output("heating", "Time to heat the water"),
    ),
    kinds=(
        ("open", "The element is open: it cannot heat."),
        ("short", "That is a short: next to nothing between the tabs."),
        ("shorted turns", "Under a tenth of the limit: a short, or the element touches its sheath."),
        ("cannot tell", "This meter cannot tell: its own error is wider than half the band."),
    ),
    formula=(
        "R = volts² ÷ watts ÷ ratio; ratio = ohms hot ÷ ohms cold",
        "least R = volts² ÷ (watts × (1 + plus)) ÷ ratio; most R = volts² ÷ (watts × (1 − minus)) ÷ ratio",
        "at another voltage the watts go with the square: 208 V on a 240 V element give 75 %, not 87 %",
        "in series R1 + R2; in parallel 1 ÷ (1 ÷ R1 + 1 ÷ R2)",
        "time = kilograms × 4186 × (hot − cold) ÷ (share of the heat × watts)",
        "U = 2 u, u² = (a ÷ √3)² + scatter² ÷ n, and (2 × smallest step ÷ √3)² if leads were taken off",
    ),
    validity=(
        "Elements of wire or foil, cold and disconnected at both ends; on direct current as a meter reads them.",
        "Not for a PTC: cold, its ohms say nothing about its watts.",
        "Ratios 4.5 for nickel and 12 for tungsten are usual values from memory; resistance wire rises by 2 to 7 %,"
        " which its tolerance covers.",
        "+5 and −10 % are a usual pattern for heating appliances, from memory, not verified; the maker's sheet wins.",
    ),
    sources=(
        Source(1, "Ohm and Joule: P = V² ÷ R", "textbook"),
        Source(2, "IEC 60335-1, 10.1, power deviation", "from memory, not verified"),
        Source(3, "Specific heat of water, 4186 J/(kg °C)", "handbook value, from memory"),
        Source(4, "JCGM 106, 8.3, guard band w = U; JCGM 100, 4.3.7", "from memory, recomputed"),
    ),
    example=Example(
        {"readings": "78.1", "volts": "120", "watts": "185", "plus": "10"},
        None,
        None,
        "ohm",
        "78.1 ± 0.8 ohm is between 70.76 and 86.49.",
    ),
    cautions=(
        "Proved dead first, and cold: an element burns long after.",
        "Both wires off, or what is wired beside it is read too.",
        "Also read each tab to the metal: an element can heat well and still be live outside.",
        "An open cut-out in the loop reads like an open element.",
        "Never switch an element on dry to try it.",
    ),
    version="1",
    work=work,
)
