"""The flow that is caught in a container for a time. Millilitres, seconds, grams, degrees Celsius, litres a minute.

Sources: (1) volume over time; 1 mL/s is 0.06 L/min. (2) JCGM 100, 4.2, 4.3.7 and 5.1.2. (3) Density of water: see
`water`. The errors of container and watch are the same in all catches and do not average out (2).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from calculators._lib import uncertainty, water

LITRES_A_MINUTE = 0.06
"""One millilitre a second."""


@dataclass(frozen=True, slots=True)
class Caught:
    """What one catch or more say of a flow; litres a minute."""

    mean: float
    """The mean of the flows of the catches."""
    total: float
    """All the water over all the time."""
    scatter: float
    """Standard uncertainty of the mean by what differs from catch to catch; 0 for a single one."""
    shared: float
    """Standard uncertainty by the errors that all catches share."""

    @property
    def u(self) -> float:
        """Combined standard uncertainty (2)."""
        return uncertainty.combined(self.scatter, self.shared)


def flow(volume: float, seconds: float) -> float:
    """Litres a minute of one catch (1). Raises ValueError without a time or with less than no water.

    >>> flow(320.0, 10.0)
    1.92
    """
    if not (volume >= 0 and seconds > 0):
        raise ValueError("a volume from 0 up and a time above 0 are needed")
    return LITRES_A_MINUTE * volume / seconds


def weighed(gross: float, tare: float, t: float) -> float:
    """The volume of water of which full and empty weight are known, at temperature t (3).

    Valid from 0 to 100 degC; the lift of the air, 0.1 %, is left out. Raises ValueError where full is less than empty.

    >>> round(weighed(1510.0, 500.0, 60.0), 1)
    1027.3
    """
    if gross < tare:
        raise ValueError("full weighs less than empty")
    return (gross - tare) / water.density(t) * 1e3


def caught(volumes: Sequence[float], times: Sequence[float], a_volume: float, a_time: float) -> Caught:
    """The flow of these catches, with a container known to ± a_volume and a watch to ± a_time (1) (2).

    >>> found = caught([100.0, 1000.0], [4.0, 60.0], 2.0, 0.3)
    >>> found.mean, found.total, round(found.scatter, 3), round(found.shared, 6)
    (1.25, 1.03125, 0.25, 0.007257)
    """
    flows = [flow(v, t) for v, t in zip(volumes, times, strict=True)]
    mean, seconds = uncertainty.mean(flows), uncertainty.mean(times)
    return Caught(
        mean=mean,
        total=flow(fsum(volumes), fsum(times)),
        scatter=uncertainty.of_the_mean(flows) or 0.0,
        shared=shared(mean, uncertainty.mean(volumes), seconds, a_volume, a_time),
    )


def shared(q: float, volume: float, seconds: float, a_volume: float, a_time: float) -> float:
    """Standard uncertainty of a flow q by container and watch, for a catch of that volume and time (2).

    >>> round(shared(1.0, 500.0, 30.0, 5.0, 0.3), 6)
    0.008165
    """
    a_millilitre = q / volume if volume > 0 else LITRES_A_MINUTE / seconds
    by_volume = a_millilitre * uncertainty.rectangular(a_volume)
    return uncertainty.combined(by_volume, q * uncertainty.rectangular(a_time) / seconds)
