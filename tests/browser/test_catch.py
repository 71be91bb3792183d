"""A measurement of several fields, done several times: a catch is water and time."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from hooks.page import bundle
from tests.browser.framed import CALCULATE, FRAME, JOB, PHONE, SMALL, TABLET, Go, at  # noqa: F401
from tests.pages.drawn import PUMP, draw

CATCH = PUMP.replace("label: Coil\n", "label: Flow\n").replace("unit: ohm\n", "unit: L/min\n")
CATCH = CATCH.replace("limits: [100, 500]\n", "at-least: 1.9\n").replace("calculator: coil", "calculator: flow")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("catch")
    (folder / "bench.css").write_text(bundle.css(["body.plain { margin: 0; }"]), "utf-8")
    (folder / "bench.js").write_text(bundle.js([CALCULATE, *JOB]), "utf-8")
    (folder / "catch.html").write_text(FRAME.format(draw(CATCH).html), "utf-8")
    return folder


def fields(page: Page) -> list[str]:
    return page.locator("#measure .entry label").all_inner_texts()


def type_in(page: Page, *texts: str) -> None:
    for index, text in enumerate(texts):
        page.locator("#measure .entry input").nth(index).fill(text)


def test_water_and_time_are_judged_together(at: Go) -> None:
    page = at("catch.html#measure")
    assert fields(page) == ["Water caught", "Time"]
    type_in(page, "1000")
    expect(page.locator("#measure .empty")).to_be_visible()
    type_in(page, "1000", "28.4")
    expect(page.locator("#measure .verdict .word")).to_have_text("IN LIMITS")
    expect(page.locator("#measure .verdict .sentence")).to_have_text("2.11 ± 0.04 L/min is at least 1.9.")
    expect(page.locator("#measure .picture > svg")).to_be_visible()
    expect(page.locator("#measure .notes")).to_contain_text("One catch only")


def test_a_catch_more_is_a_row_more(at: Go) -> None:
    page = at("catch.html#measure")
    for _ in range(2):
        page.locator("[data-again]").click()
    assert fields(page) == ["Water caught", "Time", "Water caught, 2", "Time, 2", "Water caught, 3", "Time, 3"]
    assert page.locator("#measure .entry input:focus").get_attribute("name") == "volumes"
    type_in(page, "500", "30.1", "505", "30.4", "498", "29.9")
    expect(page.locator("#measure .verdict .sentence")).to_have_text("1.00 ± 0.03 L/min is below 1.9.")


def test_a_row_that_is_left_empty_is_no_catch(at: Go) -> None:
    page = at("catch.html#measure")
    page.locator("[data-again]").click()
    type_in(page, "1000", "28.4")
    expect(page.locator("#measure .verdict .word")).to_have_text("IN LIMITS")


def test_water_without_its_time_is_said(at: Go) -> None:
    page = at("catch.html#measure")
    page.locator("[data-again]").click()
    type_in(page, "1000", "28.4", "990")
    expect(page.locator("#measure .why")).to_have_text("Time: nothing is typed in row 2.")
    assert page.locator("#good .way.main").count() == 0


def test_a_unit_that_is_picked_counts(at: Go) -> None:
    page = at("catch.html#measure")
    type_in(page, "1", "28.4")
    expect(page.locator("#measure .verdict .word")).to_have_text("BELOW LIMITS")
    page.locator("#measure .entry select").first.select_option("L")
    expect(page.locator("#measure .verdict .word")).to_have_text("IN LIMITS")


@pytest.mark.parametrize("size", [TABLET, PHONE, SMALL], ids=str)
def test_all_digits_of_a_litre_and_its_seconds_are_seen(at: Go, page: Page, size: tuple[int, int]) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    at("catch.html#measure")
    page.locator("[data-again]").click()
    type_in(page, "1000", "28.4", "1010", "128.8")
    hidden = "inputs => inputs.filter(i => i.scrollWidth > i.clientWidth).map(i => i.value)"
    assert page.locator("#measure .entry input").evaluate_all(hidden) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]


@pytest.mark.parametrize(
    ("typed", "asked"),
    [("1; 1.01", "1 L; 1.01 L"), ("1000 mL; 1", "1000 mL; 1 L"), (" 1 ", "1 L"), ("", ""), ("1e-3", "1e-3 L")],
)
def test_each_of_several_values_in_a_field_has_the_unit_that_is_picked(at: Go, typed: str, asked: str) -> None:
    page = at("catch.html#measure")
    page.locator("#measure .entry select").first.select_option("L")
    type_in(page, typed)
    assert page.evaluate("typedText(document.querySelector('#measure .entry input'))") == asked
