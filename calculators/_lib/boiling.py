"""At what temperature water boils up a mountain. Metres, pascals, degrees Celsius.

Sources: (1) US Standard Atmosphere 1976, troposphere, from memory, recomputed. (2) The vapour pressure of
water, see `water`.
"""

from __future__ import annotations

from calculators._lib.water import ATMOSPHERE, G, vapour_pressure

SEA_LEVEL_KELVIN, LAPSE = 288.15, 0.0065
EXPONENT = G * 0.0289644 / (8.31432 * LAPSE)
EARTH = 6356766.0
"""Radius of the Earth, m (1): gravity falls a little on the way up."""
WEATHER_KELVIN = 0.6
"""So far the weather can shift it: 20 hPa up or down (common practice, no source)."""


def pressure(altitude: float) -> float:
    """Usual pressure of the air at that height above the sea, Pa, -1000 to 11 000 m (1). Raises ValueError outside.

    >>> round(pressure(1500.0))
    84560
    """
    if not -1000 <= altitude <= 11_000:
        raise ValueError("heights from -1000 to 11 000 m are known")
    height = EARTH * altitude / (EARTH + altitude)
    return ATMOSPHERE * (1 - LAPSE * height / SEA_LEVEL_KELVIN) ** EXPONENT


def celsius(altitude: float) -> float:
    """The temperature of boiling water there: where its vapour pressure is that of the air (2).

    >>> round(celsius(0.0), 2), round(celsius(1500.0), 2)
    (99.97, 94.98)
    """
    wanted = pressure(altitude)
    low, high = 0.0, 150.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if vapour_pressure(middle) < wanted else (low, middle)
    return (low + high) / 2
