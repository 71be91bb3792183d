"""The calculators there are. A new one is one line here."""

from __future__ import annotations

from calculators import coil, drip, fill, flow
from calculators._lib.declare import Calculator

_SHELF = {c.id: c for c in (coil.CALCULATOR, drip.CALCULATOR, fill.CALCULATOR, flow.CALCULATOR)}


def get(calculator_id: str) -> Calculator | None:
    """The calculator of that id."""
    return _SHELF.get(calculator_id)


def ids() -> tuple[str, ...]:
    """The ids of all calculators, in order."""
    return tuple(sorted(_SHELF))
