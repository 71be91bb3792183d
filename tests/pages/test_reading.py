"""Readings that a calculator knows more of than the page: its own limits, several fields, another unit."""

from __future__ import annotations

from bs4 import Tag

from tests.pages.drawn import PUMP, draw, words

COIL = "label: Coil\nunit: ohm\nlimits: [100, 500]\ncalculator: coil\n"


def reading(facts: str) -> Tag:
    """The pump's reading with these facts in place of its own."""
    assert COIL in PUMP
    return draw(PUMP.replace(COIL, facts)).step("measure").select_one(".reading")


def test_limits_that_the_calculator_works_out_stand_beside_the_label_and_in_the_table() -> None:
    heater = reading("label: Heater\nunit: ohm\ncalculator: heater\ngiven: {volts: 120, watts: 185, plus: 10}\n")
    assert words(heater.select_one(".name")) == "Heater in ohm, limits 70.76 to 86.49"
    said = [words(td) for td in heater.select("tbody td")]
    assert said[said.index("In limits") - 1] == "71.6 to 85.5"


def test_coils_to_be_compared_have_a_field_each_with_its_label_and_a_key_for_open() -> None:
    coils = reading('label: Coils\nunit: "%"\nat-most: 10\ncalculator: coils\n')
    entries = coils.select(".entries .entry")
    assert [words(e.label) for e in entries] == ["Coil reading", "Coil reading, 2", "Coil reading, 3"]
    assert len({e.input["id"] for e in entries}) == 3
    assert all(e.label["for"] == e.input["id"] and e.input["name"] == "readings" for e in entries)
    assert all(e.select_one("[data-type=OL]") for e in entries)
    assert coils.select_one("[data-again]")


def test_ohms_that_are_judged_as_a_temperature_have_their_unit_to_choose() -> None:
    given = "given: {r25: 10k, b: 3977}\n"
    sensor = reading(f"label: Sensor\nunit: °C\nlimits: [15, 28]\ncalculator: sensor\n{given}")
    assert words(sensor.select_one(".name")) == "Sensor in °C, limits 15 to 28"
    assert [o.get_text() for o in sensor.select("select.unit option")][:2] == ["ohm", "kohm"]


def test_one_row_more_is_offered_only_where_all_that_stands_in_it_can_be_typed() -> None:
    flow = "label: Flow\nunit: L/min\nat-least: 2\ncalculator: flow\n"
    assert reading(flow).select_one("[data-again]")
    by_time = reading(flow + "given: {volumes: 1 L}\n")
    assert [e["name"] for e in by_time.select(".entries input")] == ["times"]
    assert by_time.select_one("[data-again]") is None
