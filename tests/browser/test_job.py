"""Working through a job: what is pressed is kept, the board follows what was really done, and nothing is ticked by accident."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.browser.conftest import Serve
from tests.browser.framed import FRAME, CALCULATE, JOB
from calculators._lib import entry
from hooks.page import bundle, procedure
from hooks.page.view import Links
from tests.pages.drawn import PUMP, draw
from tests.paths.test_before import looked_at

Job = Callable[..., Page]
CHANGED = PUMP.replace("revision: 2", "revision: 3").replace("Pull the plug.", "Pull the plug, and look at it.")
TO_WORK = ("Yes", "Next", "Proved", "Proved", "Next")
"""The ways out from the first step of the pump P1 to the step after the first one with hands in."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "bench.css").write_text(bundle.css(["body.plain { margin: 0; }"]), "utf-8")
    (tmp_path / "bench.js").write_text(bundle.js([CALCULATE, *JOB]), "utf-8")
    for name, text in {"pump": PUMP, "pump-check": PUMP.replace("id: pump", "id: pump-check")}.items():
        (tmp_path / f"{name}.html").write_text(FRAME.format(draw(text).html), "utf-8")
    return tmp_path


@pytest.fixture
def start(folder: Path, serve: Serve, context: BrowserContext) -> Job:
    """Begin a job on the pump; `model` picks it."""
    base = serve(folder)

    def begin(model: str = "P1", page: str = "pump") -> Page:
        tab = context.new_page()
        tab.expose_function("ask", entry.answer)
        tab.set_viewport_size({"width": 820, "height": 1180})
        tab.goto(f"{base.rstrip('/')}/{page}.html")
        tab.locator(f"form.begin [value={model}]").check()
        tab.fill("form.begin [name=place]", "Upper Hut")
        tab.locator("form.begin .way").click()
        opened(tab)
        return tab

    return begin


def opened(tab: Page) -> None:
    expect(tab.locator('[data-desk="open"]')).to_be_attached()


def at(tab: Page) -> str:
    return tab.locator(".step[data-open]").get_attribute("id")


def take(tab: Page, *ways: str) -> None:
    """Begin at the first step if need be, then press the ways out that begin with these words."""
    if not tab.locator(".step[data-open]").count():
        tab.locator(".start .way").click()
    for way in ways:
        before = at(tab)
        tab.locator(".step[data-open] .ways .way", has_text=way).first.click()
        expect(tab.locator(f"#{before}")).not_to_have_attribute("data-open", "")


def board(tab: Page) -> list[str]:
    return [tab.locator(".board strong").inner_text(), *(" ".join(t.split()) for t in tab.locator(".board .line p").all_inner_texts())]


def events(tab: Page) -> list[list[object]]:
    return tab.evaluate("async () => (await stillbench.store.events(stillbench.desk.job.id)).map((e) => [e.kind, e.step ?? e.to ?? null])")


def test_a_job_needs_its_model_and_says_why(start: Job, folder: Path, context: BrowserContext) -> None:
    tab = start()
    tab.goto(tab.url.split("?")[0])
    tab.locator("form.begin .way").click()
    expect(tab.locator("form.begin .why")).to_contain_text("Pick the model")
    expect(tab.locator(".open-jobs a")).to_contain_text("Upper Hut, P1")


def test_a_way_out_ticks_its_step_and_the_board_follows(start: Job) -> None:
    tab = start()
    assert board(tab)[0] == "HANDS OFF"
    take(tab, *TO_WORK[:2])
    assert board(tab) == ["HANDS OFF", "POWER off, NOT proved prove it: step 3", "WATER ON"]
    take(tab, "Proved")
    assert board(tab)[1].startswith("POWER proved off step 3 ")
    take(tab, "Proved")
    assert board(tab)[0] == "HANDS IN"
    assert at(tab) == "open"
    assert [kind for kind, _ in events(tab)] == ["begin", *["done"] * 6]
    assert tab.locator("#unplug .ticked").text_content().startswith("done ")


def test_steps_that_the_model_lacks_are_passed_over_and_it_is_said(start: Job) -> None:
    tab = start("P1")
    leads = tab.locator("#drain .ways .way").first
    expect(leads).to_contain_text(f"{tab.locator('#open').get_attribute('data-number')} {tab.locator('#open .title').text_content()}")
    take(tab, *TO_WORK[:4])
    assert tab.locator("#cool .ticked").text_content() == "not on P1"
    other = start("P2")
    take(other, *TO_WORK[:4])
    assert at(other) == "cool"


def test_what_was_done_folds_away_and_can_be_opened(start: Job) -> None:
    tab = start()
    take(tab, *TO_WORK)
    row = tab.locator(".fold-row").first
    expect(row).to_contain_text("1 to 7 done")
    expect(row).to_contain_text("power proved off")
    power = [one.get_attribute("class") for one in row.locator(".rail > svg:first-child > rect[class^=fill]").all()]
    assert power == ["fill-on", "fill-proved"]
    stage = tab.locator(".stage", has_text="Make it safe")
    expect(tab.locator("#unplug")).to_be_hidden()
    expect(stage).to_be_hidden()
    row.click()
    expect(tab.locator("#unplug")).to_be_visible()
    expect(stage).to_be_visible()


def test_hands_that_would_go_in_without_the_proofs_are_not_ticked(start: Job) -> None:
    tab = start()
    take(tab, "Yes")
    tab.evaluate("location.hash = '#open'")
    expect(tab.locator("#open")).to_have_attribute("data-open", "")
    assert board(tab)[0] == "HANDS OFF"
    tab.locator("#open .ways .way").click()
    expect(tab.locator("#open .unproved")).to_contain_text("power and water are not proved off")
    assert "done" not in [kind for kind, step in events(tab) if step == 7]
    tab.locator("[data-all-the-same]").click()
    take(tab, "Next")
    assert ["done", 7] in events(tab)
    assert "hands in without the proofs" in tab.locator("#open .ticked").text_content()


def test_on_a_page_that_counts_on_another_a_job_is_stopped_and_told_that_no_step_here_proves(
    folder: Path, serve: Serve, page: Page
) -> None:
    report, shop = looked_at()
    second = next(p.page for p in shop.pages if p.source.name == "second.md")
    html = procedure.render(second, report.analyses["second"], (), None, Links({"first": ("first.html", "Make it safe")}))
    (folder / "second.html").write_text(FRAME.format(html), "utf-8")
    page.expose_function("ask", entry.answer)
    page.goto(f"{serve(folder).rstrip('/')}/second.html")
    expect(page.locator("form.begin")).to_contain_text("takes no proof along")
    page.locator("form.begin .way").click()
    opened(page)
    page.locator("#swap .ways .way").click()
    expect(page.locator("#swap .unproved")).to_contain_text("power and water are not proved off. Nothing is ticked. No step of this page proves it")
    expect(page.locator("#swap .unproved .prove")).to_be_hidden()


def test_taking_a_tick_back_takes_back_what_it_made_safe_and_stays_to_be_seen(start: Job) -> None:
    tab = start()
    take(tab, *TO_WORK[:3])
    tab.locator(".bar .back").click()
    expect(tab.locator("#prove")).to_have_attribute("data-open", "")
    assert board(tab)[1].startswith("POWER off, NOT proved")
    assert tab.locator("#prove .ticked").text_content() == "taken back: do it again"


def test_looking_at_another_step_takes_nothing_back(start: Job) -> None:
    tab = start()
    take(tab, *TO_WORK[:3])
    tab.go_back()
    expect(tab.locator("#prove")).to_have_attribute("data-open", "")
    assert board(tab)[1].startswith("POWER proved off step 3")
    assert events(tab)[-1] == ["go", 3]


def test_a_reload_and_a_second_tab_show_the_job_where_it_stood(start: Job, context: BrowserContext) -> None:
    tab = start()
    take(tab, *TO_WORK[:3])
    said = board(tab)
    tab.reload()
    opened(tab)
    expect(tab.locator("#drain")).to_have_attribute("data-open", "")
    assert board(tab) == said
    other = context.new_page()
    other.expose_function("ask", entry.answer)
    other.goto(tab.url)
    opened(other)
    take(other, "Proved")
    expect(tab.locator("#drain .ticked")).to_contain_text("done")


def test_after_a_break_what_was_proved_is_proved_no_more_unless_one_stayed(start: Job, context: BrowserContext) -> None:
    tab = start()
    take(tab, *TO_WORK[:3])
    url = tab.url
    tab.close()
    tab = context.new_page()
    tab.expose_function("ask", entry.answer)
    tab.goto(url)
    opened(tab)
    expect(tab.locator(".strip.away")).to_contain_text("Prove it again: step 3")
    assert board(tab)[1].startswith("POWER off, NOT proved")
    tab.locator("[data-stayed]").click()
    expect(tab.locator(".strip.away")).to_be_hidden()
    assert board(tab)[1].startswith("POWER proved off step 3")
    assert [kind for kind, _ in events(tab)][-2:] == ["away", "stayed"]


def test_a_job_stays_on_the_page_with_which_it_began(start: Job, folder: Path) -> None:
    tab = start()
    take(tab, *TO_WORK[:2])
    (folder / "pump.html").write_text(FRAME.format(draw(CHANGED).html), "utf-8")
    tab.reload()
    opened(tab)
    expect(tab.locator(".strip.other")).to_contain_text("You work on revision 2 as it was then")
    assert "and look at it" not in tab.locator("#unplug .prose").text_content()
    take(tab, "Proved")
    assert board(tab)[1].startswith("POWER proved off step 3")


def test_a_job_of_another_revision_that_is_not_here_is_not_opened(start: Job, folder: Path) -> None:
    tab = start()
    take(tab, *TO_WORK[:4])
    tab.evaluate("""async () => {
        const opened = indexedDB.open("stillbench.jobs", 1);
        await new Promise((done) => (opened.onsuccess = done));
        const all = opened.result.transaction("pages", "readwrite");
        all.objectStore("pages").clear();
        await new Promise((done) => (all.oncomplete = done));
    }""")
    (folder / "pump.html").write_text(FRAME.format(draw(CHANGED).html), "utf-8")
    tab.reload()
    expect(tab.locator(".strip.apart")).to_be_visible()
    assert tab.locator("[data-desk]").get_attribute("data-desk") == "apart"
    assert tab.evaluate("stillbench.desk.record") is None
    expect(tab.locator(".board .arrival")).to_be_visible()


def test_a_job_that_is_not_on_this_device_is_said(start: Job) -> None:
    tab = start()
    tab.goto(tab.url.split("?")[0] + "?job=nobody#open")
    expect(tab.locator(".strip.missing")).to_be_visible()
    assert tab.locator(".strip.missing b").bounding_box()["x"] >= 16
    assert tab.locator("[data-desk]").get_attribute("data-desk") == "missing"


def test_a_time_is_told_with_its_day_unless_it_is_today(start: Job) -> None:
    told = start().evaluate("""() => {
        const early = new Date(2026, 0, 5, 7, 4).getTime();
        return [clock(early), when(early), when(new Date().setHours(0, 5))];
    }""")
    assert told == ["07:04", "2026-01-05 at 07:04", "today at 00:05"]


FAILS_AT_FIRST = """
  const real = IDBObjectStore.prototype.get;
  window.fails = true;
  IDBObjectStore.prototype.get = function (...given) {
    if (window.fails) throw new DOMException("Internal error.", "UnknownError");
    return real.apply(this, given);
  };
"""


def test_a_job_that_the_device_does_not_give_out_yet_is_not_said_to_be_missing(start: Job) -> None:
    tab = start()
    take(tab, *TO_WORK[:4])
    stood = at(tab)
    tab.add_init_script(FAILS_AT_FIRST)
    tab.reload()
    expect(tab.locator(".strip.trouble")).to_contain_text("This device does not answer. It is asked again")
    for unfit in (".strip.missing", ".strip.trouble [data-save]", ".board strong"):
        expect(tab.locator(unfit)).not_to_be_visible()
    tab.evaluate("window.fails = false")
    opened(tab)
    assert at(tab) == stood
    expect(tab.locator(".strip.trouble")).not_to_be_visible()


def test_a_job_ends_and_goes_on_on_the_page_that_its_end_names(start: Job) -> None:
    tab = start()
    take(tab, *TO_WORK)
    for way in ("Next", "In limits", "Next", "Next", "Next", "Next"):
        take(tab, way)
    assert at(tab) == "done"
    tab.locator("#done [data-ends]").click()
    expect(tab.locator("#done .to-sheet")).to_be_visible()
    assert events(tab)[-1] == ["end", 15]
    tab.locator("#done a[data-then]").click()
    opened(tab)
    assert "pump-check" in tab.url
    assert board(tab)[0] == "HANDS OFF"
    jobs = tab.evaluate("async () => (await stillbench.store.jobs()).map((j) => [j.page, j.place, j.end])")
    assert sorted(jobs) == [["pump", "Upper Hut", "in service"], ["pump-check", "Upper Hut", None]]


def test_two_tabs_that_act_at_once_show_the_same_in_the_order_in_which_it_was_kept(start: Job, context: BrowserContext) -> None:
    tab = start()
    take(tab, "Yes")
    other = context.new_page()
    other.expose_function("ask", entry.answer)
    other.goto(tab.url)
    opened(other)
    for one in (tab, other):
        one.evaluate("() => { for (let i = 0; i < 15; i += 1) setTimeout(() => stillbench.desk.act('note', { step: 2, text: `${i}` }), 3 * i); }")
    for one in (tab, other):
        one.wait_for_function("() => stillbench.desk.events.length >= 32")
        assert one.evaluate("stillbench.desk.events.map(({ n }) => n)") == list(range(32))
    assert len({one.evaluate("stillbench.desk.events.map(({ id }) => id).join()") for one in (tab, other)}) == 1


def test_nothing_takes_the_focus_once_a_job_has_led_on(start: Job) -> None:
    tab = start()
    take(tab, "Yes")
    tab.evaluate("addEventListener('hashchange', () => { window.late = true; })")
    take(tab, "Next")
    assert at(tab) == tab.url.partition("#")[2] == "prove"
    tab.locator("#prove .ways .way").last.focus()
    tab.wait_for_timeout(100)
    assert tab.evaluate("[window.late ?? false, document.activeElement.matches('#prove .ways .way')]") == [False, True]


def test_two_presses_in_a_hurry_are_one(start: Job) -> None:
    tab = start()
    take(tab)
    tab.locator(".step[data-open] .ways .way").first.dblclick()
    tab.wait_for_timeout(300)
    assert [step for kind, step in events(tab) if kind == "done"] == [1]
