"""Units, against the package pint, and what is never confused."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators import units as calculator
from calculators._lib import entry, kinds, units
from calculators._lib.amounts import METRIC, US, Choice, preferred
from calculators._lib.declare import Input
from calculators._lib.text_in import read

REGISTRY = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
PINT = {
    "%": "percent", "ohm": "ohm", "kohm": "kiloohm", "Mohm": "megaohm", "V": "volt", "mV": "millivolt", "kV": "kilovolt",
    "A": "ampere", "mA": "milliampere", "W": "watt", "kW": "kilowatt", "BTU/h": "Btu_it/hour", "kJ": "kilojoule",
    "J": "joule", "Wh": "watt_hour", "kWh": "kilowatt_hour", "BTU": "Btu_it", "L/min": "liter/minute",
    "gal/min": "US_liquid_gallon/minute", "mL/s": "milliliter/second", "mL/min": "milliliter/minute", "L/h": "liter/hour",
    "m³/h": "meter**3/hour", "UK gal/min": "imperial_gallon/minute", "L/day": "liter/day",
    "gal/day": "US_liquid_gallon/day", "mL": "milliliter", "US fl oz": "US_fluid_ounce", "L": "liter",
    "US qt": "US_liquid_quart", "US gal": "US_liquid_gallon", "UK gal": "imperial_gallon", "s": "second",
    "min": "minute", "h": "hour", "kPa": "kilopascal", "bar": "bar", "psi": "psi", "MPa": "megapascal",
    "mbar": "millibar", "atm": "atm", "kPa abs": "kilopascal", "bar abs": "bar", "psi abs": "psi", "m": "meter",
    "ft": "foot", "cm": "centimeter", "mm": "millimeter", "in": "inch", "mil": "thou", "g": "gram", "oz": "ounce",
    "kg": "kilogram", "lb": "pound", "kg/day": "kilogram/day", "lb/day": "pound/day", "W/m²K": "watt/meter**2/kelvin",
    "W/mK": "watt/meter/kelvin", "m water": "9.80665 * kilopascal", "ft water": "9.80665 * 0.3048 * kilopascal",
    "BTU/h ft² °F": "Btu_it/hour/foot**2/delta_degF", "BTU/h ft °F": "Btu_it/hour/foot/delta_degF",
}  # fmt: skip
"""What pint calls the units, where its name is not known from ours."""
LINEAR = [k for k in kinds.KINDS if k not in (kinds.TEMPERATURE, kinds.DIFFERENCE)]
PAIRS = [(k, u) for k in LINEAR for u in k.units]
amounts = st.floats(1e-3, 1e6)


@pytest.mark.parametrize(("kind", "unit"), PAIRS, ids=lambda v: v.name if isinstance(v, kinds.Kind) else v.text)
@settings(deadline=None, max_examples=10)
@given(value=amounts)
def test_a_value_converts_as_pint_converts_it(kind: kinds.Kind, unit: Choice, value: float) -> None:
    expected = (value * REGISTRY(PINT[unit.text])).to(REGISTRY(PINT[kind.units[0].text]).units).magnitude
    assert unit.to_base(value) == pytest.approx(expected, rel=1e-9)


@settings(deadline=None)
@given(st.floats(-273.0, 500.0))
def test_temperatures_and_differences_convert_as_pint_converts_them(value: float) -> None:
    fahrenheit = REGISTRY.Quantity(value, "degC").to("degF").magnitude
    assert units.CELSIUS[1].to_base(fahrenheit) == pytest.approx(value, abs=1e-9)
    step = REGISTRY.Quantity(value, "delta_degC").to("delta_degF").magnitude
    assert units.KELVIN_STEP[1].to_base(step) == pytest.approx(value, abs=1e-9)


@given(st.sampled_from(kinds.UNITS), amounts)
def test_there_and_back_is_the_same(of: tuple[kinds.Kind, Choice], value: float) -> None:
    assert of[1].from_base(of[1].to_base(value)) == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize("kind", kinds.KINDS, ids=lambda k: k.name)
def test_every_spelling_means_one_unit_of_its_kind(kind: kinds.Kind) -> None:
    spellings = [s for u in kind.units for s in (u.text, *u.also)]
    assert len(spellings) == len(set(spellings))
    to = Input("value", "Value", kind.units)
    for unit in kind.units:
        for spelling in (unit.text, *unit.also):
            assert read(f"2 {spelling}", to).value == unit.to_base(2.0), spelling


@pytest.mark.parametrize("kind", kinds.KINDS, ids=lambda k: k.name)
def test_the_first_unit_is_the_base_and_only_temperatures_have_another_zero(kind: kinds.Kind) -> None:
    assert (kind.units[0].factor, kind.units[0].offset) == (1.0, 0.0)
    assert any(u.offset for u in kind.units) == (kind is kinds.TEMPERATURE)
    systems = {u.system for u in kind.units}
    assert (METRIC in systems) <= (US in systems)


@pytest.mark.parametrize(
    "tuples",
    [(units.LENGTH, units.BORE, 1e3), (units.KILOGRAM, units.GRAM, 1e3), (units.SECOND, units.HOUR, 1 / 3600)],
)
def test_the_same_unit_is_worth_the_same_in_another_base(tuples: tuple) -> None:
    ones, others, times = tuples
    for unit in ones:
        same = [o for o in others if o.text == unit.text]
        assert not same or same[0].factor == pytest.approx(unit.factor * times)


def test_a_reader_gets_their_own_unit() -> None:
    assert [preferred(units.PRESSURE, s).text for s in (METRIC, US)] == ["bar", "psi"]
    assert [preferred(units.BORE, s).text for s in (METRIC, US)] == ["mm", "in"]


@settings(deadline=None)
@given(
    st.text(max_size=12) | st.text("0123456789.,-+−e/½ kPasigbrLmnol°CF", max_size=12),
    st.sampled_from([o.text for o in calculator.CALCULATOR.input("unit").options]) | st.text(max_size=4),
)
def test_no_text_gives_anything_but_a_value_or_a_refusal(text: str, unit: str) -> None:
    got = entry.answer_to("units", {"fields": {"value": text, "unit": unit}})
    if got["refused"]:
        assert got["value"] is None
        assert all(r["field"] in ("value", "unit") and r["message"] for r in got["refused"])
    else:
        assert abs(got["value"]) < 1e18
        assert text.strip()
