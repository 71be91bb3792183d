"""What should come out of a supply line, and does it? From pressure, tube, length, bends, height, temperature."""

from __future__ import annotations

from calculators._lib import conformity, my_gauge, pipe, supply_answer, tubing, water
from calculators._lib.declare import (
    Calculator, Example, Grid, Input, Limits, Output, Quantity, Refusal, Result, Series, Source,
)  # fmt: skip
from calculators._lib.pipe import Line
from calculators._lib.supply_answer import KPA, LPM, MM, Found
from calculators._lib.supply_line import Known
from calculators._lib.units import BORE, CELSIUS, LENGTH, LITRES_A_MINUTE, PERCENT, PRESSURE
from calculators._lib.words import number

ROUGHEST = 0.05
"""Beyond this roughness as a share of the bore, friction is not known."""


def work(
    static: float,
    tube: float,
    bore: float | None,
    roughness: float | None,
    length: float,
    fittings: float,
    height: float | None,
    temperature: float,
    measured: float | None,
    measured_error: float,
    gauge: float | None,
    bore_error: float,
    limits: Limits,
) -> Result:
    """Hold the flow that was caught against what the line should give. Raises Refusal."""
    d, k = _tube(tube, bore, roughness)
    off = my_gauge.off_by(gauge)
    line = Line(d * MM, length, k * MM, fittings, height or 0.0, water.at(temperature))
    known = Known(off * KPA, bore_error / 100, measured_error / 100)
    caught = None if measured is None else measured * LPM
    found = Found(line, static * KPA, known, pipe.speeds(line, static * KPA), caught)
    share, wide = supply_answer.share(found)
    kind, verdict = supply_answer.kind(found, share, wide), _verdict(share, wide, limits)
    if measured is None and verdict:
        raise Refusal("measured", "Flow caught: nothing is typed yet. It is what is judged here.")
    return Result(
        share,
        wide or None,
        verdict,
        kind,
        _tell(found, limits),
        "" if verdict and share is not None else supply_answer.sentence(found, share, wide, kind),
        supply_answer.outputs(found, share, wide, kind),
        supply_answer.notes(found, kind),
        my_gauge.words(off),
        supply_answer.chart(found),
    )


def _tell(found: Found, limits: Limits) -> tuple[float | None, float | None]:
    low, high = (limit and limit * found.wide for limit in (limits.low, limits.high))
    return low, high


def _tube(tube: float, bore: float | None, roughness: float | None) -> tuple[float, float]:
    """Bore and roughness in millimetres: those typed by hand go before."""
    known = None if tube == tubing.OTHER else tubing.TUBES[int(tube)]
    d, k = bore or (known and known.bore), roughness if roughness is not None else known and known.roughness
    if d is None:
        raise Refusal("bore", "Bore: nothing is typed yet. Measure it, or pick the tube.")
    if k is None:
        raise Refusal("roughness", "Roughness: nothing is typed yet. Plastic and copper: 0.0015 mm; rubber: 0.01 mm.")
    if k > ROUGHEST * d:
        raise Refusal("roughness", f"Roughness: no more than a twentieth of the bore, here {number(ROUGHEST * d)} mm.")
    return d, k


def _verdict(share: float | None, wide: float | None, limits: Limits) -> str | None:
    if limits.low is None and limits.high is None:
        return None
    return conformity.CLOSE if share is None else conformity.judge(share, wide, limits.low or None, limits.high)


CALCULATOR = Calculator(
    id="supply",
    title="Supply line",
    summary="What should come out of the open end of a line, and does it? The answer: how much is lost, and to what.",
    judged=Quantity("Share of the expected flow", PERCENT, low=0.0, high=1000.0),
    typed=("static", "length", "measured"),
    table=Grid(
        "expected",
        Series("static", ("1 bar", "2 bar", "3 bar", "4 bar", "5 bar", "6 bar")),
        Series("length", ("1 m", "3 m", "5 m", "10 m", "15 m")),
    ),
    inputs=(
        Input(
            "static",
            "Pressure, water shut",
            PRESSURE,
            low=0.0,
            high=2500.0,
            below="A gauge shows no less than nothing: zero it and read again.",
            hint="Where the line begins, nothing running. A house has 2 to 6 bar, 30 to 90 psi.",
        ),
        Input("tube", "Tube", options=tubing.OPTIONS, hint="Sets bore and roughness. Another: type both."),
        Input(
            "bore",
            "Bore, by hand",
            BORE,
            low=0.5,
            high=100.0,
            required=False,
            hint="Goes before the tube's. The inside, not what the tube is sold as: measure it if you can.",
        ),
        Input(
            "roughness",
            "Roughness, by hand",
            BORE,
            low=0.0,
            high=5.0,
            required=False,
            hint="Goes before the tube's. Plastic, copper 0.0015 mm; rubber 0.01 mm; rusted steel 0.3 mm.",
        ),
        Input(
            "length",
            "Length of the line",
            LENGTH,
            low=0.0,
            high=1000.0,
            hint="Along the tube, from the gauge to the open end, the coil behind the machine too.",
        ),
        Input(
            "fittings",
            "Bends and valves, K together",
            low=0.0,
            high=10_000.0,
            default="2",
            hint=f"Add up: {', '.join(f'{name} {number(k)}' for name, k in tubing.FITTINGS.items())}.",
        ),
        Input(
            "height",
            "Open end above the gauge",
            LENGTH,
            low=-100.0,
            high=100.0,
            required=False,
            hint="Left empty: as high. Below it: with a minus.",
        ),
        Input(
            "temperature",
            "Temperature of the water",
            CELSIUS,
            low=0.0,
            high=95.0,
            below="That is ice.",
            default="12",
            hint="Matters in thin tube: warm water runs easier.",
        ),
        Input(
            "measured",
            "Flow caught",
            LITRES_A_MINUTE,
            low=0.0,
            high=1e4,
            required=False,
            given=False,
            hint="At the open end, stop valve fully open. Left empty: only what to expect is said.",
        ),
        Input(
            "measured_error",
            "Flow caught, can be off by",
            PERCENT,
            low=0.0,
            high=100.0,
            default="3",
            hint="A litre jug and half a minute: 3 % (common practice).",
        ),
        my_gauge.INPUT,
        Input(
            "bore_error",
            "Bore, can be off by",
            PERCENT,
            low=0.0,
            high=20.0,
            default="2",
            hint="New tube: 2 % (common practice). It counts two and a half times in the flow.",
        ),
    ),
    outputs=(
        Output("expected", "Expected at the open end"),
        Output("regime", "Kind of flow"),
        Output("share", "Caught, of what is expected"),
        Output("lost", "Flow lost"),
        Output("taken", "Pressure that a restriction takes"),
        Output("factor", "The restriction's K, in this bore"),
        Output("bore", "Bore counted with"),
    ),
    kinds=tuple(supply_answer.KINDS.items()),
    formula=(
        "p = ρ g × height + (f × length ÷ bore + K + 1) × ρ v² ÷ 2; the 1 is the head of the jet, counted once",
        "flow = v × π bore² ÷ 4",
        "f = 64 ÷ Re up to Re 2000; Colebrook and White from 4000; between: a line, shown with all that lies between"
        " both laws",
        "pressure that a restriction takes = p − what the line alone takes at the flow that was caught",
        "U = 2 u, from gauge, bore, caught flow, friction ± 5 %, K ± 25 %; what the transition leaves open is added",
    ),
    validity=(
        "Water from 0 to 95 °C without air in it, one bore from gauge to open end, steady flow, Re below 10⁸.",
        "The pressure where the line begins does not fall while it runs.",
        "No flow-control washer and no filter in the line: their flow does not follow the root of the pressure.",
        "Roughness up to a twentieth of the bore.",
    ),
    sources=(
        Source(1, "Darcy and Weisbach, Hagen and Poiseuille: textbooks of fluid mechanics", "from memory"),
        Source(2, "Colebrook 1939: turbulent friction", "from memory, recomputed with an open library"),
        Source(3, "IAPWS SR6-08 and Kell 1975: viscosity and density of water", "from memory, recomputed"),
        Source(4, "Bores of tubing, what gauge and jug can be off by", "common practice, no source"),
        Source(5, "Loss factors of fittings and their spread: handbooks", "from memory"),
        Source(6, "JCGM 100 (GUM), 4.3.7, 5.1.2, and JCGM 106, 8: uncertainty and guard band", "from memory"),
    ),
    example=Example(
        {"static": "4.1 bar", "tube": tubing.TUBES[0].words, "length": "5", "measured": "2.6"},
        75.0,
        None,
        "%",
        "61 ± 5 % is below 75. The line gives less than it should: something in it takes pressure.",
    ),
    cautions=(
        "Water makes floors slip and mains and water do not mix: power proved off before the line is opened.",
        "Shut the stop valve before the joint is opened; hold the end down in a bucket before it is opened again.",
        "Shut it slowly after: water stopped at once hammers. Each 1 m/s stopped adds up to 14 bar in copper tube,"
        " about 4 bar in a soft hose.",
        "Static pressure is not pressure under flow: a stop valve hardly open shows the full static pressure.",
        "Measure the bore: 0.18 in place of 0.17 in gives a sixth more water.",
        "A filter or a flow-control washer in the line changes the picture: measure with it out, or count it in K.",
    ),
    version="1",
    work=work,
)
