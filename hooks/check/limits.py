"""The limits that a reading is judged by: the page's own, or those that its calculator works out."""

from __future__ import annotations

from calculators._lib import fields, shelf
from calculators._lib.declare import Refusal
from hooks.model import Reading

Bounds = tuple[float | None, float | None]


def bounds(reading: Reading) -> Bounds:
    """Lower and upper limit in the unit of the reading; None where there is none."""
    calculator = shelf.get(reading.calculator or "")
    if calculator is None or reading.low is not None or reading.high is not None:
        return reading.low, reading.high
    try:
        found = fields.own_limits(calculator, dict(reading.given), {"unit": reading.unit})
    except Refusal:
        return None, None
    low, high = (v if v is None else found.unit.from_base(v) for v in (found.low, found.high))
    return low, high
