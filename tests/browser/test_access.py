"""A procedure for everyone: contrast and names, forced colours, large and spaced text, a finger in a glove."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.framed import PHONE, SIZES, SMALL, TABLET, Go, Serve, at, site  # noqa: F401

AXE = Path(__file__).parents[2] / "node_modules/axe-core/axe.min.js"
"""Checks a page against WCAG; `npm ci` lays it there."""
SPACED = "* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important }"
"""The text spacing that WCAG 1.4.12 asks a page to stand."""
LARGE = "html { font-size: 200% }"
TEXTS = [(TABLET, LARGE), (PHONE, LARGE), (TABLET, SPACED), (PHONE, SPACED), (SMALL, SPACED)]


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_a_jump_shows_the_message_below_the_board(at: Go, page: Page, size: tuple[int, int]) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    at("laundry.html#prove")
    message = page.locator("#prove .message").bounding_box()
    edge = page.locator(".board").bounding_box()
    assert message["y"] >= edge["y"] + edge["height"]
    assert message["y"] < size[1] / 2 + edge["height"] / 2


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("address", ["pump.html", "pump.html#measure", "laundry.html#prove", "customer.html"])
def test_nothing_runs_off_to_the_side(at: Go, page: Page, size: tuple[int, int], address: str) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    at(address)
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]


@pytest.mark.parametrize("address", ["pump.html", "pump.html#measure", "laundry.html#prove", "customer.html"])
def test_what_is_pressed_is_large_enough_for_a_glove(at: Go, address: str) -> None:
    small = at(address).evaluate("""() => [...document.querySelectorAll(
        'a.way, .bar a, .bar button, summary, .step h3 a, .field, .field button, .again a, .leaflet')]
        .filter((e) => e.offsetParent && (e.offsetHeight < 44 || e.offsetWidth < 44)).map((e) => e.outerHTML)""")
    assert small == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("address", ["pump.html", "pump.html#prove", "pump.html#measure", "customer.html"])
def test_access_rules_are_kept(at: Go, address: str, scheme: str) -> None:
    page = at(address)
    page.evaluate(f"document.documentElement.dataset.scheme = '{scheme}'")
    page.add_style_tag(content="body { background: var(--paper); }")
    page.add_script_tag(path=AXE)
    frame_rules = {"landmark-one-main": {"enabled": False}, "region": {"enabled": False}}
    found = page.evaluate("(rules) => axe.run(document, { rules })", frame_rules)
    assert len(found["passes"]) > 10
    assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []


def test_in_forced_colours_the_filled_arm_can_be_read(browser: Browser, site: Path, serve: Serve) -> None:
    context = browser.new_context(forced_colors="active")
    page = context.new_page()
    page.goto(f"{serve(site).rstrip('/')}/pump.html#open")
    colours = "(e) => [getComputedStyle(e).color, getComputedStyle(e.closest('.step')).backgroundColor]"
    text, ground = page.locator("#open .way.main").evaluate(colours)
    assert text != ground
    context.close()


@pytest.mark.parametrize(("size", "extra"), TEXTS)
def test_large_or_spaced_text_keeps_the_board_whole_and_the_page_readable(
    at: Go, page: Page, size: tuple[int, int], extra: str
) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    at("laundry.html#prove")
    page.add_style_tag(content=extra)
    page.locator("#prove h3 a").click()
    machine, word = page.locator(".machine").bounding_box(), page.locator(".machine strong").bounding_box()
    assert word["x"] + word["width"] <= machine["x"] + machine["width"]
    board, bar = page.locator(".board").bounding_box(), page.locator(".bar").bounding_box()
    assert bar["y"] - board["height"] >= size[1] / 3
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
