"""How wide an uncertainty is where few readings say how far they scatter: degrees of freedom, Student's t.

Sources: (1) JCGM 100, G.4.1, Welch-Satterthwaite, and table G.2, from memory, recomputed. (2) The density of
Student's distribution with the angle atan(t / sqrt dof) in place of t: a power of the cosine.
"""

from __future__ import annotations

from math import atan, cos, exp, inf, lgamma, pi, sqrt

K2_SHARE = 0.9545
"""The share of a normal distribution within two standard uncertainties (1)."""
MANY = 1e6
"""From so many degrees of freedom on, the distribution is normal to six digits."""
NEAR = 1e-7
"""A step of k so small is the last."""
PIECES = 32
STEPS = 12


def freedom(u: float, u_scatter: float, readings: int) -> float:
    """Effective degrees of freedom of a standard uncertainty u, of which u_scatter came from so many readings (1).

    All other parts are taken as known; infinity where there is no scatter.

    >>> round(freedom(0.010394119196747707, 0.008196721311475474, 2), 4)
    2.5858
    """
    return inf if u_scatter <= 0 else (readings - 1) * (u / u_scatter) ** 4


def coverage(dof: float) -> float:
    """The k within which K2_SHARE lies, for one degree of freedom or more (1).

    Newton's steps from 2, which is below it: the share bends down, so that no step goes too far.

    >>> round(coverage(1), 2), round(coverage(10), 2), round(coverage(inf), 2)
    (13.97, 2.28, 2.0)
    """
    dof, k = min(dof, MANY), 2.0
    for _ in range(STEPS):
        step = (K2_SHARE - within(k, dof)) / (2 * _peak(dof) * (1 + k * k / dof) ** (-(dof + 1) / 2))
        k += step
        if abs(step) < NEAR:
            break
    return k


def within(t: float, dof: float) -> float:
    """The share of Student's distribution between -t and t (2); Simpson's rule, four digits or more up to t = 14.

    >>> round(within(1.0, 1.0), 6), round(within(2.0, 1e6), 4)
    (0.5, 0.9545)
    """
    end = atan(t / sqrt(dof))
    step = end / PIECES
    inner = sum((4 if i % 2 else 2) * cos(i * step) ** (dof - 1) for i in range(1, PIECES))
    return 2 * (1 + inner + cos(end) ** (dof - 1)) * step / 3 * _peak(dof) * sqrt(dof)


def _peak(dof: float) -> float:
    """The density at 0."""
    return exp(lgamma((dof + 1) / 2) - lgamma(dof / 2)) / sqrt(pi * dof)
