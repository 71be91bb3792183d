"""What is said of pressure at rest and under flow: loss, filter, other flows, notes, the chart. kPa and L/min."""

from __future__ import annotations

from dataclasses import dataclass

from calculators._lib import conformity, pipe, valve
from calculators._lib.amounts import Amount, Words
from calculators._lib.chart import Chart, Curve
from calculators._lib.declare import Limits, Refusal
from calculators._lib.scale import Axis
from calculators._lib.uncertainty import K, combined, rectangular
from calculators._lib.units import LITRES_A_MINUTE, PRESSURE
from calculators._lib.words import give_or_take

HALF = 0.5
"""Where the page gives no limit, more than this share is called a loss upstream (common practice, no source)."""
KPA = 1e3
POINTS = 16
KINDS = {
    "no pressure": "There is no pressure to speak of: shut further up, or the house has none.",
    "all of it": "Next to nothing is left: what is before the gauge lets hardly any water through.",
    "upstream": "Too much is lost before the gauge: stop valve, filter, kink or thin line between it and the main.",
    "no loss": "No loss that this gauge can show: the way to the gauge is free. If little comes out, look after it.",
}


@dataclass(frozen=True, slots=True)
class Read:
    """What the gauge showed, kPa, and the flow meanwhile, L/min."""

    static: float
    flowing: float
    flow: float | None
    exponent: float
    """The power of the flow with which the loss grows."""
    gauge: float
    """What the gauge can be off by."""

    @property
    def drop(self) -> float:
        """Lost while it ran; a rise that the gauge may have made up is no loss."""
        return max(0.0, self.static - self.flowing)

    @property
    def wide(self) -> float:
        """Expanded uncertainty of what lies between two readings."""
        return K * combined(rectangular(self.gauge), rectangular(self.gauge))


def kind(read: Read, verdict: str | None) -> str | None:
    """A name from KINDS, where there is something to say."""
    if read.static <= read.wide:
        return "no pressure"
    if read.flowing <= rectangular(read.gauge) * K and read.drop > read.wide:
        return "all of it"
    if verdict == conformity.ABOVE or verdict is None and read.drop - read.wide > HALF * read.static:
        return "upstream"
    return "no loss" if read.drop <= read.wide else None


def sentence(read: Read, kind: str | None) -> Words:
    """The answer where there are no limits to judge it by."""
    meaning = f" {KINDS[kind]}" if kind else ""
    if kind == "no pressure":
        return KINDS[kind]
    drop, static = Amount(read.drop, PRESSURE, read.wide), Amount(read.static, PRESSURE)
    return drop, " of ", static, " is lost while it runs.", meaning


def lost(read: Read, after: float | None) -> tuple[tuple[str, Words], ...]:
    """What was lost, the whole of it first."""
    out: list[tuple[str, Words]] = [("drop", (Amount(read.drop, PRESSURE, read.wide),))]
    if read.static > read.wide:
        share, wide = (100 * v / read.static for v in (read.drop, read.wide))
        out.append(("share", f"{give_or_take(share, wide)} %"))
    if after is not None:
        out.append(("filter", (Amount(max(0.0, read.flowing - after), PRESSURE, read.wide),)))
    return tuple(out)


def elsewhere(
    read: Read, after: float | None, other_pressure: float | None, other_flow: float | None
) -> tuple[tuple[str, Words], ...]:
    """What another pressure or another flow gives, where one was typed. Raises Refusal where that cannot be said."""
    out: list[tuple[str, Words]] = []
    if other_pressure is not None:
        out.append(("then", (Amount(_flow_at(read, other_pressure), LITRES_A_MINUTE),)))
    if other_flow is not None:
        out.append(("other", (_drop_at(read, read.drop, other_flow),)))
        if after is not None:
            out.append(("filter_other", (_drop_at(read, max(0.0, read.flowing - after), other_flow),)))
    return tuple(out)


def at_outlet(read: Read, height: float | None) -> tuple[tuple[str, Words], ...]:
    """The pressure at rest that much above the gauge."""
    if height is None:
        return ()
    return (("outlet", (Amount(read.static - pipe.hydrostatic(height) / KPA, PRESSURE),)),)


def _drop_at(read: Read, lost: float, flow: float) -> Amount:
    _needs_flow(read)
    return Amount(valve.drop_at(lost, read.flow, flow, read.exponent), PRESSURE)


def _needs_flow(read: Read) -> None:
    if not read.flow:
        why = "nothing runs, or nothing is typed yet. It is needed for another flow."
        raise Refusal("flow", f"Flow, water running: {why}")


def _flow_at(read: Read, pressure: float) -> float:
    _needs_flow(read)
    if read.drop <= read.wide:
        raise Refusal("flowing", "Pressure, water running: too little is lost to say what runs at another pressure.")
    if pressure > read.static:
        why = "it is more than with the water shut. Nothing would run."
        raise Refusal("other_pressure", f"What runs at a pressure of: {why}")
    return valve.flow_at(read.flow, read.drop, read.static - pressure, read.exponent)


def notes(read: Read, after: float | None) -> tuple[Words, ...]:
    """What to think of beside the answer."""
    said: list[Words] = []
    if after is not None:
        said.append("A filter shows what it takes only while water runs: shut, a blocked one shows nothing.")
    if read.flow is None and read.drop <= read.wide and read.static > read.wide:
        said.append("Let it run as much as it will: at a trickle every line looks free.")
    if not read.gauge:
        said.append("The gauge is counted as without error. No gauge is.")
    return tuple(said)


def _left(read: Read) -> tuple[str | Amount, ...]:
    return Amount(read.flowing, PRESSURE), " is left of ", Amount(read.static, PRESSURE)


def chart(read: Read, limits: Limits) -> Chart | None:
    """The pressure that is left over the flow; None where the flow is not known."""
    if not read.flow or not read.drop:
        return None
    most = read.flow * min(3.0, (read.static / read.drop) ** (1 / read.exponent))
    flows = [most * i / POINTS for i in range(POINTS + 1)]
    left = tuple((q, read.static - read.drop * (q / read.flow) ** read.exponent) for q in flows)
    low, high = (None if v is None else read.static - v for v in (limits.high, limits.low))
    return Chart(
        Axis("Flow", LITRES_A_MINUTE, 0.0, most),
        Axis("Pressure at the gauge", PRESSURE, 0.0, read.static),
        (Curve(left, "what is left at other flows"),),
        (*_left(read), " at ", Amount(read.flow, LITRES_A_MINUTE), "."),
        None if low is None and high is None else (low, high),
        (read.flow, read.flowing, K * rectangular(read.gauge)),
        "what was read",
    )
