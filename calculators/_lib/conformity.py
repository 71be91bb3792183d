"""Whether a measured value is in its limits, after JCGM 106 with a guard band as wide as U.

A limit that does not exist is None. Value, uncertainty and limits share one unit.
"""

from __future__ import annotations

from math import erfc, inf, sqrt

IN = "in limits"
OUT = "out of limits"
BELOW = "below limits"
ABOVE = "above limits"
CLOSE = "too close to call"

WAYS = {IN: (IN,), BELOW: (BELOW, OUT), ABOVE: (ABOVE, OUT), CLOSE: (CLOSE,)}
"""For each verdict, the ways out that fit it, best first."""


def judge(value: float, expanded: float, low: float | None, high: float | None) -> str:
    """The verdict on value ± expanded: in or out only if the whole interval is.

    JCGM 106, 8.3 (guarded acceptance and guarded rejection); ILAC-G8:09/2019, 4.2.3, w = U.

    >>> judge(312.0, 4.0, 100.0, 500.0), judge(498.0, 4.0, 100.0, 500.0), judge(505.0, 4.0, None, 500.0)
    ('in limits', 'too close to call', 'above limits')
    """
    least, most = value - expanded, value + expanded
    if low is not None and most < low:
        return BELOW
    if high is not None and least > high:
        return ABOVE
    fits = (low is None or least >= low) and (high is None or most <= high)
    return IN if fits else CLOSE


def cannot_pass(expanded: float, low: float | None, high: float | None) -> bool:
    """Whether no value at all could be judged in limits: U is wider than half the band.

    >>> cannot_pass(0.42, 0.3, 0.7), cannot_pass(0.42, 0.3, None)
    (True, False)
    """
    return low is not None and high is not None and 2 * expanded > high - low


def normal(z: float) -> float:
    """Share of a standard normal distribution below z.

    >>> normal(0.0)
    0.5
    """
    return erfc(-z / sqrt(2)) / 2


def p_conform(value: float, u: float, low: float | None, high: float | None) -> float:
    """Probability that the true value is in the limits: normal((high-y)/u) - normal((low-y)/u).

    JCGM 106, 7. u is the standard uncertainty; where it is 0, the answer is 0 or 1.

    >>> round(p_conform(-5.47, 0.05, None, -5.4), 4)
    0.9192
    """
    bottom, top = -inf if low is None else low, inf if high is None else high
    if u == 0:
        return 1.0 if bottom <= value <= top else 0.0
    return normal((top - value) / u) - normal((bottom - value) / u)


def z_value(p: float) -> float:
    """The z below which a standard normal distribution has the share p; 0 < p < 1.

    Found by halving an interval, to the last digit. Raises ValueError outside.

    >>> round(z_value(0.95), 6)
    1.644854
    """
    if not 0 < p < 1:
        raise ValueError("a probability between 0 and 1 is needed")
    least, most = -40.0, 40.0
    for _ in range(70):
        middle = (least + most) / 2
        least, most = (middle, most) if normal(middle) < p else (least, middle)
    return (least + most) / 2
