"""Is the resistance of a coil in its limits? For valve coils, relays, small motors, cold and disconnected."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf, isinf

from calculators._lib import conformity, ohmmeter, uncertainty, winding
from calculators._lib.circuit import sort_out
from calculators._lib.declare import (
    Calculator, Example, Input, Limits, Option, Output, Quantity, Refusal, Result, Source, Sweep, Typed,
)  # fmt: skip
from calculators._lib.meter_form import METER
from calculators._lib.ohmmeter import Conditions, meter_error, meter_words, resistance, standard_uncertainty
from calculators._lib.units import CELSIUS, KELVIN_STEP, OHM
from calculators._lib.words import number, percent, with_uncertainty

GUESSED_KELVIN = 2.0
"""Standard uncertainty of a coil's temperature where a correction is made and none is given."""


def work(
    readings: Sequence[Typed],
    meter_pct: float,
    meter_counts: float,
    resolution: float | None,
    lead: float,
    coil_temperature: float,
    reference_temperature: float,
    temperature_uncertainty: float | None,
    material: float,
    limits: Limits,
) -> Result:
    """Judge the readings. Raises Refusal where they contradict each other or the leads."""
    corrected = coil_temperature != reference_temperature
    guess = GUESSED_KELVIN if corrected else 0.0
    at = Conditions(
        percent=meter_pct,
        counts=meter_counts,
        resolution=resolution or max(r.digit for r in readings),
        lead=lead,
        t=coil_temperature,
        t_ref=reference_temperature,
        u_t=guess if temperature_uncertainty is None else temperature_uncertainty,
        k=material,
    )
    values = [r.value for r in readings]
    if any(map(isinf, values)):
        return _open(values, at, limits)
    notes = _notes(values, at, limits, temperature_uncertainty is None)
    return _measured(values, at, limits, notes)


def _open(values: list[float], at: Conditions, limits: Limits) -> Result:
    if not all(map(isinf, values)):
        why = "one says open and another does not. Clean the tabs, clip on again, and read again."
        raise Refusal("readings", f"Coil reading: {why}")
    verdict, kind = sort_out(inf, 0.0, limits.low, limits.high)
    fixed = "If the meter was on a fixed range, set a higher one and read again: too small a range shows OL too."
    judged = None if _unlimited(limits) else verdict
    return Result(None, None, judged, kind, _tell(at, limits), notes=(fixed,), meter=meter_words(at))


def _measured(values: list[float], at: Conditions, limits: Limits, notes: tuple[str, ...]) -> Result:
    shown = uncertainty.mean(values)
    u = standard_uncertainty(shown, at, uncertainty.of_the_mean(values) or 0.0)
    value, expanded = resistance(shown, at), uncertainty.K * u
    if value < -expanded:
        raise Refusal("lead", "Lead resistance: it is more than the whole reading. Read the shorted leads again.")
    value = max(value, 0.0)
    verdict, kind = sort_out(value, expanded, limits.low, limits.high)
    if _unlimited(limits):
        verdict, kind = None, None
    outputs = _outputs(values, value, u, at, limits)
    return Result(
        value, expanded, verdict, kind, _tell(at, limits), outputs=outputs, notes=notes, meter=meter_words(at)
    )


def _unlimited(limits: Limits) -> bool:
    return limits.low is None and limits.high is None


def _tell(at: Conditions, limits: Limits) -> tuple[float | None, float | None]:
    def near(limit: float | None) -> float | None:
        if not limit:
            return None
        shown = winding.at_temperature(limit, at.t_ref, at.t, at.k) + at.lead
        return uncertainty.K * standard_uncertainty(shown, at)

    return near(limits.low), near(limits.high)


def _outputs(
    values: list[float], value: float, u: float, at: Conditions, limits: Limits
) -> tuple[tuple[str, str], ...]:
    shown, give = with_uncertainty(value, uncertainty.K * u)
    out = [("resistance", f"{shown} ± {give} ohm at {number(at.t_ref)} °C")]
    spread = uncertainty.scatter(values)
    if spread is not None:
        out.append(("scatter", f"{float(f'{spread:.2g}'):g} ohm over {len(values)} readings"))
    if not _unlimited(limits):
        chance = conformity.p_conform(value, u, limits.low or None, limits.high)
        out.append(("chance", percent(chance)))
    return tuple(out)


def _notes(values: list[float], at: Conditions, limits: Limits, guessed: bool) -> tuple[str, ...]:
    said = []
    spread = uncertainty.scatter(values)
    if spread is not None and spread > meter_error(max(values), at):
        said.append("The readings differ by more than the meter explains: look at clips and tabs.")
    if at.t != at.t_ref:
        said.append(f"The meter read {number(uncertainty.mean(values))} ohm at {number(at.t)} °C.")
        if guessed:
            said.append("How well the temperature is known was not given: ± 4 °C is counted with.")
    return (*said, *ohmmeter.notes(at, limits.low, limits.high))


CALCULATOR = Calculator(
    id="coil",
    title="Coil resistance",
    summary="Type what the meter shows. The answer: is the coil in its limits, and can this meter tell?",
    judged=Quantity("Coil resistance", OHM, low=0.0, high=1e9),
    typed=("readings",),
    table=Sweep("readings", finest=0.1, step="resolution"),
    inputs=(
        Input(
            "readings",
            "Coil reading",
            OHM,
            low=0.0,
            high=1e9,
            below="Less than nothing means voltage on the wires, or a bad zero. Prove it dead and read again.",
            many=True,
            open_words=True,
            given=False,
            hint="All the digits that the meter shows. OL counts as open.",
        ),
        *METER,
        Input(
            "lead",
            "Lead resistance",
            OHM,
            low=0.0,
            high=100.0,
            default="0",
            hint="Zero the meter with the leads held together, or type what they read. Only matters under 20 ohm.",
        ),
        Input(
            "coil_temperature",
            "Temperature of the coil",
            CELSIUS,
            low=-60.0,
            high=250.0,
            default="20",
            hint="Same as the reference: nothing is corrected.",
        ),
        Input(
            "reference_temperature",
            "Temperature the limits are for",
            CELSIUS,
            low=-60.0,
            high=250.0,
            default="20",
            hint="Makers give 20 or 25 °C.",
        ),
        Input(
            "temperature_uncertainty",
            "How well the temperature is known",
            KELVIN_STEP,
            low=0.0,
            high=50.0,
            required=False,
            hint="Standard uncertainty. Left empty: 2 °C if a correction is made.",
        ),
        Input(
            "material",
            "Wire of the winding",
            options=(Option("copper", winding.COPPER), Option("aluminium", winding.ALUMINIUM)),
            default="copper",
        ),
    ),
    outputs=(
        Output("resistance", "Resistance of the coil"),
        Output("scatter", "Scatter of the readings"),
        Output("chance", "Chance that the coil is in its limits"),
    ),
    kinds=(
        ("open", "The coil is open: no current gets through its winding."),
        ("short", "That is a short: next to nothing between the tabs."),
        ("shorted turns", "Under a tenth of the limit: a short, or turns shorted inside the winding."),
        ("cannot tell", "This meter cannot tell: its own error is wider than half the band."),
    ),
    formula=(
        "R = (reading − leads) × (k + reference temperature) ÷ (k + temperature of the coil)",
        "k = 234.5 °C for copper, 225 °C for aluminium",
        "on alternating current a coil is more than its ohms: volts ÷ amps = √(R² + (2π × frequency × inductance)²)",
        "largest error of the meter a = percent × reading + digits × smallest step",
        "u² = (a ÷ √3)² + scatter² ÷ n, and (2 × smallest step ÷ √3)² if leads were taken off; and the temperature",
        "U = 2 u. In limits only if all of R ± U is inside; out only if all of it is outside.",
    ),
    validity=(
        "A winding of copper or aluminium, disconnected at both ends, from −60 to 250 °C.",
        "The resistance on direct current, as a multimeter reads it; not what the coil does on alternating current.",
        "Open from ten times the upper limit on, short up to 0.5 ohm, shorted turns under a tenth of the lower limit:"
        " common practice, no source.",
    ),
    sources=(
        Source(1, "IEC 60028, resistance of copper: temperature coefficient 0.00393 at 20 °C", "from memory"),
        Source(2, "Resistance method of appliance and motor standards: k = 234.5 and 225", "a published copy"),
        Source(3, "JCGM 100 (GUM), 4.2, 4.3.7, 5.1.2: uncertainty", "from memory, recomputed"),
        Source(4, "JCGM 106, 7 and 8, and ILAC-G8:09/2019, 4.2.3: guard band w = U", "from memory, recomputed"),
        Source(5, "JCGM 100, H.2: a coil of 127.7 ohm has 254.3 ohm on 400 Hz", "quoted in an open library, recomputed"),
    ),
    example=Example({"readings": "312"}, 100.0, 500.0, "ohm", "312 ± 4 ohm is between 100 and 500."),
    cautions=(
        "Proved dead first. A meter on its ohm range is no test for voltage.",
        "Pull both wires off the coil: what stays connected is read too.",
        "Let it cool: a coil hot from use reads up to a third too high.",
        "Hold clips, not tabs: wet fingers are read too.",
        "Good ohms do not make a good valve: it may still be stuck or blocked.",
        "Do not work out the ohms from volts and watts, or volts and amps, of a coil on alternating current: far off.",
    ),
    version="1",
    work=work,
)
