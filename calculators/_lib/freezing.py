"""Freezing of water: how long it takes, what heat it gives off, how much ice that makes a day.

Metres, kilograms, seconds, W/(m2 K), W/(m K), degrees Celsius, joules.

Sources: (1) Plank 1913, 1941: time to freeze, with P and R of slab, cylinder and sphere, seen in an encyclopaedia of
food sciences. (2) P and R of a block, as printed in refrigeration handbooks, from memory; they come out as those of
the slab for long sides and of the cube for equal ones. (3) First-order cooling, a mathematical fact.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import log, sqrt

from calculators._lib import water

MINUTES_A_DAY, SECONDS_A_DAY = 1440.0, 86400.0


@dataclass(frozen=True, slots=True)
class Shape:
    """The two factors by which Plank's formula knows a shape."""

    p: float
    r: float


TWO_FACES = Shape(1 / 2, 1 / 8)
"""A sheet that is cold on both faces; its size is the whole thickness (1)."""
ONE_FACE = Shape(1.0, 1 / 2)
"""A sheet that is cold on one face alone; its size is the whole depth (1)."""
CYLINDER = Shape(1 / 4, 1 / 16)
"""Its size is the diameter (1)."""
SPHERE = Shape(1 / 6, 1 / 24)
"""Its size is the diameter (1)."""


def block(shortest: float, middle: float, longest: float) -> Shape:
    """A block that is cold on all six faces; its size is the shortest side (2).

    >>> block(0.02, 0.025, 0.05).p, round(block(0.02, 0.025, 0.05).r, 5)
    (0.22727272727272727, 0.0632)
    """
    a, b = longest / shortest, middle / shortest
    p = a * b / (2 * (a * b + a + b))
    root = sqrt(max((a - b) * (a - 1) + (b - 1) ** 2, 0.0))
    if root < 1e-6:
        return Shape(p, p / 4)
    high, low = ((a + b + 1 + sign * root) / 3 for sign in (1, -1))
    return Shape(p, (_term(high, a, b) - _term(low, a, b)) / (8 * root) + (2 * a + 2 * b - 1) / 72)


def _term(x: float, a: float, b: float) -> float:
    gap = (x - 1) * (a - x) * (b - x)
    return gap * log(x / (x - 1)) if x - 1 > 1e-9 else 0.0


def plank(
    size: float,
    shape: Shape,
    air: float,
    film: float,
    conductivity: float,
    heat: float = water.LATENT_HEAT,
    density: float = 916.7,
    freezes_at: float = 0.0,
) -> float:
    """Seconds until all is frozen: density heat / (freezes_at - air) (P size / film + R size² / conductivity) (1).

    `film` is infinite where the faces themselves are held at that temperature. It starts from water at 0 °C and leaves
    out that the ice is cooled on, and so lies 1 to 7 % under the exact solution for a sheet. Raises ValueError where
    the air does not freeze it.

    >>> round(plank(0.015, TWO_FACES, -18.0, 25.0, 2.2, 333430.0))
    5311
    """
    if air >= freezes_at:
        raise ValueError("it never freezes")
    if not (size > 0 and film > 0 and conductivity > 0):
        raise ValueError("size, film and conductivity must be above zero")
    return density * heat / (freezes_at - air) * (shape.p * size / film + shape.r * size**2 / conductivity)


def heat_given_off(start: float, end: float = 0.0) -> float:
    """J/kg from water at `start` to ice at `end`: the water cools, freezes, and the ice cools on.

    Raises ValueError where the water is no water or the ice no ice.

    >>> round(heat_given_off(15.0, -5.0))
    406829
    """
    if start < 0 or end > 0:
        raise ValueError("water from 0 up, ice from 0 down is needed")
    cooled = _over(water.heat_capacity, start) * start
    return cooled + water.LATENT_HEAT - _over(water.ice_heat_capacity, end) * end


def _over(capacity: Callable[[float], float], t: float) -> float:
    """The mean from 0 to t, after Simpson."""
    return (capacity(0.0) + 4 * capacity(t / 2) + capacity(t)) / 6


def a_day_by_power(power: float, heat: float) -> float:
    """Kilograms a day that so many watts at the ice freeze; not the watts that the compressor takes.

    >>> round(a_day_by_power(100.0, heat_given_off(15.0, -5.0)), 2)
    21.24
    """
    return power * SECONDS_A_DAY / heat


def a_day_by_batches(mass: float, minutes: float) -> float:
    """Kilograms a day of batches of that mass, one every so many minutes.

    >>> round(a_day_by_batches(8 * 0.0125, 75.0), 3)
    1.92
    """
    if minutes <= 0:
        raise ValueError("a batch takes time")
    return mass * MINUTES_A_DAY / minutes


def grown(volume: float, t: float) -> float:
    """The volume of ice at 0 °C that a volume of water at `t` becomes.

    >>> round(grown(100.0, 15.0))
    109
    """
    return volume * water.density(t) / water.ice_density(0.0)


def cooled_down(start: float, final: float, wanted: float, tau: float) -> float:
    """How long from `start` to `wanted` where `final` is neared by 63 % in each `tau`: tau ln(...), its unit (3).

    Raises ValueError where it is never reached.

    >>> round(cooled_down(5.0, -18.0, -10.0, 2.5), 3)
    2.64
    """
    if start <= wanted:
        return 0.0
    if wanted <= final or tau <= 0:
        raise ValueError("it never gets so cold")
    return tau * log((start - final) / (wanted - final))
