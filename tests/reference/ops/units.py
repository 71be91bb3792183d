"""Values in one unit, in another."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import units
from calculators._lib.amounts import Choice
from tests.reference.ops.columns import Got, Robust, Row, number

Kind = tuple[Choice, ...]

NAMES = {
    "gallon/minute": "gal/min",
    "liter/minute": "L/min",
    "meter**3/hour": "m³/h",
    "milliliter/second": "mL/s",
    "degC": "°C",
    "degF": "°F",
    "delta_degC": "°C",
    "delta_degF": "°F",
    "inch": "in",
    "millimeter": "mm",
    "foot": "ft",
    "meter": "m",
    "US_fluid_ounce": "US fl oz",
    "milliliter": "mL",
    "pound": "lb",
    "kilogram": "kg",
}
"""What the file calls a unit, and what it is called here."""
KINDS = (units.PRESSURE, units.LITRES_A_MINUTE, units.CELSIUS, units.LENGTH, units.MILLILITRE, units.KILOGRAM)


def _converted(row: Row, kind: Kind) -> float:
    source, target = (_unit(kind, row[column]) for column in ("unit_in", "unit_out"))
    return target.from_base(source.to_base(number(row, "value_in")))


def _unit(kind: Kind, text: str) -> Choice:
    return next(u for u in kind if u.text == NAMES.get(text, text))


def _has(kind: Kind, *texts: str) -> bool:
    return {NAMES.get(t, t) for t in texts} <= {u.text for u in kind}


def _convert(row: Row) -> Got:
    kind = next(k for k in KINDS if _has(k, row["unit_in"], row["unit_out"]))
    return {"exp_value": _converted(row, kind)}


def _convert_delta(row: Row) -> Got:
    return {"exp_value": _converted(row, units.KELVIN_STEP)}


def _gauge_to_absolute(row: Row) -> Got:
    pressure = _unit(units.PRESSURE, row["unit_in"]).to_base(number(row, "value_in"))
    return {"exp_value": _unit(units.ABSOLUTE, f"{row['unit_out']} abs").from_base(units.absolute(pressure))}


OPERATIONS: dict[str, Callable[[Row], Got]] = {
    "convert": _convert,
    "convert_delta": _convert_delta,
    "gauge_to_absolute": _gauge_to_absolute,
}

ROBUST = Robust("units", columns={"value": "value"}, fields={"value": "1", "unit": "L"})
