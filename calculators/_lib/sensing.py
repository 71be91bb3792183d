"""A thermistor as its maker describes it, held at a known temperature: its curve, its uncertainty, its picture.

Sources: (1) the curves, see `ntc`. (2) JCGM 100, 4.3.7 and 5.1.2: parts known only within ± a count a / sqrt 3.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

from calculators._lib import ntc, uncertainty
from calculators._lib.amounts import Amount
from calculators._lib.chart import Chart, Curve
from calculators._lib.declare import Refusal, Typed
from calculators._lib.ntc import Piece
from calculators._lib.scale import Axis
from calculators._lib.units import CELSIUS, OHM

COLDEST, WARMEST = -80.0, 300.0
"""degC between which a thermistor is believed."""
LEAST, MOST = 1.0, 1e8
"""Ohms that one may have at 25 degC."""
AROUND = 15.0
"""Kelvin drawn to either side."""


@dataclass(frozen=True, slots=True)
class Sensor:
    """A thermistor by its maker: the curve, and by how many percent R25 and B of a good one may differ from it."""

    curve: ntc.Curve
    r25_pct: float
    b_pct: float
    reach: tuple[float, float] = (COLDEST, WARMEST)
    """degC from and to which its curve is known."""

    def band(self, t: float) -> tuple[float, float]:
        """Least and most ohms of a good one at `t`."""
        return ntc.band(t, self.curve, self.r25_pct, self.b_pct)

    def told(self, r: float, u: float) -> tuple[float, float] | None:
        """The temperature that `r` with its standard uncertainty tells, and the expanded one of it; kelvin.

        What its maker allows it to be off counts too (2). None where no thermistor is at home.

        >>> t, give = Sensor(ntc.beta_curve(10000.0, 3977.0), 1.0, 0.75).told(33000.0, 0.0)
        >>> round(t, 3), round(give, 3)
        (0.506, 0.292)
        """
        t = temperature(r, self.curve)
        if t is None:
            return None
        parts = uncertainty.combined(u / r, spread(t, self.curve, self.r25_pct, self.b_pct))
        return t, uncertainty.K * parts / ntc.share_per_kelvin(t, self.curve)


def sensor_of(
    r25: float | None,
    b: float | None,
    coefficients: tuple[float | None, float | None, float | None],
    table_t: Sequence[Typed] | None,
    table_r: Sequence[Typed] | None,
    tolerance: tuple[float, float],
) -> Sensor | None:
    """The sensor by the one description that is given; None if there is none. Raises Refusal."""
    ways = [any(v is not None for v in way) for way in ((r25, b), coefficients, (table_t, table_r))]
    if sum(ways) > 1:
        raise Refusal("b", "B of the sensor: it is told in two ways. Keep R25 and B, or a b c, or the table.")
    if ways[0]:
        return Sensor(_beta(r25, b), *tolerance)
    if ways[1]:
        return Sensor((_steinhart_hart(coefficients),), *tolerance)
    if ways[2]:
        reach = [t.value for t in table_t or ()]
        return Sensor(_table(table_t or (), table_r or ()), *tolerance, (min(reach), max(reach)))
    return None


def _beta(r25: float | None, b: float | None) -> ntc.Curve:
    for name, value in (("r25", r25), ("b", b)):
        if value is None:
            label = "Resistance at 25 °C" if name == "r25" else "B of the sensor"
            raise Refusal(name, f"{label}: nothing is typed yet. R25 and B belong together.")
    return ntc.beta_curve(r25, b)


def _steinhart_hart(coefficients: tuple[float | None, float | None, float | None]) -> Piece:
    for name, value in zip(("sh_a", "sh_b", "sh_c"), coefficients, strict=True):
        if value is None:
            raise Refusal(name, f"Coefficient {name[-1]}: nothing is typed yet. a, b and c belong together.")
    piece = Piece(*coefficients)
    if not ntc.falls(piece, 1e-2, 1e10) or not LEAST <= _at_25(piece) <= MOST:
        raise Refusal("sh_b", "Coefficient b: no thermistor has these three. Look at the powers of ten.")
    return piece


def _at_25(piece: Piece) -> float:
    try:
        return ntc.ohm(ntc.NAMED_AT, (piece,))
    except OverflowError:
        return MOST * 10


def _table(table_t: Sequence[Typed], table_r: Sequence[Typed]) -> ntc.Curve:
    if len(table_t) != len(table_r) or len(table_t) < 2:
        raise Refusal("table_r", "Table, ohms: two or more, and as many as temperatures. Part them with ;")
    try:
        return ntc.table_curve([(t.value, r.value) for t, r in zip(table_t, table_r, strict=True)])
    except ValueError:
        rising = "the ohms do not fall as the temperature rises"
        which = "A PTC or a platinum sensor rises, and is not judged here."
        raise Refusal("table_r", f"Table, ohms: {rising}. {which}") from None


def spread(t: float, curve: ntc.Curve, r25_pct: float, b_pct: float) -> float:
    """Standard uncertainty of a good sensor's ohms at `t`, as a share of them: R25 and B apart (2).

    >>> round(spread(0.0, ntc.beta_curve(10000.0, 3977.0), 1.0, 0.75), 5)
    0.00783
    """
    steepness = abs(log(ntc.ohm(t, curve) / ntc.ohm(ntc.NAMED_AT, curve)))
    parts = (uncertainty.rectangular(pct / 100 * size) for pct, size in ((r25_pct, 1.0), (b_pct, steepness)))
    return uncertainty.combined(*parts)


def temperature(r: float, curve: ntc.Curve) -> float | None:
    """What it tells, degC; None where no thermistor is at home.

    >>> temperature(1e-9, ntc.beta_curve(10000.0, 3977.0)) is None
    True
    """
    try:
        t = ntc.celsius(r, curve)
    except ValueError:
        return None
    return t if COLDEST <= t <= WARMEST else None


def platinum(r: float, t: float, error: float) -> float | None:
    """The R0 of a platinum sensor that has `r` ohm at `t` ± error, if there is such a usual one.

    >>> platinum(1001.0, 0.0, 0.5), platinum(33000.0, 0.0, 0.5)
    (1000.0, None)
    """
    near = 0.01 + 0.004 * error
    return next((r0 for r0 in (100.0, 1000.0) if abs(r / ntc.platinum_ohm(t, r0) - 1) <= near), None)


def picture(t: float, sensor: Sensor, point: tuple[float, float, float]) -> Chart:
    """Ohms against temperature round `t`: what a good one has, what its tolerances allow, and what was read."""
    low, high = max(t - AROUND, COLDEST), min(t + AROUND, WARMEST)
    over = [low + (high - low) * i / 30 for i in range(31)]
    sides = zip(*map(sensor.band, over), strict=True)
    expected = tuple((x, ntc.ohm(x, sensor.curve)) for x in over)
    (_, cold), (_, warm) = expected[0], expected[-1]
    at, r, u = point
    start = (Amount(cold, OHM), " at ", Amount(low, CELSIUS))
    end = (Amount(warm, OHM), " at ", Amount(high, CELSIUS))
    return Chart(
        Axis("Temperature", CELSIUS, low, high),
        Axis("Resistance", OHM, warm, cold),
        (
            Curve(expected, "a good sensor, with what its tolerances allow"),
            *(Curve(tuple(zip(over, side, strict=True)), kind="edge") for side in sides),
        ),
        say=("A good sensor falls from ", *start, " to ", *end, ". Read: ", Amount(r, OHM, u), " at ", Amount(at, CELSIUS), "."),
        point=point,
        point_words=("read: ", Amount(r, OHM, u), " at ", Amount(at, CELSIUS)),
    )
