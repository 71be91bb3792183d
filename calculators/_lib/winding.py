"""Resistance of windings: temperature, wire, alternating current.

Ohms, metres, volts, hertz; temperatures in degrees Celsius, because the formulas are
written on that scale.

Sources: (1) IEC 60028: resistivity of annealed copper 1/58 ohm mm2/m at 20 degC, seen in
a summary. (2) The resistance method of motor and appliance standards with k = 234.5 for
copper, 225 for aluminium, seen in a published copy. (3) ASTM B258, sizes of American wire
gauge, from memory. (4) JCGM 100, example H.2, seen quoted.
"""

from __future__ import annotations

from math import hypot, pi

COPPER = 234.5
ALUMINIUM = 225.0
"""k: the temperature below 0 degC at which the resistance, drawn on as a line, would be nothing."""

RHO_COPPER = 1e-6 / 58
"""Resistivity of annealed copper at 20 degC, ohm metre (1)."""
FOOT = 0.3048


def at_temperature(r: float, t: float, t_new: float, k: float = COPPER) -> float:
    """The resistance `r` found at `t`, as it would be at `t_new`: r (k + t_new) / (k + t) (2).

    Valid from about -60 to 250 degC. Raises ValueError where k + t is not positive.

    >>> round(at_temperature(262.0, 100.0, 20.0), 3)
    199.339
    """
    if k + t <= 0 or k + t_new <= 0:
        raise ValueError("colder than the formula holds")
    return r * (k + t_new) / (k + t)


def rise(r1: float, r2: float, t1: float, t_room: float, k: float = COPPER) -> float:
    """How much hotter than the room the winding has become, in kelvin (2).

    (r2 - r1) / r1 (k + t1) - (t_room - t1), with r1 at t1 cold and r2 hot, in a room at t_room.

    >>> round(rise(100.0, 120.0, 20.0, 20.0), 3)
    50.9
    """
    if r1 <= 0 or r2 <= 0:
        raise ValueError("both resistances must be above zero")
    return (r2 - r1) / r1 * (k + t1) - (t_room - t1)


def wire_diameter(awg: float) -> float:
    """Diameter of a bare wire of that American gauge, metres: 0.005 in * 92 ** ((36 - n) / 39) (3).

    >>> round(wire_diameter(10) * 1000, 4)
    2.5882
    """
    return 0.005 * 0.0254 * 92 ** ((36 - awg) / 39)


def wire_ohm_per_metre(awg: float, t: float = 20.0) -> float:
    """Resistance of one metre of annealed copper wire at `t` (1) (3).

    >>> round(wire_ohm_per_metre(18) * 1000 * FOOT, 3)
    6.385
    """
    area = pi * wire_diameter(awg) ** 2 / 4
    return at_temperature(RHO_COPPER / area, 20.0, t)


def reactance(inductance: float, frequency: float) -> float:
    """2 pi f L, ohm.

    >>> round(reactance(0.5, 60.0), 3)
    188.496
    """
    return 2 * pi * frequency * inductance


def impedance(r: float, inductance: float, frequency: float) -> float:
    """What limits the current on alternating voltage: hypot(r, 2 pi f L), ohm (4).

    Volts over amperes of a coil that runs on AC gives this, not its resistance.

    >>> round(impedance(127.732, 0.08747434193480978, 400.0), 2)
    254.26
    """
    return hypot(r, reactance(inductance, frequency))
