"""The calculators there are. A new one is one line here."""

from __future__ import annotations

from calculators import (
    coil, coils, drip, fill, flow, frame, heater, ice, pressure, sensor, supply, thermistor, units, valve,
)  # fmt: skip
from calculators._lib.declare import Calculator

_MODULES = (
    coil, coils, drip, fill, flow, frame, heater, ice, pressure, sensor, supply, thermistor, units, valve,
)  # fmt: skip
_SHELF = {m.CALCULATOR.id: m.CALCULATOR for m in _MODULES}


def get(calculator_id: str) -> Calculator | None:
    """The calculator of that id."""
    return _SHELF.get(calculator_id)


def ids() -> tuple[str, ...]:
    """The ids of all calculators, in order."""
    return tuple(sorted(_SHELF))
