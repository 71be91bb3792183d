"""How much water does a valve let in while it is open? From the flow and the seconds."""

from __future__ import annotations

from calculators._lib import conformity, filling, uncertainty
from calculators._lib.amounts import Amount, Words
from calculators._lib.declare import (
    MY_CATCH, Calculator, Example, Input, Limits, Output, Quantity, Refusal, Result, Source, Sweep,
)  # fmt: skip
from calculators._lib.units import LITRES_A_MINUTE, MILLILITRE, SECOND
from calculators._lib.words import number

WASHER_SHARE = 0.15
"""How far a flow washer may be off its nominal flow (from memory, no source); taken where nothing better is typed."""
KINDS = {conformity.ABOVE: "overfill", conformity.BELOW: "underfill"}


def work(
    seconds: float,
    flow: float,
    flow_give: float | None,
    dead: float,
    wanted: float | None,
    a_time: float,
    limits: Limits,
) -> Result:
    """Judge the volume of one fill. Raises Refusal where a volume is wanted and nothing flows."""
    u_q, u_t = _u_flow(flow, flow_give), uncertainty.rectangular(a_time)
    value = filling.volume(flow, seconds, dead)
    expanded = uncertainty.K * filling.standard_uncertainty(flow, max(seconds, dead), dead, u_q, u_t)
    verdict, kind = _verdict(value, expanded, limits)
    return Result(
        value,
        expanded,
        verdict,
        kind,
        _tell(flow, u_q, u_t, limits),
        outputs=_outputs(value, expanded, flow, dead, wanted, limits),
        notes=_notes(seconds, flow, flow_give, dead),
        meter=f"watch ± {number(a_time)} s",
    )


def _u_flow(flow: float, give: float | None) -> float:
    if give is None:
        return uncertainty.rectangular(WASHER_SHARE * flow)
    return give / uncertainty.K


def _verdict(value: float, expanded: float, limits: Limits) -> tuple[str | None, str | None]:
    if limits.low is None and limits.high is None:
        return None, None
    verdict = conformity.judge(value, expanded, limits.low or None, limits.high)
    unable = verdict == conformity.CLOSE and conformity.cannot_pass(expanded, limits.low, limits.high)
    return verdict, "cannot tell" if unable else KINDS.get(verdict)


def _tell(flow: float, u_q: float, u_t: float, limits: Limits) -> tuple[float | None, float | None]:
    def near(limit: float | None) -> float | None:
        if not limit or flow <= 0:
            return None
        return uncertainty.K * filling.standard_uncertainty(flow, filling.seconds_for(limit, flow), 0.0, u_q, u_t)

    return near(limits.low), near(limits.high)


def _outputs(
    value: float, expanded: float, flow: float, dead: float, wanted: float | None, limits: Limits
) -> tuple[tuple[str, Words], ...]:
    out: list[tuple[str, Words]] = [("volume", (Amount(value, MILLILITRE, expanded),))]
    if wanted is not None:
        if flow <= 0:
            raise Refusal("wanted", "Volume wanted: nothing flows, so it never fills.")
        out.append(("seconds", (Amount(filling.seconds_for(wanted, flow, dead), SECOND),)))
    ends = [v for v in (limits.low, limits.high) if v]
    if ends and flow > 0:
        times = [Amount(filling.seconds_for(v, flow, dead), SECOND) for v in ends]
        sides = "" if len(ends) == 2 else "no less than " if limits.low else "no more than "
        out.append(("window", (sides, times[0], *(w for t in times[1:] for w in (" to ", t)))))
    return tuple(out)


def _notes(seconds: float, flow: float, give: float | None, dead: float) -> tuple[Words, ...]:
    said: list[Words] = []
    if flow <= 0:
        said.append("Nothing flows: look at the supply before the valve.")
    if seconds <= dead:
        said.append("It was switched on for no longer than it takes to open: nothing is let in.")
    if give is None:
        said.append(f"How well the flow is known was not given: ± {WASHER_SHARE * 100:.0f} % is counted with.")
    return tuple(said)


CALCULATOR = Calculator(
    id="fill",
    title="Fill by time",
    summary="Type how long the water runs in, and its flow. The answer: how much that is, too little or too much.",
    judged=Quantity("Volume of a fill", MILLILITRE, low=0.0, high=1e6),
    typed=("seconds", "flow"),
    table=Sweep("seconds", finest=0.1, top=3600.0),
    inputs=(
        Input(
            "seconds",
            "Time the water runs",
            SECOND,
            low=0.0,
            high=3600.0,
            below="A fill cannot take less than no time.",
            given=False,
            hint="From the hum to its end, or by the maker's sheet.",
        ),
        Input(
            "flow",
            "Flow through the valve",
            LITRES_A_MINUTE,
            low=0.0,
            high=1000.0,
            below="Water does not run backwards through a valve.",
            hint="Of this valve, not of the open line: caught behind it, or from its flow washer.",
        ),
        Input(
            "flow_give",
            "Flow, give or take",
            LITRES_A_MINUTE,
            low=0.0,
            high=1000.0,
            required=False,
            hint="The ± of the catch. Left empty: 15 % of the flow, as a flow washer keeps it.",
        ),
        Input(
            "dead",
            "Time until water comes",
            SECOND,
            low=0.0,
            high=60.0,
            default="0",
            hint="From switching on to the first water in. Counted off.",
        ),
        Input(
            "wanted",
            "Volume wanted",
            MILLILITRE,
            low=0.0,
            high=1e6,
            required=False,
            hint="If you have to set the time: how much should come in.",
        ),
        Input(
            "a_time",
            "Watch and hand, off by",
            SECOND,
            low=0.0,
            high=60.0,
            default="0.3",
            keep=MY_CATCH,
            hint="Starting and stopping together. One pair of hands: 0.3 s (common practice).",
        ),
    ),
    outputs=(
        Output("volume", "Water let in"),
        Output("seconds", "Time for the volume wanted"),
        Output("window", "Time that fills between the limits"),
    ),
    kinds=(
        ("overfill", "That is too much: it runs over, or freezes in one block."),
        ("underfill", "That is too little."),
        ("cannot tell", "This cannot be told by the watch: the ± is wider than half the band. Catch the fill in a cup."),
    ),
    formula=(
        "V = Q × (time − time until water comes) ÷ 0.06 (mL, L/min, s); never less than nothing",
        "time for a volume = time until water comes + 0.06 × V ÷ Q",
        "u² = ((time − time until water comes) × u_Q ÷ 0.06)² + (Q × u_t ÷ 0.06)²",
        "u_Q = half the ± of the flow; 15 % ÷ √3 of it where none is given. u_t = off by ÷ √3",
        "U = 2 u. In limits only if all of V ± U is inside; out only if all of it is outside.",
    ),
    validity=(
        "The flow does not change during the fill.",
        "A valve with a flow washer gives nearly the same flow, ± 15 %, over its range of pressure, often 1.4 to 8 bar:"
        " do not scale its flow by the root of the pressure. Without one, the flow follows the pressure.",
        "Under that range a flow washer lets less by, as a plain hole does.",
    ),
    sources=(
        Source(1, "JCGM 100 (GUM), 4.3.7, 5.1.2: uncertainty", "from memory, recomputed"),
        Source(2, "JCGM 106, 7 and 8, and ILAC-G8:09/2019, 4.2.3: guard band w = U", "from memory, recomputed"),
        Source(3, "A flow washer's ± 15 % and its range of pressure", "from memory, no source"),
        Source(4, "Ice makers: 7 seconds, 5 to 9; 100 to 140 mL", "common practice, no source"),
    ),
    example=Example(
        {"seconds": "7", "flow": "1.0", "flow_give": "0.05"},
        100.0,
        140.0,
        "mL",
        "117 ± 8 mL is between 100 and 140.",
    ),
    cautions=(
        "Listen from outside, with everything closed: it is under power and water while it fills.",
        "The flow of the open line is not the flow of the valve: the valve and its washer let less by.",
        "A valve that seeps adds water after the time is over; no watch shows it.",
        "The maker's sheet says how much a fill is. Where it only gives seconds, trust the cup more than the watch.",
    ),
    version="1",
    work=work,
)
