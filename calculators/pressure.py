"""How much pressure is lost while water runs, and on which side of the gauge? A filter's share, another flow."""

from __future__ import annotations

from calculators._lib import conformity, my_gauge, pressure_answer
from calculators._lib.declare import (
    Calculator, Example, Grid, Input, Limits, Option, Output, Quantity, Refusal, Result, Series, Source,
)  # fmt: skip
from calculators._lib.pressure_answer import Read
from calculators._lib.units import LENGTH, LITRES_A_MINUTE, PRESSURE

NEAR = 1e-9


def work(
    static: float,
    flowing: float,
    flow: float | None,
    after: float | None,
    exponent: float,
    other_pressure: float | None,
    other_flow: float | None,
    height: float | None,
    gauge: float | None,
    limits: Limits,
) -> Result:
    """Judge what is lost while water runs. Raises Refusal where the readings contradict each other."""
    off = my_gauge.off_by(gauge)
    read = Read(static, flowing, flow, exponent, off)
    _believable(read, after)
    verdict = _verdict(read, limits)
    kind = pressure_answer.kind(read, verdict)
    return Result(
        read.drop,
        read.wide,
        verdict,
        kind,
        (read.wide, read.wide),
        "" if verdict else pressure_answer.sentence(read, kind),
        pressure_answer.lost(read, after)
        + pressure_answer.elsewhere(read, after, other_pressure, other_flow)
        + pressure_answer.at_outlet(read, height),
        pressure_answer.notes(read, after),
        my_gauge.words(off),
        pressure_answer.chart(read, limits),
    )


def _believable(read: Read, after: float | None) -> None:
    """A gauge that errs may show a small rise; a larger one means that something else changed."""
    if read.flowing - read.static > max(read.wide, NEAR):
        why = "it is more than with the water shut. Swapped, or somebody else drew water: read both again."
        raise Refusal("flowing", f"Pressure, water running: {why}")
    if after is not None and after - read.flowing > max(read.wide, NEAR):
        raise Refusal("after", "Pressure after the filter: it is more than before it. Swapped? Read both again.")


def _verdict(read: Read, limits: Limits) -> str | None:
    if limits.low is None and limits.high is None:
        return None
    if read.static <= read.wide:
        return conformity.CLOSE
    return conformity.judge(read.drop, read.wide, limits.low or None, limits.high)


CALCULATOR = Calculator(
    id="pressure",
    title="Pressure under flow",
    summary="Read the gauge with the water shut, then running. The answer: how much is lost, and on which side of it.",
    judged=Quantity("Pressure lost under flow", PRESSURE, low=0.0, high=2500.0),
    typed=("static", "flowing", "flow"),
    table=Grid(
        "share",
        Series("static", ("2 bar", "3 bar", "4 bar", "5 bar", "6 bar")),
        Series("flowing", ("0.5 bar", "1 bar", "1.5 bar", "2 bar", "3 bar", "4 bar")),
    ),
    inputs=(
        Input(
            "static",
            "Pressure, water shut",
            PRESSURE,
            low=0.0,
            high=2500.0,
            below="A gauge shows no less than nothing: zero it and read again.",
            given=False,
            hint="Nothing running, anywhere in the house. Usual: 2 to 6 bar, 30 to 90 psi.",
        ),
        Input(
            "flowing",
            "Pressure, water running",
            PRESSURE,
            low=0.0,
            high=2500.0,
            below="A gauge shows no less than nothing: zero it and read again.",
            given=False,
            hint="The same gauge at the same place, while as much runs as will.",
        ),
        Input(
            "flow",
            "Flow, water running",
            LITRES_A_MINUTE,
            low=0.0,
            high=1e4,
            required=False,
            given=False,
            hint="Caught meanwhile. Only needed to say what another flow or pressure gives.",
        ),
        Input(
            "after",
            "Pressure after the filter, running",
            PRESSURE,
            low=0.0,
            high=2500.0,
            required=False,
            given=False,
            hint="With a gauge on both sides: the first one counts as water running.",
        ),
        Input(
            "exponent",
            "The loss grows",
            options=(Option("with the square of the flow", 2.0), Option("straight with the flow", 1.0)),
            default="with the square of the flow",
            hint="Square: pipes, valves, housings. Straight: through the fleece or carbon of a filter.",
        ),
        Input(
            "other_pressure",
            "What runs at a pressure of",
            PRESSURE,
            low=0.0,
            high=2500.0,
            required=False,
            hint="At the gauge, water running.",
        ),
        Input(
            "other_flow",
            "What is lost at a flow of",
            LITRES_A_MINUTE,
            low=0.0,
            high=1e4,
            required=False,
            hint="What the machine draws.",
        ),
        Input(
            "height",
            "An outlet above the gauge by",
            LENGTH,
            low=-100.0,
            high=1000.0,
            required=False,
            hint="For the pressure there, water shut.",
        ),
        my_gauge.INPUT,
    ),
    outputs=(
        Output("drop", "Lost while it runs"),
        Output("share", "Share of the pressure at rest"),
        Output("filter", "Lost in the filter"),
        Output("then", "Flow at the other pressure"),
        Output("other", "Lost at the other flow"),
        Output("filter_other", "Lost in the filter at the other flow"),
        Output("outlet", "Pressure at the outlet, water shut"),
    ),
    kinds=tuple(pressure_answer.KINDS.items()),
    formula=(
        "lost = pressure with the water shut − pressure with it running; in the filter: before − after",
        "at another flow: lost × (other flow ÷ flow)ⁿ; at another pressure: flow × (pressure that drives ÷ lost)^(1/n)",
        "n = 2 in pipes and valves, 1 through fleece and carbon",
        "outlet: pressure − ρ g × height, water at 15 °C: 0.098 bar a metre, 0.433 psi a foot",
        "u = a ÷ √3 for each reading, U = 2 √(u² + u²): what one gauge errs alike in both is counted twice",
    ),
    validity=(
        "The same gauge at the same place and height, the house's own pressure steady meanwhile.",
        "Other flows: turbulent flow, all the loss in what stays as it is; not with a flow-control washer, which holds"
        " the flow, and not far beyond what was measured.",
        "More than half lost is called too much before the gauge where the page gives no limit: common practice,"
        " no source.",
    ),
    sources=(
        Source(1, "Textbooks of fluid mechanics: turbulent loss and square of the flow, Darcy's law", "from memory"),
        Source(2, "A published conversion chart: 1 foot of water is 0.433 psi", "a published copy, recomputed"),
        Source(3, "JCGM 100 (GUM), 4.3.7, 5.1.2, and JCGM 106, 8: uncertainty and guard band", "from memory"),
        Source(4, "What gauges can be off by, half as too much", "common practice, no source"),
    ),
    example=Example(
        {"static": "4.2 bar", "flowing": "1.6 bar", "flow": "3.0"},
        None,
        1.5,
        "bar",
        "2.6 ± 0.3 bar is above 1.5. Too much is lost before the gauge: stop valve, filter, kink or thin line between"
        " it and the main.",
    ),
    cautions=(
        "Static pressure says next to nothing: a needle valve a quarter open shows all of it. Let the water run.",
        "Screw the gauge on with the water shut and the line drained; open slowly; keep out of the jet.",
        "Full pressure at rest and a deep fall: the loss is before the gauge. Hardly a fall, little water: after it.",
        "A filter housing is under pressure when shut off: let it off by its button or the tap before it is opened.",
        "Read at rest with all taps and machines of the house off, and again if it creeps.",
    ),
    version="1",
    work=work,
)
