"""Water in a pipe, running out at an open end. SI: metres, pascals, m/s.

The energy equation, with the head of the jet counted once and no loss of an outlet beside it:
p = rho g dz + (f L/D + K + 1) rho v2/2, p over the air's pressure where the line begins.

Valid for water in a round pipe that is full, of one bore from end to end, in steady flow.

Sources: (1) Darcy-Weisbach, with f = 64/Re after Hagen and Poiseuille up to Re 2000: textbooks, from memory.
(2) Colebrook 1939, from Re 4000 on: from memory, recomputed with the library fluids 1.3.1. (3) Between the two no
single value is right: the range is what (1) and (2) give; the value a straight line between the ends, our own choice.
(4) Joukowsky's surge: from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import e, inf, log10, pi, sqrt

from calculators._lib.water import G, Water, at

LAMINAR_TO = 2000.0
TURBULENT_FROM = 4000.0
LAMINAR, TRANSITION, TURBULENT = "laminar", "transition", "turbulent"
COLD = at(15.0)
SLOPE = 2 * log10(e)
"""Of 2 log10(x), times x."""
LEAST = 1e-9
"""A pressure, Pa, that drives nothing that could be measured."""
CLOSE = 1e-12
"""Where rounds of approximation end, as a share."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line from where the pressure is read to its open end; metres."""

    bore: float
    length: float
    roughness: float = 0.0
    fittings: float = 0.0
    """Sum of the loss factors K, without the outlet."""
    height: float = 0.0
    """How much higher the open end is."""
    water: Water = COLD

    @property
    def area(self) -> float:
        """Of the bore, m2."""
        return pi * self.bore**2 / 4

    @property
    def lift(self) -> float:
        """The pressure that the height takes, Pa."""
        return hydrostatic(self.height, self.water)

    def reynolds(self, speed: float) -> float:
        """Reynolds number at that speed."""
        return self.water.density * speed * self.bore / self.water.viscosity

    def speed(self, reynolds: float) -> float:
        """The speed that has that Reynolds number, m/s."""
        return reynolds * self.water.viscosity / (self.water.density * self.bore)

    def head(self, speed: float) -> float:
        """Pressure of the speed, rho v2/2, Pa."""
        return self.water.density * speed**2 / 2


@dataclass(frozen=True, slots=True)
class Speeds:
    """What the line lets through, m/s: the value, and the range that the kind of flow leaves open."""

    low: float
    value: float
    high: float


def regime(reynolds: float) -> str:
    """The kind of flow (1) (2).

    >>> regime(1200), regime(2700), regime(9000)
    ('laminar', 'transition', 'turbulent')
    """
    if reynolds <= LAMINAR_TO:
        return LAMINAR
    return TURBULENT if reynolds >= TURBULENT_FROM else TRANSITION


def hydrostatic(height: float, of: Water = COLD) -> float:
    """The pressure of a column of water, rho g h, Pa.

    >>> round(hydrostatic(10.0))
    97978
    """
    return of.density * G * height


def surge(change: float, wave: float, of: Water = COLD) -> float:
    """What stopping a flow at once adds, rho a dv, Pa (4); `wave` is the speed of sound in that pipe, m/s.

    >>> round(surge(1.0, 400.0) / 1e5, 1)
    4.0
    """
    return of.density * wave * change


def laminar(reynolds: float) -> float:
    """Darcy's f of laminar flow (1): 64/Re, whatever the roughness.

    >>> laminar(1000.0)
    0.064
    """
    return 64 / reynolds


def colebrook(reynolds: float, roughness: float) -> float:
    """Darcy's f of turbulent flow (2); `roughness` is relative, k/D. Solved by Newton's method.

    1/sqrt(f) = -2 log10(k/(3.7 D) + 2.51/(Re sqrt(f))).

    >>> round(colebrook(1e5, 0.0), 5)
    0.01799
    """
    rough, smooth = roughness / 3.7, 2.51 / reynolds
    root = -1.8 * log10(rough**1.11 + 6.9 / reynolds)
    for _ in range(3):
        inside = rough + smooth * root
        root -= (root + 2 * log10(inside)) / (1 + SLOPE * smooth / inside)
    return root**-2


def darcy(reynolds: float, roughness: float) -> float:
    """Darcy's f in any flow, without a jump (1) (2) (3); four times Fanning's.

    >>> round(darcy(2000.0, 0.0), 4), round(darcy(3000.0, 0.0), 4), round(darcy(4000.0, 0.0), 4)
    (0.032, 0.036, 0.0399)
    """
    if reynolds <= LAMINAR_TO:
        return laminar(reynolds)
    if reynolds >= TURBULENT_FROM:
        return colebrook(reynolds, roughness)
    share = (reynolds - LAMINAR_TO) / (TURBULENT_FROM - LAMINAR_TO)
    return laminar(LAMINAR_TO) * (1 - share) + colebrook(TURBULENT_FROM, roughness) * share


def darcy_range(reynolds: float, roughness: float) -> tuple[float, float]:
    """Between what f may be: one value but in the transition (3).

    >>> [round(f, 4) for f in darcy_range(2700.0, 0.0)]
    [0.0237, 0.045]
    """
    if regime(reynolds) == TRANSITION:
        return laminar(reynolds), colebrook(reynolds, roughness)
    return (darcy(reynolds, roughness),) * 2


def straight(line: Line, speed: float) -> float:
    """f L/D: how often straight pipe takes the pressure of its speed (1); inf at rest.

    >>> line = Line(0.004826, 3.0, 1.5e-6, water=at(20.0))
    >>> round(straight(line, 1.8222763) * line.head(1.8222763))
    33418
    """
    if speed <= 0:
        return inf
    return darcy(line.reynolds(speed), line.roughness / line.bore) * line.length / line.bore


def pressure_at(line: Line, speed: float) -> float:
    """The pressure at the beginning that drives that speed out of the end, Pa.

    >>> round(pressure_at(Line(0.004318, 3.0, 1.5e-6, 0.5), 6.580648) / 6894.757, 1)
    60.0
    """
    if speed <= 0:
        return line.lift
    return line.lift + (straight(line, speed) + line.fittings + 1) * line.head(speed)


def speeds(line: Line, pressure: float) -> Speeds:
    """How fast the water comes out at that pressure, Pa; all 0 where it does not lift the water to the end.

    >>> round(speeds(Line(0.004318, 3.0, 1.5e-6, 0.5), 60 * 6894.757).value, 3)
    6.581
    """
    driving = pressure - line.lift
    if driving <= LEAST:
        return Speeds(0.0, 0.0, 0.0)
    fastest = _laminar_speed(line, driving)
    if line.reynolds(fastest) <= LAMINAR_TO:
        return Speeds(fastest, fastest, fastest)
    slowest = _turbulent_speed(line, driving)
    if line.reynolds(slowest) >= TURBULENT_FROM:
        return Speeds(slowest, slowest, slowest)
    low, high = line.speed(LAMINAR_TO), line.speed(TURBULENT_FROM)
    return Speeds(max(slowest, low), _halved(line, pressure, low, high), min(fastest, high))


def _laminar_speed(line: Line, driving: float) -> float:
    """The root of (K + 1) rho/2 v2 + 32 mu L/D2 v = p, written so that nothing cancels."""
    square = (line.fittings + 1) * line.water.density / 2
    linear = 32 * line.water.viscosity * line.length / line.bore**2
    return 2 * driving / (linear + sqrt(linear**2 + 4 * square * driving))


def _turbulent_speed(line: Line, driving: float) -> float:
    """Taken again with the f of the speed before: f falls so slowly that each round takes most of the error off."""
    speed, before = line.speed(1e5), 0.0
    while abs(speed - before) > CLOSE * speed:
        before = speed
        f = colebrook(line.reynolds(before), line.roughness / line.bore)
        takes = f * line.length / line.bore + line.fittings + 1
        speed = sqrt(2 * driving / (line.water.density * takes))
    return speed


def _halved(line: Line, pressure: float, low: float, high: float) -> float:
    while high - low > CLOSE * high:
        middle = (low + high) / 2
        low, high = (middle, high) if pressure_at(line, middle) < pressure else (low, middle)
    return (low + high) / 2
