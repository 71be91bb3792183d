"""Uncertainty of a measurement, after JCGM 100 (the GUM). Plain floats in one unit."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, hypot, sqrt

K = 2.0
"""The coverage factor of every expanded uncertainty here: about 95 %."""


def rectangular(half_width: float) -> float:
    """Standard uncertainty of an error known only to lie within ± half_width: a / sqrt(3).

    JCGM 100, 4.3.7.

    >>> round(rectangular(1.9), 6)
    1.096966
    """
    return half_width / sqrt(3)


def combined(*parts: float) -> float:
    """Root of the sum of squares of independent parts: JCGM 100, 5.1.2.

    >>> combined(3.0, 4.0)
    5.0
    """
    return hypot(*parts)


def mean(values: Sequence[float]) -> float:
    """Arithmetic mean of one value or more: JCGM 100, 4.2.1.

    >>> mean([160.0, 161.0])
    160.5
    """
    return fsum(values) / len(values)


def scatter(values: Sequence[float]) -> float | None:
    """Experimental standard deviation, n - 1: JCGM 100, 4.2.2. None for a single value.

    >>> round(scatter([160.2, 160.9, 161.4, 160.6, 160.8]), 6)
    0.438178
    >>> scatter([210.0]) is None
    True
    """
    if len(values) < 2:
        return None
    middle = mean(values)
    return sqrt(fsum((v - middle) ** 2 for v in values) / (len(values) - 1))


def of_the_mean(values: Sequence[float]) -> float | None:
    """Standard uncertainty of the mean, s / sqrt(n): JCGM 100, 4.2.3. None for a single value.

    Only what differs from reading to reading averages out; the errors of the meter and
    of its leads are the same in each and are added apart.

    >>> round(of_the_mean([160.2, 160.9, 161.4, 160.6, 160.8]), 6)
    0.195959
    """
    spread = scatter(values)
    return None if spread is None else spread / sqrt(len(values))
