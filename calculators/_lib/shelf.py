"""The calculators there are. A new one is one line here: its import."""

from __future__ import annotations

from calculators import coil
from calculators import coils
from calculators import drip
from calculators import fill
from calculators import flow
from calculators import frame
from calculators import heater
from calculators import ice
from calculators import pressure
from calculators import sensor
from calculators import supply
from calculators import thermistor
from calculators import units
from calculators import valve
from calculators._lib.declare import Calculator

_FOUND = tuple(one.CALCULATOR for one in tuple(globals().values()) if hasattr(one, "CALCULATOR"))
_SHELF = {calculator.id: calculator for calculator in _FOUND}


def get(calculator_id: str) -> Calculator | None:
    """The calculator of that id."""
    return _SHELF.get(calculator_id)


def ids() -> tuple[str, ...]:
    """The ids of all calculators, in order."""
    return tuple(sorted(_SHELF))
