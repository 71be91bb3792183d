"""Flow factors of valves, and what a flow loses on its way. Kv in m3/h at 1 bar, pressures in pascals.

Sources: (1) IEC 60534-2-1 (ISA-75.01.01), liquids, turbulent: from memory, its published examples recomputed with the
library fluids 1.3.1. (2) The pressure lost in turbulent flow grows with its square: textbooks.
"""

from __future__ import annotations

from math import sqrt

from calculators._lib.water import CRITICAL_PASCAL

RHO_REFERENCE = 999.1
"""Water at 15 °C, for which the flow factors are stated, kg/m3."""
BAR = 1e5
KV_OF_CV = 0.003785411784 * 60 * sqrt(BAR / (0.45359237 * 9.80665 / 0.0254**2))
"""Cv, in US gallons a minute at 1 psi, counts so many Kv: 0.865 (1)."""


def kv_of(flow: float, drop: float, density: float = RHO_REFERENCE) -> float:
    """The Kv that lets `flow` (m3/h) through at `drop` (Pa): Q sqrt((rho/rho0) / (dp/1 bar)) (1).

    >>> round(kv_of(0.36, 3e5), 4)
    0.2078
    """
    return flow * sqrt(density / RHO_REFERENCE * BAR / drop)


def flow_of(kv: float, drop: float, density: float = RHO_REFERENCE) -> float:
    """The flow through a valve, m3/h: Kv sqrt((dp/1 bar) / (rho/rho0)) (1).

    >>> round(flow_of(0.1, 4e5), 3)
    0.2
    """
    return kv * sqrt(drop / BAR * RHO_REFERENCE / density)


def choked_drop(before: float, vapour: float, recovery: float) -> float:
    """From this drop on, no more flows (1): FL2 (p1 - FF pv), FF = 0.96 - 0.28 sqrt(pv/pc); absolute pressures.

    >>> round(choked_drop(680e3, 70.1e3, 0.6))
    220972
    """
    ratio = 0.96 - 0.28 * sqrt(vapour / CRITICAL_PASCAL)
    return recovery**2 * (before - ratio * vapour)


def loss_factor(kv: float, bore: float) -> float:
    """K of that Kv, for the speed in that bore (m): 1.6e9 D4/Kv2 (1).

    >>> round(loss_factor(1.0, 0.008), 4)
    6.5536
    """
    return 1.6e9 * bore**4 / kv**2


def kv_of_loss(factor: float, bore: float) -> float:
    """Kv of that K: the other way round (1).

    >>> round(kv_of_loss(10.0, 0.0127), 3)
    2.04
    """
    return sqrt(1.6e9 * bore**4 / factor)


def flow_at(flow: float, drop: float, other: float, exponent: float = 2.0) -> float:
    """The flow at another drop, if the drop grows with that power of the flow (2): Q (dp2/dp1)^(1/n).

    Raises ValueError where nothing flows, nothing is lost, or nothing is left to drive it.

    >>> round(flow_at(5.0, 15.0, 40.0), 3)
    8.165
    """
    if not (flow > 0 and drop > 0 and other >= 0):
        raise ValueError("a flow and a drop above nothing are needed")
    return flow * (other / drop) ** (1 / exponent)


def drop_at(drop: float, flow: float, other: float, exponent: float = 2.0) -> float:
    """The drop at another flow: dp (Q2/Q1)^n (2).

    >>> drop_at(8.0, 2.0, 3.0)
    18.0
    """
    return drop * (other / flow) ** exponent
