"""Every state of a job on the page: the rules of access, large text, narrow screens, large things to press, the keyboard alone."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.bench import Begin, begin, events, folder, go, opened, take  # noqa: F401
from tests.browser.test_access import AXE, LARGE

TO_WORK = ("Yes", "Next", "Proved", "Proved", "Next")
"""From the first step to the one after the first with hands in."""
GONE = """async () => {
  const jobs = await new Promise((done) => (indexedDB.open("stillbench.jobs").onsuccess = (e) => done(e.target.result)));
  const all = jobs.transaction("pages", "readwrite");
  all.objectStore("pages").clear();
  await new Promise((done) => (all.oncomplete = done));
}"""
SMALL = """() => { const outer = (e, side) => Math.max(side === "height" ? e.offsetHeight : e.offsetWidth, parseFloat(getComputedStyle(e, "::after")[side]) || 0); return [...document.querySelectorAll('.job :is(a, button, select, summary, textarea, input:not([type=radio], [type=file])), .job .pick label')]
    .filter((e) => e.checkVisibility({ visibilityProperty: true }) && !e.closest('.vh, .prose, .board.low'))
    .filter((e) => outer(e, 'height') < 44 || outer(e, 'width') < 44).map((e) => e.outerHTML.slice(0, 200)); }"""
"""What is pressed and is too small; a link in the board is pressed on its rim too."""


def before(tab: Page) -> None:
    tab.goto(tab.url.split("?")[0])
    expect(tab.locator(".open-jobs a")).to_be_visible()


def running(tab: Page) -> None:
    take(tab, "Yes")


def hands_off(tab: Page) -> None:
    take(tab, "Yes", "Next")


def hands_in(tab: Page) -> None:
    take(tab, *TO_WORK)
    expect(tab.locator(".board strong")).to_have_text("HANDS IN")


def taken_back(tab: Page) -> None:
    take(tab, *TO_WORK[:3])
    tab.locator(".bar .back").click()
    expect(tab.locator("#prove .ticked")).to_contain_text("taken back")


def unproved(tab: Page) -> None:
    take(tab, "Yes")
    go(tab, "open").locator("#open .ways .way").click()
    expect(tab.locator("#open .unproved")).to_be_visible()
    expect(tab.locator("#open .known")).to_be_hidden()


def away(tab: Page) -> None:
    take(tab, *TO_WORK[:3])
    tab.evaluate("stillbench.desk.act('away', { since: Date.now() })")
    expect(tab.locator(".strip.away")).to_be_visible()


def apart(tab: Page) -> None:
    take(tab, "Yes")
    tab.evaluate(GONE)
    tab.route("**/bench.html*", _changed)
    tab.reload()
    expect(tab.locator(".strip.apart")).to_be_visible()


def _changed(route: Route) -> None:
    got = route.fetch()
    route.fulfill(response=got, body=got.text().replace('"digest":"', '"digest":"0').replace('"digest": "', '"digest": "0'))


def missing(tab: Page) -> None:
    tab.goto(tab.url.split("?")[0] + "?job=nobody#open")
    expect(tab.locator(".strip.missing")).to_be_visible()


def folds_opened(tab: Page) -> None:
    take(tab, *TO_WORK)
    for row in tab.locator(".fold-row").all():
        row.click()
    expect(tab.locator("#unplug")).to_be_visible()


def ended(tab: Page) -> None:
    go(tab, "done").locator("#done [data-ends]").click()
    expect(tab.locator("#done .to-sheet")).to_be_visible()


STATES = (before, running, hands_off, hands_in, taken_back, unproved, away, apart, missing, folds_opened, ended)
State = Callable[[Page], None]
states = pytest.mark.parametrize("state", STATES, ids=lambda state: state.__name__)


def reach(begin: Begin, state: State, size: tuple[int, int] = (820, 1180)) -> Page:
    """A new job, brought into a state."""
    tab = begin(size=size)
    state(tab)
    return tab


@states
def test_access_rules_are_kept_in_every_state_light_and_dark(state: State, begin: Begin) -> None:
    tab = reach(begin, state)
    tab.add_style_tag(content="body { background: var(--paper); }")
    tab.add_script_tag(path=AXE)
    for scheme in ("light", "dark"):
        tab.evaluate(f"document.documentElement.dataset.scheme = '{scheme}'")
        rules = {"landmark-one-main": {"enabled": False}, "region": {"enabled": False}}
        found = tab.evaluate("(rules) => axe.run(document, { rules })", rules)
        assert len(found["passes"]) > 10
        assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []


@states
def test_a_narrow_screen_and_large_text_move_nothing_to_the_side_and_all_is_large_enough(state: State, begin: Begin) -> None:
    tab = reach(begin, state)
    assert tab.evaluate(SMALL) == []
    tab.set_viewport_size({"width": 320, "height": 640})
    assert tab.evaluate("document.documentElement.scrollWidth") <= 320
    assert tab.evaluate(SMALL) == []
    tab.set_viewport_size({"width": 820, "height": 1180})
    tab.add_style_tag(content=LARGE)
    assert tab.evaluate("document.documentElement.scrollWidth") <= 820


def reached(tab: Page, selector: str) -> None:
    """Press Tab until the focus is there; never more often than a patient hand would."""
    for _ in range(60):
        if tab.evaluate("(selector) => document.activeElement.matches(selector)", selector):
            return
        tab.keyboard.press("Tab")
    raise AssertionError(f"{selector} is not reached by the keyboard")


def uncovered(tab: Page) -> None:
    """What has the focus is not under the board or the bar."""
    place, board, bar = (tab.locator(which).bounding_box() for which in (":focus", ".board", ".bar"))
    assert board["y"] + board["height"] <= place["y"] + 1 and place["y"] + place["height"] <= bar["y"] + 1


def test_a_job_is_done_by_the_keyboard_alone(begin: Begin) -> None:
    tab = begin()
    for step, verdict in (("hum", ""), ("unplug", ""), ("prove", "proved"), ("drain", "proved"), ("open", "")):
        expect(tab.locator(f"#{step}")).to_have_attribute("data-open", "")
        reached(tab, f"#{step} .ways .way" + (f'[data-verdict="{verdict}"]' if verdict else ""))
        uncovered(tab)
        tab.keyboard.press("Enter")
    expect(tab.locator("#measure")).to_have_attribute("data-open", "")
    reached(tab, "#measure .field input")
    tab.keyboard.type("312")
    expect(tab.locator("#measure .judged-now .word").first).to_have_text("IN LIMITS")
    for step in ("measure", "good", "close", "tap-on", "catch", "plug-in"):
        expect(tab.locator(f"#{step}")).to_have_attribute("data-open", "")
        reached(tab, f"#{step} .ways .way")
        tab.keyboard.press("Enter")
    reached(tab, "#done [data-ends]")
    tab.keyboard.press("Enter")
    reached(tab, "#done .to-sheet")
    assert [e["step"] for e in events(tab, "end")] == [15]
