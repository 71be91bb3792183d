"""Sensors whose resistance tells a temperature: thermistors that fall (NTC), platinum that rises.

Ohms, degrees Celsius, kelvin for differences; inside, the thermodynamic temperature and the natural
logarithm, because the formulas are written with them.

Sources: (1) IEC 60539-1, definition of B and of the dissipation factor, from memory. (2) Steinhart and Hart,
Deep-Sea Research 15 (1968) 497: 1/T = a + b ln R + c (ln R)^3, from memory. (3) IEC 60751, platinum: from memory,
its table value at 100 degC recomputed. (4) Freezing point of a dilute solution, 1.86 K kg/mol, from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, inf, log

from calculators._lib.water import KELVIN

NAMED_AT = 25.0
"""degC at which a thermistor is named: its R25, and one of the two temperatures of its B (1)."""
KF_WATER = 1.86
PT_A, PT_B, PT_C = 3.9083e-3, -5.775e-7, -4.183e-12


@dataclass(frozen=True, slots=True)
class Piece:
    """1/T = a + b ln R + c (ln R)^3 up to the temperature `high` (2); a single B is the case c = 0."""

    a: float
    b: float
    c: float = 0.0
    high: float = inf


Curve = tuple[Piece, ...]
"""The pieces from cold to warm; beyond its ends, the first and the last piece are drawn on."""


def beta_curve(r25: float, b: float) -> Curve:
    """R = r25 exp(B (1/T - 1/298.15)) as a curve (1). Raises ValueError where it would not fall.

    >>> round(ohm(0.0, beta_curve(10000.0, 3977.0)))
    33900
    """
    if r25 <= 0 or b <= 0:
        raise ValueError("R25 and B above zero are needed")
    return (Piece(1 / _kelvin(NAMED_AT) - log(r25) / b, 1 / b),)


def b_between(t1: float, r1: float, t2: float, r2: float) -> float:
    """B from two points: ln(r1/r2) / (1/T1 - 1/T2), kelvin (1). Raises ValueError where it is none.

    >>> round(b_between(25.0, 10000.0, 50.0, 3602.0))
    3935
    """
    if t1 == t2:
        raise ValueError("two different temperatures are needed")
    return log(r1 / r2) / (1 / _kelvin(t1) - 1 / _kelvin(t2))


def table_curve(points: Sequence[tuple[float, float]]) -> Curve:
    """A maker's table, (degC, ohm): between two neighbours a B of their own (1).

    Raises ValueError where the resistance does not fall with every step up in temperature.

    >>> round(ohm(12.5, table_curve([(0, 32650), (25, 10000), (50, 3602)])))
    17608
    """
    rising = sorted(points)
    pieces = [_between(*one, *other) for one, other in zip(rising, rising[1:], strict=False)]
    if not pieces or any(p.b <= 0 for p in pieces):
        raise ValueError("ohms that fall as the temperature rises are needed")
    return (*pieces[:-1], Piece(pieces[-1].a, pieces[-1].b))


def _between(t1: float, r1: float, t2: float, r2: float) -> Piece:
    b = b_between(t1, r1, t2, r2)
    if not b:
        raise ValueError("two different resistances are needed")
    return Piece(1 / _kelvin(t1) - log(r1) / b, 1 / b, high=t2)


def fit(points: Sequence[tuple[float, float]]) -> Piece:
    """The Steinhart-Hart curve through three points, (degC, ohm) (2).

    >>> round(fit([(-20, 97072), (25, 10000), (60, 2488)]).b, 7)
    0.0002345
    """
    (l1, y1), (l2, y2), (l3, y3) = ((log(r), 1 / _kelvin(t)) for t, r in points)
    near, far = (y2 - y1) / (l2 - l1), (y3 - y1) / (l3 - l1)
    c = (far - near) / (l3 - l2) / (l1 + l2 + l3)
    b = near - c * (l1 * l1 + l1 * l2 + l2 * l2)
    return Piece(y1 - (b + l1 * l1 * c) * l1, b, c)


def falls(piece: Piece, low: float, high: float) -> bool:
    """Whether the temperature falls as the ohms rise, all the way from `low` to `high` ohm.

    >>> falls(Piece(1.129e-3, 2.341e-4, 8.767e-8), 1.0, 1e7), falls(Piece(1e-3, 2e-4, -1e-6), 1.0, 1e7)
    (True, False)
    """
    return all(piece.b + 3 * piece.c * log(r) ** 2 > 0 for r in (low, high))


def celsius(r: float, curve: Curve) -> float:
    """The temperature at which it has `r` ohm (2). Raises ValueError where there is none.

    >>> round(celsius(9000.0, beta_curve(10000.0, 3435.0)), 3)
    27.752
    """
    piece = next((p for p in curve if p.high < inf and r >= ohm(p.high, (p,))), curve[-1])
    inverse = piece.a + piece.b * log(r) + piece.c * log(r) ** 3
    if inverse <= 0:
        raise ValueError("no temperature has that resistance")
    return 1 / inverse - KELVIN


def ohm(t: float, curve: Curve) -> float:
    """The resistance at `t`: the cubic in ln R solved by Newton's method (2). Raises OverflowError far outside.

    >>> round(ohm(0.0, (Piece(1.129148e-3, 2.34125e-4, 8.76741e-8),)), 1)
    32650.4
    """
    piece = next(p for p in curve if t <= p.high)
    inverse = 1 / _kelvin(t)
    x = (inverse - piece.a) / piece.b
    for _ in range(60 if piece.c else 0):
        step = (piece.a + piece.b * x + piece.c * x**3 - inverse) / (piece.b + 3 * piece.c * x * x)
        x -= step
        if abs(step) <= 1e-13 * abs(x):
            break
    return exp(x)


def share_per_kelvin(t: float, curve: Curve) -> float:
    """By what share of itself the resistance falls for each kelvin at `t`: -1/R dR/dT.

    >>> round(100 * share_per_kelvin(0.0, beta_curve(10000.0, 3977.0)), 2)
    5.33
    """
    piece = next(p for p in curve if t <= p.high)
    x = log(ohm(t, curve))
    return 1 / (_kelvin(t) ** 2 * (piece.b + 3 * piece.c * x * x))


def band(t: float, curve: Curve, r25_pct: float, b_pct: float) -> tuple[float, float]:
    """Least and most a good one may have at `t`: R25 and B at their worst together (1).

    >>> tuple(map(round, band(0.0, beta_curve(10000.0, 3977.0), 1.0, 0.75)))
    (33256, 34554)
    """
    r25 = ohm(NAMED_AT, curve)
    ratio = ohm(t, curve) / r25
    flat, steep = sorted(ratio ** (1 + sign * b_pct / 100) for sign in (-1, 1))
    return r25 * (1 - r25_pct / 100) * flat, r25 * (1 + r25_pct / 100) * steep


def salt_bath(molality: float, ions: float) -> float:
    """Freezing point of water with that much salt in it, mol/kg and ions a molecule (4).

    >>> round(salt_bath(0.5, 2), 2)
    -1.86
    """
    return -KF_WATER * molality * ions


def self_heating(r: float, ampere: float, watt_per_kelvin: float) -> float:
    """How much warmer than its surroundings the meter's current makes it, kelvin: I^2 R / dissipation (1).

    Raises ValueError where nothing carries the heat away.

    >>> round(self_heating(10000.0, 1e-4, 0.0015), 3)
    0.067
    """
    if watt_per_kelvin <= 0:
        raise ValueError("a dissipation above zero is needed")
    return ampere * ampere * r / watt_per_kelvin


def platinum_ohm(t: float, r0: float = 1000.0) -> float:
    """A platinum sensor at `t`, -200 to 850 degC (3). It rises. Raises ValueError outside.

    >>> round(platinum_ohm(100.0), 3)
    1385.055
    """
    if not -200 <= t <= 850:
        raise ValueError("the formula holds from -200 to 850 °C")
    below = PT_C * (t - 100) * t**3 if t < 0 else 0.0
    return r0 * (1 + PT_A * t + PT_B * t * t + below)


def _kelvin(t: float) -> float:
    if t <= -KELVIN:
        raise ValueError("there is no such temperature")
    return t + KELVIN
