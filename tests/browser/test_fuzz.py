"""Bad texts in every field of every form: an answer or a message beside the field, never silence, never zero."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Page

from calculators._lib import shelf
from tests.browser.conftest import Serve
from tests.browser.fuzzed import Shown, in_reading, on_own_page, texts

NO_NUMBER = [text for name, text in texts().items() if name in ("nan", "-inf", "text")]
BROKEN = re.compile(r"\b(nan|infinity|undefined|null|traceback|failed)\b", re.IGNORECASE)
READINGS = {
    "ice-cabinet/supply-line.html": {"tap-pressure": {"static": "4.2", "flowing": "3.6"}},
    "ice-cabinet/no-ice-double-valve.html": {"ice-coil": {"readings": "312"}, "fill": {"seconds": "7"}},
}
"""Readings of the demo's procedures, and good values for their fields."""


def faults(one: Shown) -> list[str]:
    """What a reader would not get."""
    told = " ".join((one.said, one.beside, one.elsewhere))
    rules = {
        "nothing is said": not one.said,
        "neither answer nor message": one.state not in ("judged", "refused", "empty"),
        "refused without a reason": one.state == "refused" and not (one.beside or one.elsewhere),
        "no number, and not said beside the field": one.text in NO_NUMBER and not (one.state == "refused" and one.beside),
        "empty, and judged all the same": one.wanted and not one.text and one.state == "judged",
        "asks for what is typed": one.state == "empty" and bool(one.text) and one.names in one.said.lower(),
        "does not say what is missing": one.state == "empty" and not one.text and one.names not in one.said.lower(),
        "a number that is none": bool(BROKEN.search(told.replace(f"“{one.text}", ""))),
    }
    return [rule for rule, broken in rules.items() if broken]


def found(shown: list[Shown]) -> list[tuple[list[str], Shown]]:
    return [(faults(one), one) for one in shown if faults(one)]


@pytest.mark.parametrize("id", shelf.ids())
def test_no_field_of_a_calculator_s_page_is_silent(id: str, demo_site: Path, serve: Serve, page: Page) -> None:
    page.goto(serve(demo_site) + f"calculators/{id}.html")
    shown = on_own_page(page, shelf.get(id))
    assert {one.field for one in shown} >= set(shelf.get(id).typed) - {i.name for i in shelf.get(id).inputs if i.options}
    assert {one.state for one in shown} >= {"judged", "refused"}
    assert found(shown) == []


@pytest.mark.parametrize(("address", "readings"), READINGS.items(), ids=READINGS)
def test_no_field_of_a_procedure_s_reading_is_silent(
    address: str, readings: dict[str, dict[str, str]], demo_site: Path, serve: Serve, page: Page
) -> None:
    page.goto(serve(demo_site) + address)
    for id, good in readings.items():
        shown = in_reading(page, id, good)
        assert {one.field for one in shown} >= set(good)
        assert {one.state for one in shown} >= {"judged", "refused"}
        assert found(shown) == []


def test_a_field_that_stays_silent_is_noticed() -> None:
    good = Shown("a", "Reading", "abc", True, "refused", "The reason stands at its field.", "Reading: no number.", "")
    assert faults(good) == []
    silent = replace(good, beside="")
    assert faults(silent) == ["refused without a reason", "no number, and not said beside the field"]
    assert faults(replace(good, text="", state="judged")) == ["empty, and judged all the same"]
    assert faults(replace(good, text="", state="empty", said="Type.")) == ["does not say what is missing"]
    assert faults(replace(good, text="0", state="judged", said="NaN ohm")) == ["a number that is none"]
