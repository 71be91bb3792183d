"""What a supply line should give, how well that is known, and what a measured flow says of it. SI.

Half widths of what is not asked for: friction ± 5 % and loss factors of fittings ± 25 %, after the spread between
handbooks, from memory. Uncertainties after JCGM 100, 5.1.2 and 4.3.7: half widths over the root of 3, squares added.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from calculators._lib import pipe
from calculators._lib.pipe import Line, Speeds
from calculators._lib.uncertainty import K, combined, rectangular

FRICTION, FITTINGS = 0.05, 0.25
U_FRICTION, U_FITTINGS = rectangular(FRICTION), rectangular(FITTINGS)
LAMINAR_SLOPE, TURBULENT_SLOPE = 1.0, 0.25
"""f falls with this power of the speed: 64/Re, and Blasius; between the two a straight line."""
STEPS, BESIDE = 9, 1e-6
"""Points of a drawn curve; how near to a border, as a share, it has a point on both sides."""
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Known:
    """How far off what was typed can be: pascals, and shares of the bore and of the measured flow."""

    pressure: float = 0.0
    bore: float = 0.0
    flow: float = 0.0


@dataclass(frozen=True, slots=True)
class Loss:
    """What a restriction takes, at the flow that was measured."""

    pressure: float
    factor: float
    """K, for the speed in the line's bore."""
    u: float
    """Standard uncertainty of the pressure."""


@dataclass(frozen=True, slots=True)
class _Weights:
    """How strongly the pressure that a flow takes depends on each thing: d p / d ln x, as heads of the speed."""

    friction: float
    fittings: float
    bore: float
    flow: float


def _weights(line: Line, speed: float) -> _Weights:
    pipe_loss, slope = pipe.straight(line, speed), _slope(line.reynolds(speed))
    rest = line.fittings + 1
    return _Weights(
        pipe_loss, line.fittings, (5 - slope) * pipe_loss + 4 * rest, (2 - slope) * pipe_loss + 2 * rest
    )


def _slope(reynolds: float) -> float:
    share = (reynolds - pipe.LAMINAR_TO) / (pipe.TURBULENT_FROM - pipe.LAMINAR_TO)
    return LAMINAR_SLOPE + (TURBULENT_SLOPE - LAMINAR_SLOPE) * min(max(share, 0.0), 1.0)


def expected_u(line: Line, speed: float, known: Known) -> float:
    """Standard uncertainty of the expected flow as a share of it, without what the transition leaves open.

    From dp/p = 0 along p = (f L/D + K + 1) rho Q2 / (2 A2), with f falling as a power of Re.

    >>> round(expected_u(Line(0.004318, 3.0, 1.5e-6, 0.5), 6.58, Known(pressure=20e3, bore=0.02)), 3)
    0.038
    """
    if speed <= 0:
        return 0.0
    by = _weights(line, speed)
    parts = (
        rectangular(known.pressure) / line.head(speed),
        U_FRICTION * by.friction,
        U_FITTINGS * by.fittings,
        rectangular(known.bore) * by.bore,
    )
    return combined(*parts) / by.flow


def open_share(found: Speeds) -> float:
    """How far the transition leaves the flow open, as a share of the value: 0 where the flow is of one kind.

    >>> open_share(Speeds(1.0, 1.0, 1.0)), open_share(Speeds(1.0, 1.2, 1.5))
    (0.0, 0.25)
    """
    if found.value <= 0:
        return 0.0
    return max(found.value / found.low - 1, found.high / found.value - 1)


def loss(line: Line, pressure: float, flow: float, known: Known) -> Loss | None:
    """The pressure that something besides the line takes at that flow, m3/s; none where the flow is 0.

    K = (p - rho g dz) / (rho v2/2) - (f L/D + K + 1), with the f of the measured flow; 0 where the
    line alone takes all.

    >>> line = Line(0.004318, 5.0, 1.5e-6, 0.5)
    >>> found = loss(line, 60 * 6894.757, 3.3183 / 6e4, Known())
    >>> round(found.factor, 1), round(found.pressure / 6894.757, 1)
    (23.3, 24.0)
    """
    speed = flow / line.area
    if speed <= 0:
        return None
    by, head = _weights(line, speed), line.head(speed)
    takes = pressure - pipe.pressure_at(line, speed)
    low, high = (f * line.length / line.bore for f in pipe.darcy_range(*_relative(line, speed)))
    parts = (
        U_FRICTION * by.friction,
        U_FITTINGS * by.fittings,
        rectangular(known.bore) * by.bore,
        rectangular(known.flow) * by.flow,
        rectangular((high - low) / 2),
    )
    u = combined(rectangular(known.pressure), *(head * p for p in parts))
    return Loss(max(takes, 0.0), max(takes / head, 0.0), u)


def _relative(line: Line, speed: float) -> tuple[float, float]:
    return line.reynolds(speed), line.roughness / line.bore


def curves(line: Line, top: float, known: Known) -> tuple[tuple[Point, ...], ...]:
    """Flow over pressure from 0 to `top`, m3/s over Pa: the value, and the lower and upper edge of the model's range.

    What the gauge can be off by is no part of it: it belongs to the measured point. The pressure of each
    speed is worked out, not the speed of each pressure: there is nothing to solve.

    >>> value, low, high = curves(Line(0.004318, 3.0, 1.5e-6, 0.5), 4e5, Known(bore=0.02))
    >>> [round(curve[-1][1] * 6e4, 1) for curve in (low, value, high)]
    [5.3, 5.7, 6.1]
    """
    known = replace(known, pressure=0.0)
    start, end = pipe.speeds(line, 0.0), pipe.speeds(line, top)
    return (
        _curve(line, top, (start.value, end.value), pipe.darcy, 0.0, known),
        _curve(line, top, (start.low, end.low), lambda *at: pipe.darcy_range(*at)[1], -K, known),
        _curve(line, top, (start.high, end.high), lambda *at: pipe.darcy_range(*at)[0], K, known),
    )


def _curve(
    line: Line, top: float, ends: Point, friction: Callable[[float, float], float], wider: float, known: Known
) -> tuple[Point, ...]:
    def flow(speed: float) -> float:
        wide = wider and wider * expected_u(line, speed, known)
        return max(0.0, speed * line.area * (1 + wide))

    def point(speed: float) -> Point:
        takes = friction(*_relative(line, speed)) * line.length / line.bore + line.fittings + 1
        return line.lift + takes * line.head(speed), flow(speed)

    between = (point(v) for v in _steps(line, *ends))
    return (max(0.0, line.lift), flow(ends[0])), *between, (top, flow(ends[1]))


def _steps(line: Line, first: float, last: float) -> list[float]:
    """Speeds between two, and those beside the borders where the kind of flow changes."""
    even = [first + (last - first) * i / STEPS for i in range(1, STEPS)]
    borders = [line.speed(r) * s for r in (pipe.LAMINAR_TO, pipe.TURBULENT_FROM) for s in (1 - BESIDE, 1 + BESIDE)]
    return sorted(even + [v for v in borders if first < v < last]) if last > first else []
