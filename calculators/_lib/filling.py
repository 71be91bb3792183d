"""What a valve that is open for a time lets in. Litres a minute, seconds, millilitres; pressures in one unit.

Sources: (1) flow times time; 1 L/min is 1/0.06 mL/s. (2) JCGM 100, 5.1.2. (3) A flow washer: nearly the same
flow from its least pressure up, as an orifice below it; from memory, no source.
"""

from __future__ import annotations

from math import sqrt

from calculators._lib import uncertainty
from calculators._lib.catching import LITRES_A_MINUTE


def volume(q: float, seconds: float, dead: float = 0.0) -> float:
    """Millilitres let in; nothing flows in the dead time after the valve is switched on (1).

    >>> volume(1.2, 7.0, 0.25), volume(1.0, 0.2, 0.25)
    (135.0, 0.0)
    """
    return q * max(seconds - dead, 0.0) / LITRES_A_MINUTE


def seconds_for(millilitres: float, q: float, dead: float = 0.0) -> float:
    """How long the valve must be open for that volume (1). Raises ValueError where nothing flows.

    >>> round(seconds_for(90.0, 0.4), 6), round(seconds_for(135.0, 1.2, 0.25), 6)
    (13.5, 7.0)
    """
    if q <= 0:
        raise ValueError("without a flow it never fills")
    return dead + LITRES_A_MINUTE * millilitres / q


def standard_uncertainty(q: float, seconds: float, dead: float, u_q: float, u_t: float) -> float:
    """Standard uncertainty of the volume by those of flow and time (2).

    >>> round(standard_uncertainty(1.0, 7.0, 0.0, 0.05, 0.2), 4)
    6.7185
    """
    open_for = max(seconds - dead, 0.0)
    return uncertainty.combined(open_for * u_q, q * u_t) / LITRES_A_MINUTE


def washer_flow(drop: float, nominal: float, least: float) -> float:
    """The flow through a flow washer at that pressure drop, ± 15 % (3).

    Over its range the square root of the pressure is wrong: twice the pressure gives the same flow, not 1.4 times.

    >>> washer_flow(60.0, 1.2, 15.0), round(washer_flow(7.5, 1.2, 15.0), 3), washer_flow(0.0, 1.2, 15.0)
    (1.2, 0.849, 0.0)
    """
    return nominal * sqrt(min(max(drop, 0.0) / least, 1.0))
