"""What is said of a supply line: expected and caught flow, what a restriction takes, notes, the chart. SI inside."""

from __future__ import annotations

from dataclasses import dataclass

from calculators._lib import pipe, supply_line
from calculators._lib.amounts import Amount, Words
from calculators._lib.chart import Chart, Curve
from calculators._lib.pipe import Line, Speeds
from calculators._lib.scale import Axis
from calculators._lib.supply_line import Known
from calculators._lib.uncertainty import K, combined, rectangular
from calculators._lib.units import BORE, LITRES_A_MINUTE, PRESSURE
from calculators._lib.words import give_or_take, number

KPA, MM, LPM = 1e3, 1e-3, 1 / 6e4
"""The base units of the fields, in SI."""
COARSE = 0.25
"""An answer that is wider than this share of the flow says nothing of a restriction."""
WIDE = 30.0
"""From this flow on, L/min, the house may not keep up (common practice, no source)."""
KINDS = {
    "no flow": "No flow is to be expected: the pressure does not lift the water to the open end.",
    "nothing came": "Nothing came: shut, frozen or blocked.",
    "lost": "The line gives less than it should: something in it takes pressure.",
    "more": "More than such a line can give: look at pressure, bore and length again.",
    "as expected": "About what such a line gives: a restriction, if any, is too small to show.",
    "cannot tell": "The model cannot tell: what such a line gives is not known well enough here.",
}

REGIMES = {
    pipe.LAMINAR: "smooth (laminar)",
    pipe.TRANSITION: "between smooth and turbulent",
    pipe.TURBULENT: "turbulent",
}


@dataclass(frozen=True, slots=True)
class Found:
    """The line, what it should give and what was caught; SI."""

    line: Line
    pressure: float
    known: Known
    expected: Speeds
    measured: float | None

    @property
    def u(self) -> float:
        """Standard uncertainty of the expected flow, as a share."""
        return supply_line.expected_u(self.line, self.expected.value, self.known)

    @property
    def flow(self) -> float:
        """Expected, m3/s."""
        return self.expected.value * self.line.area

    @property
    def wide(self) -> float:
        """Expanded uncertainty of measured over expected, as a share of it: what the transition leaves open, too."""
        u = combined(self.u, rectangular(self.known.flow))
        return combined(K * u, supply_line.open_share(self.expected))

    @property
    def between(self) -> bool:
        """Whether the flow is between smooth and turbulent."""
        return self.expected.high > self.expected.low


def share(found: Found) -> tuple[float | None, float | None]:
    """Measured over expected in percent, with its expanded uncertainty."""
    if found.measured is None or found.flow <= 0:
        return None, None
    ratio = 100 * found.measured / found.flow
    return ratio, ratio * found.wide


def kind(found: Found, share: float | None, wide: float | None) -> str | None:
    """A name from KINDS, where there is something to say."""
    if found.flow <= 0:
        return "more" if found.measured else "no flow"
    if share is None:
        return "cannot tell" if found.between else None
    if share == 0:
        return "nothing came"
    if share + wide < 100:
        return "lost"
    if share - wide > 100:
        return "more"
    return "cannot tell" if found.between or found.wide > COARSE else "as expected"


def sentence(found: Found, share: float | None, wide: float | None, kind: str | None) -> Words:
    """The answer where there are no limits to judge it by."""
    meaning = f" {KINDS[kind]}" if kind else ""
    if found.flow <= 0:
        return meaning.strip()
    if not share:
        return "Expected at the open end: ", *_expected(found), ".", meaning
    caught = Amount(found.measured / LPM, LITRES_A_MINUTE)
    of = "" if kind == "cannot tell" else f": {give_or_take(share, wide)} %"
    return caught, " came, ", *_expected(found), f" expected{of}.", meaning


def _expected(found: Found) -> tuple[str | Amount, ...]:
    wide = K * found.u
    edges = (found.expected.low * (1 - wide), found.expected.high * (1 + wide))
    low, high = (Amount(v * found.line.area / LPM, LITRES_A_MINUTE, digits=2) for v in edges)
    if wide >= 1:
        return "up to ", high
    flow = found.flow / LPM
    return (low, " to ", high) if found.between else (Amount(flow, LITRES_A_MINUTE, wide * flow),)


def outputs(
    found: Found, share: float | None, wide: float | None, kind: str | None
) -> tuple[tuple[str, Words], ...]:
    """All values, the one that says most first."""
    out: list[tuple[str, Words]] = [("expected", _expected(found))]
    if share is not None:
        out = [("share", f"{give_or_take(share, wide)} %"), *out] if kind != "cannot tell" else out
        out += _lost(found, kind)
    if found.flow > 0:
        reynolds = found.line.reynolds(found.expected.value)
        kind_of_flow = REGIMES[pipe.regime(reynolds)]
        out.append(("regime", f"{kind_of_flow}, Reynolds number {number(float(f'{reynolds:.2g}'))}"))
    return (*out, ("bore", (Amount(found.line.bore / MM, BORE, digits=4),)))


def _lost(found: Found, kind: str | None) -> list[tuple[str, Words]]:
    """What a restriction takes. Through one that is shut nothing flows: it has no factor then."""
    if kind == "more":
        return []
    lost = ("lost", (Amount((found.flow - found.measured) / LPM, LITRES_A_MINUTE, digits=2),))
    loss = supply_line.loss(found.line, found.pressure, found.measured, found.known)
    if loss is None:
        driving, off = found.pressure - found.line.lift, K * rectangular(found.known.pressure)
        return [lost, ("taken", (Amount(driving / KPA, PRESSURE, off / KPA),))]
    if kind != "lost":
        return [("taken", ("no more than ", Amount((loss.pressure + K * loss.u) / KPA, PRESSURE, digits=2)))]
    factor = number(float(f"{loss.factor:.2g}"))
    return [lost, ("taken", (Amount(loss.pressure / KPA, PRESSURE, K * loss.u / KPA),)), ("factor", factor)]


def notes(found: Found, kind: str | None) -> tuple[Words, ...]:
    """What to think of beside the answer."""
    said: list[Words] = []
    if found.between:
        said.append("The flow is between smooth and turbulent: it may change by itself from one to the other.")
    if kind == "lost":
        said.append("That is flow lost, not bore blocked: to lose half, far more than half of the bore must be closed.")
        said.append("Read the gauge while it runs: if it falls, the pressure is lost before the gauge.")
    if 0 < found.line.lift - found.pressure < found.known.pressure:
        said.append("A little may come all the same: the gauge can be off by more than is missing.")
    if kind == "more":
        said.append("The bore counts most: 4 % more of it gives a tenth more water.")
    if found.flow / LPM >= WIDE:
        said.append("So wide a line can draw more than the house gives: the pressure at its beginning will fall.")
    return tuple(said)


def chart(found: Found) -> Chart:
    """Flow against pressure, with what came."""
    top = 1.25 * max(found.pressure, found.line.lift, 10 * KPA)
    value, low, high = (
        tuple((p / KPA, q / LPM) for p, q in curve) for curve in supply_line.curves(found.line, top, found.known)
    )
    said = ("Flow against pressure. Expected at ", Amount(found.pressure / KPA, PRESSURE), ": ", *_expected(found))
    point = None
    if found.measured is not None:
        q = found.measured / LPM
        point = found.pressure / KPA, q, q * combined(K * rectangular(found.known.flow), _gauge_share(found))
        said = (*said, "; came: ", Amount(q, LITRES_A_MINUTE))
    return Chart(
        Axis("Pressure with the water shut", PRESSURE, 0.0, top / KPA),
        Axis("Flow", LITRES_A_MINUTE, 0.0, max(high[-1][1], 1e-3)),
        (Curve(value, "expected"), Curve(low, "what the model leaves open", "edge"), Curve(high, "", "edge")),
        (*said, "."),
        point=point,
        point_words="what came",
    )


def _gauge_share(found: Found) -> float:
    """What the gauge can be off by, as a share of the flow: half of its share of the pressure, at the most."""
    driving = found.pressure - found.line.lift
    return min(1.0, K * rectangular(found.known.pressure) / (2 * driving)) if driving > 0 else 0.0
