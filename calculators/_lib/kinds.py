"""Kinds of quantity with all their units, and which of them a typed value is."""

from __future__ import annotations

from dataclasses import dataclass

from calculators._lib import units
from calculators._lib.amounts import METRIC, US, Choice, preferred
from calculators._lib.declare import Input, Refusal
from calculators._lib.text_in import read

NEGATIVE = "There is no less than nothing of it."
KNOWING = ("is less than", "can be measured", "can be read")
"""What a kind says of a value whose unit it knows."""


@dataclass(frozen=True, slots=True)
class Kind:
    """One quantity; the first unit is the base unit."""

    name: str
    units: tuple[Choice, ...]
    low: float | None = 0.0
    below: str = NEGATIVE
    suffix: str = ""
    """What tells its units from those of another kind that are written alike."""
    metric: tuple[str, ...] = ()
    us: tuple[str, ...] = ()
    """The units, small before large, in which a value is told first; empty: the reader's own unit."""

    def told(self, value: float) -> tuple[Choice, ...]:
        """In the metric and the US unit that give a number of a handy size; one where both are the same."""
        both = (self._handy(value, self.metric, METRIC), self._handy(value, self.us or self.metric, US))
        return both[:1] if both[0] is both[1] else both

    def _handy(self, value: float, texts: tuple[str, ...], system: str) -> Choice:
        sizes = [u for t in texts for u in self.units if u.text == t] or [preferred(self.units, system)]
        return next((u for u in reversed(sizes) if abs(u.from_base(value)) >= 1), sizes[0])


TEMPERATURE = Kind("temperature", units.CELSIUS, -273.15, "Nothing is so cold.")
DIFFERENCE = Kind("temperature difference", units.KELVIN_STEP, None, "", " difference")
PRESSURE = Kind("pressure", units.PRESSURE, -units.ATMOSPHERE, "No vacuum is so deep.")
ABSOLUTE = Kind("absolute pressure", units.ABSOLUTE)
KINDS = (
    TEMPERATURE,
    DIFFERENCE,
    PRESSURE,
    ABSOLUTE,
    Kind("flow", units.LITRES_A_MINUTE),
    Kind("flow a day", units.LITRES_A_DAY),
    Kind("volume", units.MILLILITRE, metric=("mL", "L"), us=("US fl oz", "US gal")),
    Kind("length", units.LENGTH, metric=("mm", "m"), us=("in", "ft")),
    Kind("weight", units.GRAM, metric=("g", "kg"), us=("oz", "lb")),
    Kind("weight a day", units.KILOGRAMS_A_DAY),
    Kind("time", units.SECOND, metric=("s", "min", "h")),
    Kind("resistance", units.OHM, metric=("ohm", "kohm", "Mohm")),
    Kind("voltage", units.VOLT, None, metric=("mV", "V", "kV")),
    Kind("current", units.AMPERE, None, metric=("mA", "A")),
    Kind("power", units.POWER, None, metric=("W", "kW"), us=("BTU/h",)),
    Kind("heat", units.ENERGY, None, metric=("J", "kJ", "kWh"), us=("BTU",)),
    Kind("film", units.HEAT_TRANSFER),
    Kind("conductivity", units.CONDUCTIVITY),
)
UNITS: tuple[tuple[Kind, Choice], ...] = tuple((kind, unit) for kind in KINDS for unit in kind.units)


def value_of(text: str, kind: Kind, bare: Choice | None = None) -> float:
    """The value in the base unit of that kind. Raises Refusal.

    >>> value_of("12,5 psi", PRESSURE)
    86.18446616460452
    """
    return read(text, Input("value", "Value", kind.units, low=kind.low, below=kind.below), bare).value


def recognised(text: str) -> tuple[Kind, float]:
    """The kind that the unit in the text belongs to, and the value. Raises Refusal where it says none, or two.

    A unit of both a temperature and a difference is taken as that of a temperature.

    >>> [(kind.name, value) for kind, value in map(recognised, ("2.0k", "6 in", "14 °F"))]
    [('resistance', 2000.0), ('length', 0.15239999999999998), ('temperature', -10.0)]
    """
    if _alone(text):
        raise Refusal("value", f"Value: say its unit too, “{text.strip()} psi”, or pick it.")
    found, refused = [], []
    for kind in KINDS:
        try:
            found.append((kind, value_of(text, kind)))
        except Refusal as refusal:
            refused.append(refusal.message)
    told = [m for m in refused if any(words in m for words in KNOWING)]
    if told or not found:
        raise Refusal("value", _why(text, told or refused))
    names = [kind.name for kind, _ in found]
    if len(found) > 1 and names != [TEMPERATURE.name, DIFFERENCE.name]:
        raise Refusal("value", f"Value: “{text.strip()}” can be {' or '.join(names)}. Pick its unit.")
    return found[0]


def _alone(text: str) -> bool:
    try:
        read(text, Input("value", "Value"))
    except Refusal:
        return False
    return True


def _why(text: str, reasons: list[str]) -> str:
    if len(set(reasons)) == 1:
        return reasons[0]
    return f"Value: “{text.strip()}” is in no unit that is known here."
