"""What does a valve let through, and is it still as good as rated? Kv or Cv, pressures before and after, flow."""

from __future__ import annotations

from calculators._lib import conformity, my_gauge, valve_answer
from calculators._lib.declare import (
    Calculator, Example, Grid, Input, Limits, Output, Quantity, Refusal, Result, Series, Source,
)  # fmt: skip
from calculators._lib.units import BORE, CELSIUS, LITRES_A_MINUTE, PERCENT, PRESSURE
from calculators._lib.valve_answer import FACTOR, Passed


def work(
    before: float,
    after: float | None,
    rated: float | None,
    flow: float | None,
    temperature: float,
    recovery: float,
    bore: float | None,
    flow_error: float,
    gauge: float | None,
    limits: Limits,
) -> Result:
    """The flow of a rated factor, the factor of a caught flow, or one held against the other. Raises Refusal."""
    if rated is None and flow is None:
        raise Refusal("rated", "Rated factor: nothing is typed yet. Type it, or the flow that was caught.")
    behind, off = after or 0.0, my_gauge.off_by(gauge)
    if before <= behind:
        raise Refusal("after" if after else "before", "Pressure before it: no more than after it. Nothing can flow.")
    passed = Passed(before, behind, temperature, recovery, rated, flow, flow_error / 100, off)
    part, wide = valve_answer.share(passed)
    limited = limits.low is not None or limits.high is not None
    if limited and part is None:
        missing = "flow" if flow is None else "rated"
        label = "Flow caught" if flow is None else "Rated factor"
        raise Refusal(missing, f"{label}: nothing is typed yet. It is needed to judge the valve.")
    kind = valve_answer.kind(passed, part, wide)
    return Result(
        part,
        wide or None,
        conformity.judge(part, wide, limits.low or None, limits.high) if limited else None,
        kind,
        tuple(v and v * passed.wide for v in (limits.low, limits.high)),
        "" if limited else valve_answer.sentence(passed, part, wide, kind),
        valve_answer.outputs(passed, part, wide, bore),
        valve_answer.notes(passed),
        my_gauge.words(off),
        valve_answer.chart(passed),
    )


CALCULATOR = Calculator(
    id="valve",
    title="Valve: Kv or Cv",
    summary="What a valve lets through by its factor, and whether it still does. The answer: flow, factor, or both.",
    judged=Quantity("Share of the rated factor", PERCENT, low=0.0, high=1000.0),
    typed=("before", "rated", "flow"),
    table=Grid(
        "flow",
        Series("before", ("0.5 bar", "1 bar", "2 bar", "3 bar", "4 bar", "6 bar")),
        Series("rated", ("0.05 Kv", "0.1 Kv", "0.2 Kv", "0.5 Kv", "1 Kv")),
    ),
    inputs=(
        Input(
            "before",
            "Pressure before it, running",
            PRESSURE,
            low=0.0,
            high=2500.0,
            below="A gauge shows no less than nothing: zero it and read again.",
            given=False,
            hint="With the water running, not at rest.",
        ),
        Input(
            "after",
            "Pressure after it, running",
            PRESSURE,
            low=0.0,
            high=2500.0,
            required=False,
            hint="Left empty: it runs out into the open.",
        ),
        Input(
            "rated",
            "Rated factor",
            FACTOR,
            low=1e-4,
            high=1000.0,
            required=False,
            below="So little lets nothing through.",
            hint="From the maker's sheet: Kv or Cv. An inlet valve of a house machine: 0.1 to 0.5 (common practice).",
        ),
        Input(
            "flow",
            "Flow caught",
            LITRES_A_MINUTE,
            low=0.0,
            high=1e5,
            required=False,
            given=False,
            hint="Left empty: the flow by the rated factor is said.",
        ),
        Input(
            "temperature",
            "Temperature of the water",
            CELSIUS,
            low=0.0,
            high=95.0,
            below="That is ice.",
            default="12",
        ),
        Input(
            "recovery",
            "FL of the valve",
            low=0.3,
            high=1.0,
            default="0.9",
            hint="How deep the pressure dips in the seat. Globe and solenoid valves 0.9, ball valves 0.6.",
        ),
        Input("bore", "Bore of the line", BORE, low=0.5, high=300.0, required=False, hint="For the loss factor K."),
        Input(
            "flow_error",
            "Flow caught, can be off by",
            PERCENT,
            low=0.0,
            high=100.0,
            default="3",
            hint="A litre jug and half a minute: 3 % (common practice).",
        ),
        my_gauge.INPUT,
    ),
    outputs=(
        Output("flow", "Flow by the rated factor"),
        Output("share", "Of the rated factor"),
        Output("kv", "Kv by what was caught"),
        Output("cv", "Cv by what was caught"),
        Output("choked", "From this drop on, no more flows"),
        Output("loss", "Loss factor K in that bore"),
    ),
    kinds=tuple(valve_answer.KINDS.items()),
    formula=(
        "Q = Kv × √(drop ÷ (ρ ÷ ρ₀)), m³/h and bar, ρ₀ = 999.1 kg/m³; Kv = 0.865 Cv",
        "no more flows from FL² × (p before − FF × vapour pressure) on, FF = 0.96 − 0.28 √(vapour ÷ 22.064 MPa),"
        " absolute pressures",
        "K = 1.6 × 10⁹ × bore⁴ ÷ Kv², bore in metres",
        "u² = (u_drop ÷ 2 drop)² + u_flow², u = a ÷ √3 for each; U = 2 u",
    ),
    validity=(
        "Water from 0 to 95 °C, turbulent in the seat, line about as wide as the valve, at sea level.",
        "Not for a valve with a flow-control washer: that holds its flow over a wide range of pressure.",
        "Kv is cubic metres an hour at 1 bar, not litres a minute.",
    ),
    sources=(
        Source(1, "IEC 60534-2-1 (ISA-75.01.01), liquids", "its published examples, quoted in an open library"),
        Source(2, "IEC 60534-1: Kv, Cv, 0.865", "from memory, recomputed"),
        Source(3, "IAPWS SR1-86 and Kell 1975: vapour pressure and density of water", "from memory, recomputed"),
        Source(4, "JCGM 100 (GUM), 4.3.7, 5.1.2, and JCGM 106, 8: uncertainty and guard band", "from memory"),
        Source(5, "FL and factors of common valves", "common practice, no source"),
    ),
    example=Example({"before": "3 bar", "rated": "0.20", "flow": "4.1"}, 80.0, None, "%",
        "71 ± 4 % is below 80. It lets less through than it should: strainer, scale, or it does not open fully."),
    cautions=(
        "To let it open on the bench, feed it as its label says; at the machine, only those allowed to test live do.",
        "Water and mains meet here: keep connector and hands dry, and the jug below them.",
        "Read the pressure while it runs: at rest it says nothing of what drives the water.",
        "A strainer in front of it counts as part of the valve: look at it first.",
        "Shut it slowly: stopped at once, 2 m/s add close to 30 bar in copper tube for a moment.",
    ),
    version="1",
    work=work,
)
