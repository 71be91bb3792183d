"""A step of a job for everyone: nothing moves, nothing runs off, large enough for a glove, access rules kept."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.bench import Begin, begin, events, folder, go, take  # noqa: F401
from tests.browser.framed import SIZES, SMALL, TABLET
from tests.browser.test_job_photos import camera
from tests.browser.test_job_photos import take as photograph

AXE = Path(__file__).parents[2] / "node_modules/axe-core/axe.min.js"
PLACE = "(one) => one.getBoundingClientRect().y + scrollY"
SMALL_ONES = """() => [...document.querySelectorAll('.step[data-open] :is(button, summary, textarea, .shoot, .words), .bar :is(a, button)')]
  .filter((e) => e.offsetParent && (e.offsetHeight < 44 || e.offsetWidth < 44)).map((e) => e.outerHTML)"""


def busy(tab: Page) -> Page:
    """A step with a watch that runs, a changed reading, a photo and a note, while another step waits."""
    go(tab, "drain").locator("#drain [data-count=start]").click()
    go(tab, "measure").locator("[data-watch=run]").first.click()
    field = tab.locator("#measure").get_by_label("Coil in ohm")
    for text in ("298", "312"):
        field.fill(text)
        field.blur()
        expect(tab.locator("#measure .verdict .sentence").first).to_contain_text(text)
    photograph(tab, camera(tab, 400, 300))
    tab.locator("#measure .note summary").click()
    return tab


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_a_step_at_work_fits_and_can_be_pressed_with_a_glove(begin: Begin, size: tuple[int, int]) -> None:
    tab = busy(begin(size=size))
    assert tab.evaluate("document.documentElement.scrollWidth") <= size[0]
    assert tab.evaluate(SMALL_ONES) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_step_at_work_keeps_the_access_rules(begin: Begin, scheme: str) -> None:
    tab = busy(begin())
    tab.evaluate(f"document.documentElement.dataset.scheme = '{scheme}'")
    tab.add_style_tag(content="body { background: var(--paper); }")
    tab.add_script_tag(path=AXE)
    frame_rules = {"landmark-one-main": {"enabled": False}, "region": {"enabled": False}}
    found = tab.evaluate("(rules) => axe.run(document, { rules })", frame_rules)
    assert len(found["passes"]) > 10
    assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []


@pytest.mark.parametrize("size", [TABLET, SMALL], ids=str)
def test_nothing_moves_when_a_watch_or_a_wait_runs_or_a_reading_is_changed(begin: Begin, size: tuple[int, int]) -> None:
    tab = begin("drain", size=size, clock="2026-11-02T12:00:00")
    ways = tab.locator("#drain .ways")
    before = ways.evaluate(PLACE)
    tab.locator("#drain [data-count=start]").click()
    expect(tab.locator("#drain .wait .left")).to_contain_text("left")
    assert ways.evaluate(PLACE) == before
    ways = go(tab, "measure").locator("#measure .ways")
    field = tab.locator("#measure").get_by_label("Coil in ohm")
    field.fill("298")
    field.blur()
    expect(tab.locator("#measure .verdict .sentence").first).to_contain_text("298")
    before = ways.evaluate(PLACE)
    press = tab.locator("#measure [data-watch=run]").first
    press.click()
    expect(press).to_have_text("Stop")
    assert ways.evaluate(PLACE) == before
    tab.clock.fast_forward(28_400)
    press.click()
    expect(press).to_have_text("Start watch")
    field.fill("312")
    field.blur()
    expect(tab.locator("#measure .past").first).to_contain_text("was 298")
    assert ways.evaluate(PLACE) == before


def test_what_runs_by_the_clock_does_not_talk_all_the_time(begin: Begin) -> None:
    tab = busy(begin())
    live = "(all) => all.filter((one) => one.closest('[aria-live]:not([aria-live=off]), [role=status], [role=alert]')).length"
    clocks = tab.locator(".ran, .wait .left, .bar .time, .bar .waits")
    assert clocks.count() >= 4
    assert clocks.evaluate_all(live) == 0


def test_the_watch_and_the_photo_are_reached_by_the_keyboard(begin: Begin) -> None:
    tab = begin("measure")
    tab.locator("#measure [data-watch=run]").first.focus()
    tab.keyboard.press("Enter")
    expect(tab.locator("#measure [data-watch=run]").first).to_have_text("Stop")
    tab.keyboard.press("Space")
    expect(tab.locator("#measure [data-watch=run]").first).to_have_text("Start watch")
    tab.locator("#measure .ways .way").last.focus()
    tab.keyboard.press("Tab")
    assert tab.evaluate("document.activeElement.type") == "file"
    assert events(tab, "timer-stop")
