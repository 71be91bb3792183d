"""A reading in a browser: judged, seen with its way out, typed over, remembered."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import Page, expect

from tests.browser.framed import PHONE, TABLET, Go, at, site  # noqa: F401

READINGS = ("312", "560", "101", "0.2", "OL", "12,5", "3l2")


def test_a_reading_is_judged_and_its_way_out_comes_first_and_filled(at: Go) -> None:
    page = at("pump.html#measure")
    page.get_by_label("Coil in ohm").fill("312")
    expect(page.locator("#measure .verdict .word")).to_have_text("IN LIMITS")
    assert "is between 100 and 500" in page.locator("#measure .verdict .sentence").inner_text()
    page.locator("#measure .way").click()
    arms = page.locator("#good .way")
    assert arms.first.inner_text().startswith("In limits") and "main" in arms.first.get_attribute("class")
    assert page.locator("#good .way.main").count() == 1
    assert "IN LIMITS" in page.locator("#good .judged").inner_text()


@pytest.mark.parametrize(("typed", "lead"), [("900", "Out of limits"), ("20", "Out of limits"), ("100", "Too close")])
def test_a_new_reading_moves_the_filled_arm(at: Go, typed: str, lead: str) -> None:
    page = at("pump.html#measure")
    field = page.get_by_label("Coil in ohm")
    field.fill("312")
    expect(page.locator("#measure .verdict .word")).to_have_text("IN LIMITS")
    field.fill(typed)
    expect(page.locator("#good .way.main")).to_contain_text(lead)
    field.fill("")
    expect(page.locator("#good .way.main")).to_have_count(0)


def test_a_reading_that_is_no_number_is_refused_beside_its_field(at: Go) -> None:
    page = at("pump.html#measure")
    page.get_by_label("Coil in ohm").fill("3l2")
    expect(page.locator("#measure .refused")).to_be_visible()
    assert page.locator("#measure .why").inner_text()
    assert page.locator("#measure .field input").get_attribute("aria-invalid") == "true"
    assert page.locator("#good .way.main").count() == 0


def test_an_old_verdict_does_not_stay_beside_a_new_reading(at: Go) -> None:
    page = at("pump.html#measure")
    page.get_by_label("Coil in ohm").fill("312")
    expect(page.locator("#measure .verdict .word")).to_have_text("IN LIMITS")
    page.evaluate("window.held = true")
    page.get_by_label("Coil in ohm").fill("900")
    expect(page.locator("#measure .waiting")).to_be_visible()
    expect(page.locator("#good .way.main")).to_have_count(0)


@pytest.mark.parametrize("size", [TABLET, PHONE], ids=str)
def test_nothing_moves_when_the_verdict_comes(at: Go, page: Page, size: tuple[int, int]) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    at("pump.html#measure")
    field = page.get_by_label("Coil in ohm")
    field.click()
    ways = page.locator("#measure .ways")
    before = ways.bounding_box()
    for typed in READINGS:
        field.fill(typed)
        expect(page.locator(".reading[data-state=judged], .reading[data-state=refused]")).to_be_visible()
        assert ways.bounding_box() == before, typed


@pytest.mark.parametrize("size", [TABLET, PHONE], ids=str)
def test_the_field_its_verdict_and_the_first_way_out_are_seen_together(at: Go, page: Page, size: tuple[int, int]) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    at("pump.html#measure")
    page.get_by_role("button", name="I did them all").click()
    page.get_by_label("Coil in ohm").click()
    top = page.locator(".board").bounding_box()
    bottom = page.locator(".bar").bounding_box()["y"]
    for part in (".reading label >> nth=0", ".field", ".verdict", ".way >> nth=0"):
        box = page.locator(f"#measure {part}").bounding_box()
        assert box["y"] >= top["y"] + top["height"] and box["y"] + box["height"] <= bottom, part


def test_a_key_types_what_a_pad_of_digits_has_not(at: Go) -> None:
    page = at("pump.html#measure")
    page.get_by_role("button", name="OL").click()
    expect(page.locator("#measure .verdict .sentence")).to_contain_text("open")
    expect(page.get_by_label("Coil in ohm")).to_have_value("OL")


def test_a_field_is_ready_to_be_typed_over(at: Go) -> None:
    page = at("pump.html#measure")
    field = page.get_by_label("Coil in ohm")
    field.fill("312")
    field.blur()
    field.focus()
    page.wait_for_function("getSelection().toString() === '312'")
    page.keyboard.type("56")
    expect(field).to_have_value("56")


def test_what_no_calculator_judges_is_said_again_where_it_is_decided(at: Go) -> None:
    page = at("flow.html#measure")
    page.get_by_label("Coil in ohm").fill("312")
    assert page.locator("[data-judged=coil] .word").text_content() == "312 ohm"
    page.get_by_label("Coil in ohm").fill(" ")
    assert page.locator("[data-judged=coil] .word").text_content() == "not read yet"


def test_my_meter_is_entered_once(at: Go) -> None:
    page = at("pump.html#measure")
    page.locator(".meter summary").click()
    page.get_by_label("percent of reading").fill("5")
    page.reload()
    page.get_by_label("Coil in ohm").fill("312")
    expect(page.locator("#measure .sentence")).to_contain_text("± 19")
    assert json.loads(page.evaluate("localStorage['stillbench.my-meter']")) == {"meter_pct": "5"}


def test_where_nothing_may_be_kept_my_meter_holds_while_the_page_is_open(at: Go, page: Page) -> None:
    page.add_init_script("Storage.prototype.setItem = Storage.prototype.getItem = () => { throw new Error('refused'); };")
    at("pump.html#measure")
    page.locator(".meter summary").click()
    page.get_by_label("percent of reading").fill("5")
    page.get_by_label("Coil in ohm").fill("312")
    expect(page.locator("#measure .sentence")).to_contain_text("± 19")
    assert page.get_by_label("percent of reading").input_value() == "5"
