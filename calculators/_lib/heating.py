"""Heating elements: what their label says in ohms, and how long they take. Ohms, volts, watts, kilograms, seconds.

Sources: (1) Ohm's and Joule's law. (2) Specific heat of water, 4186 J/(kg K): handbook value, from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum

WATER_HEAT = 4186.0
"""J to warm a kilogram of water by a kelvin (2); it changes by less than 1 % from 5 to 95 degC."""


def ohm(volts: float, watts: float) -> float:
    """The resistance that takes `watts` at `volts`: V^2 / P (1). Raises ValueError where there is none.

    >>> ohm(120.0, 400.0)
    36.0
    """
    if volts <= 0 or watts <= 0:
        raise ValueError("volts and watts above zero are needed")
    return volts * volts / watts


def band(volts: float, watts: float, plus_pct: float, minus_pct: float) -> tuple[float, float]:
    """Least and most ohms of an element whose watts may be so much above and below (1).

    The most watts are the fewest ohms, and the band does not lie evenly about V^2 / P. Raises ValueError.

    >>> tuple(round(r, 2) for r in band(230.0, 2000.0, 5.0, 10.0))
    (25.19, 29.39)
    """
    if plus_pct < 0 or minus_pct < 0:
        raise ValueError("tolerances from zero up are needed")
    return ohm(volts, watts * (1 + plus_pct / 100)), ohm(volts, watts * (1 - minus_pct / 100))


def watts(volts: float, r: float) -> float:
    """What it takes at `volts`: V^2 / R (1). At another voltage the watts go with the square. Raises ValueError.

    >>> round(watts(208.0, ohm(240.0, 5400.0)))
    4056
    """
    if r <= 0:
        raise ValueError("a resistance above zero is needed")
    return volts * volts / r


def cold(hot: float, ratio: float) -> float:
    """The ohms when cold of one that has `hot` ohm at work, `ratio` times as many. Raises ValueError.

    >>> round(cold(28.8, 4.5), 2)
    6.4
    """
    if ratio <= 0:
        raise ValueError("a ratio above zero is needed")
    return hot / ratio


def series(ohms: Sequence[float]) -> float:
    """Elements one after the other (1).

    >>> series([20.0, 30.0])
    50.0
    """
    return fsum(ohms)


def parallel(ohms: Sequence[float]) -> float:
    """Elements beside each other, each across the whole voltage (1). Raises ValueError for a short.

    >>> parallel([24.2, 24.2])
    12.1
    """
    if min(ohms) <= 0:
        raise ValueError("resistances above zero are needed")
    return 1 / fsum(1 / r for r in ohms)


def heating_seconds(kilogram: float, t1: float, t2: float, power: float, efficiency: float) -> float:
    """How long `power` takes to warm that much water, if the share `efficiency` of it stays in (2).

    Raises ValueError where it never does.

    >>> round(heating_seconds(2.0, 20.0, 65.0, 2000.0, 0.9), 1)
    209.3
    """
    if not (kilogram > 0 and t2 >= t1 and power > 0 and 0 < efficiency <= 1):
        raise ValueError("water to be warmed, and heat for it, are needed")
    return kilogram * WATER_HEAT * (t2 - t1) / (efficiency * power)
