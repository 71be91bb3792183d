"""An axis of a chart: round numbers in the reader's unit."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, log10

from calculators._lib.amounts import METRIC, Choice, preferred
from calculators._lib.words import number

PARTS = 5
"""An axis has no more steps than this, so that their numbers have room on a phone."""
LONG = 1e4
"""From here on a number is too long for the room beside an axis."""
LARGEST, LEAST = 1e12, 1e-9
"""Beyond the one nothing is shown; two values that are nearer than the other share are taken as one."""


@dataclass(frozen=True, slots=True)
class Axis:
    """What one axis shows, and from where to where, in the base unit of its units."""

    label: str
    units: tuple[Choice, ...]
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Scale:
    """One axis in the reader's unit, from a round number to a round number."""

    start: float
    end: float
    step: float
    label: str
    factor: float
    offset: float

    def share(self, value: float) -> float:
        """How far along the axis a value in the base unit lies: 0 at its start, 1 at its end."""
        shown = (value - self.offset) / self.factor
        return (shown - self.start) / (self.end - self.start)

    def ticks(self) -> list[tuple[float, str]]:
        """Share and number of every tick."""
        parts = round((self.end - self.start) / self.step)
        return [(i / parts, number(float(f"{self.start + i * self.step:.9g}") + 0.0)) for i in range(parts + 1)]


def scale(axis: Axis, system: str = METRIC, *more: float) -> Scale:
    """The axis in the units of that system, made long enough for `more` values too.

    >>> from calculators._lib.amounts import Choice
    >>> s = scale(Axis("Time", (Choice("h"),), 0.0, 4.3))
    >>> s.label, [words for _, words in s.ticks()]
    ('Time, h', ['0', '1', '2', '3', '4', '5'])
    """
    unit = _readable(axis, system)
    ends = [unit.from_base(v) for v in (axis.low, axis.high, *more) if usable(v)]
    low, high = min(ends), max(ends)
    if high - low <= LEAST * max(abs(low), abs(high), LEAST):
        high = low + (abs(low) if abs(low) > LEAST else 1.0)
    step = _step(high - low)
    label = f"{axis.label}, {unit.text}" if unit.text else axis.label
    start, end = floor(low / step + 1e-9) * step, ceil(high / step - 1e-9) * step
    return Scale(start, end, step, label, unit.factor, unit.offset)


def _readable(axis: Axis, system: str) -> Choice:
    """The reader's unit, or a larger one where its numbers would be too long to stand at an axis."""
    own = preferred(axis.units, system)
    most = max(abs(axis.low), abs(axis.high))
    larger = [u for u in axis.units if u.offset == 0 and u.system in ("", system) and 10 <= most / u.factor < LONG]
    return own if abs(own.from_base(most)) < LONG or not larger else max(larger, key=lambda u: most / u.factor)


def usable(*values: float) -> bool:
    """Whether these can be shown on an axis.

    >>> usable(1.0, -2e6), usable(float("nan")), usable(1e300)
    (True, False, False)
    """
    return all(abs(v) <= LARGEST for v in values)


def _step(width: float) -> float:
    power = 10.0 ** floor(log10(width / PARTS))
    return next(m * power for m in (1, 2, 5, 10) if m * power * PARTS >= width * (1 - 1e-9))
