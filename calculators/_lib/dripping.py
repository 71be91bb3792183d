"""A leak that drips. Drips a minute, millilitres, litres a day, seconds, metres, degrees Celsius.

Sources: (1) a day has 1440 minutes. (2) Counts of what comes at random scatter by the root of their number.
(3) Tate's law, V = 2 pi r sigma / (rho g); real drops are 0.55 to 1 of it (after Harkins and Brown, from memory).
(4) Published drops: 0.05 mL (20 a millilitre, pharmacy, from memory) to 0.33 mL (an older page of the US
Geological Survey, seen in a stored copy; its newer figure, 0.25, seen quoted): common practice knows no better.
"""

from __future__ import annotations

from math import pi, sqrt

from calculators._lib import water

LEAST_DROP, MOST_DROP = 0.05, 1 / 3
"""Published drops, mL (4)."""
REAL_SHARE = 0.55
"""The least share of Tate's drop that falls (3)."""
LITRES_A_DAY = 1.44
"""One millilitre a minute (1)."""
MINUTE = 60.0
GALLON = 3.785411784
"""A US gallon, litres: 231 cubic inches."""
DAYS = 365.25
"""In a year."""


def litres_a_day(drips: float, drop: float) -> float:
    """What drips in a day, from drips a minute and the volume of a drop (1).

    >>> round(litres_a_day(60.0, 0.25), 6)
    21.6
    """
    return LITRES_A_DAY * drips * drop


def drop_of(a_day: float, drips: float) -> float:
    """The volume of a drop, mL, from litres a day and drips a minute: `litres_a_day` turned round (1).

    >>> round(drop_of(21.6, 60.0), 6)
    0.25
    """
    return a_day / (LITRES_A_DAY * drips)


def caught_a_day(millilitres: float, seconds: float) -> float:
    """Litres a day of a leak that was caught (1). Raises ValueError without a time.

    >>> round(caught_a_day(250.0, 3600.0), 6)
    6.0
    """
    if seconds <= 0:
        raise ValueError("a time above 0 is needed")
    return LITRES_A_DAY * MINUTE * millilitres / seconds


def share_of_count(count: float) -> float:
    """Relative standard uncertainty of a count (2); a count of nothing is as unsure as one of one.

    >>> share_of_count(25.0)
    0.2
    """
    return 1 / sqrt(max(count, 1.0))


def tate_drop(radius: float, t: float) -> float:
    """The largest drop that hangs on an outlet of that outer radius, mL (3); what falls is 0.55 to 1 of it.

    >>> round(tate_drop(0.003175, 15.0), 4)
    0.1496
    """
    if radius <= 0:
        raise ValueError("a radius above 0 is needed")
    return 2 * pi * radius * water.surface_tension(t) / (water.density(t) * water.G) * 1e6
