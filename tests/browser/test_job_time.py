"""Time in a job: the stopwatch, waits that count down, how long the machine has been without power."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.bench import TO_DRAIN, Begin, begin, events, folder, go, opened, reload, take  # noqa: F401

NOON = "2026-11-02T12:00:00"
LOCK = """
window.asked = [];
Object.defineProperty(Navigator.prototype, "wakeLock", { value: { request: (kind) => {
  asked.push(kind);
  window.lock = { released: false, release: () => (lock.released = true) };
  return Promise.resolve(lock);
} } });
"""


def watch(tab: Page) -> tuple[Locator, Locator]:
    """The press of the stopwatch beside the first time, and that field."""
    return tab.locator("#measure [data-watch=run]").first, tab.locator("#reading--flow--times")


def test_one_press_starts_the_watch_and_one_writes_the_time(begin: Begin) -> None:
    tab = begin("measure", clock=NOON)
    press, field = watch(tab)
    tab.clock.pause_at("2026-11-02T12:05:00")
    press.click()
    expect(press).to_have_text("Stop")
    tab.clock.run_for(28_400)
    expect(tab.locator("#measure .ran").first).to_have_text("28.4 s")
    press.click()
    expect(field).to_have_value("28.4")
    expect(press).to_have_text("Start watch")
    assert [e["kind"] for e in events(tab, "timer", "timer-stop")] == ["timer", "timer-stop"]
    assert events(tab, "timer-stop")[0]["seconds"] == 28.4


def test_a_time_of_whole_seconds_is_after_a_reload_as_the_watch_had_it(begin: Begin) -> None:
    tab = begin("measure", clock=NOON)
    press, field = watch(tab)
    tab.clock.pause_at("2026-11-02T12:05:00")
    press.click()
    expect(press).to_have_text("Stop")
    tab.clock.run_for(61_000)
    press.click()
    expect(field).to_have_value("61.0")
    tab.clock.resume()
    reload(tab)
    expect(field).to_have_value("61.0")


def test_a_running_watch_and_a_stopped_time_survive_a_reload(begin: Begin) -> None:
    tab = begin("measure", clock=NOON)
    press, field = watch(tab)
    press.click()
    expect(press).to_have_text("Stop")
    reload(tab)
    tab.clock.fast_forward(60_000)
    expect(press).to_have_text("Stop")
    press.click()
    expect(field).not_to_have_value("")
    written = field.input_value()
    assert 60 <= float(written) < 120
    reload(tab)
    expect(field).to_have_value(written)


def test_a_watch_in_an_added_row_is_there_after_a_reload(begin: Begin) -> None:
    tab = begin("measure")
    tab.locator("[data-again]").click()
    second = tab.locator("#measure [data-watch=run]").nth(1)
    second.click()
    expect(second).to_have_text("Stop")
    reload(tab)
    expect(second).to_have_text("Stop")
    expect(tab.locator("#measure [data-watch=run]").first).to_have_text("Start watch")


def test_a_time_that_is_thrown_away_writes_nothing(begin: Begin) -> None:
    tab = begin("measure")
    press, field = watch(tab)
    press.click()
    tab.locator("#measure [data-watch=drop]").first.click()
    expect(press).to_have_text("Start watch")
    reload(tab)
    expect(press).to_have_text("Start watch")
    expect(field).to_have_value("")


def test_a_watch_runs_without_a_job_too(begin: Begin) -> None:
    tab = begin()
    tab.goto(tab.url.split("?")[0] + "#measure")
    press, field = watch(tab)
    press.click()
    expect(press).to_have_text("Stop")
    press.click()
    expect(field).to_have_value(re.compile(r"^\d+\.\d$"))


@pytest.mark.parametrize("jump", ["2026-11-02T08:00:00", "2026-11-09T12:00:00"])
def test_a_clock_that_is_set_while_the_watch_runs_changes_nothing(begin: Begin, jump: str) -> None:
    tab = begin("measure", clock=NOON)
    press, field = watch(tab)
    press.click()
    expect(press).to_have_text("Stop")
    tab.clock.set_system_time(jump)
    press.click()
    expect(press).to_have_text("Start watch")
    assert 0 <= float(field.input_value()) < 60


def test_a_wait_counts_down_in_its_step_and_in_the_bar_and_survives_a_reload(begin: Begin) -> None:
    tab = begin("drain", clock=NOON)
    start = tab.locator("#drain [data-count=start]")
    expect(start).to_have_text("Start the wait: 1 min")
    start.click()
    expect(tab.locator("#drain .wait .left")).to_have_text("1:00 left")
    tab.clock.fast_forward(20_000)
    reload(tab)
    expect(tab.locator("#drain .wait .left")).to_have_text("0:39 left")
    expect(tab.locator(".bar .waits")).to_have_text("wait, step 4: 0:38")
    tab.clock.fast_forward(60_000)
    expect(tab.locator("#drain .wait .left")).to_have_text("Over: 1 min")
    expect(tab.locator(".bar .waits")).to_have_text("Step 4: the wait is over")
    expect(tab.locator(".bar .over")).to_have_text("Step 4: the wait of 1 min is over.")


def test_a_wait_keeps_nobody_from_going_on_and_is_told_of_until_a_step_is_ticked_after_it(begin: Begin) -> None:
    tab = begin(clock=NOON)
    take(tab, *TO_DRAIN)
    tab.locator("#drain [data-count=start]").click()
    take(tab, "Proved")
    expect(tab.locator(".bar .waits")).to_contain_text("wait, step 4")
    tab.clock.fast_forward(90_000)
    expect(tab.locator(".bar .waits")).to_have_text("Step 4: the wait is over")
    take(tab, "Next")
    expect(tab.locator(".bar .waits")).to_be_hidden()


def test_a_clock_that_is_set_changes_no_wait(begin: Begin) -> None:
    tab = begin("drain", clock=NOON)
    tab.locator("#drain [data-count=start]").click()
    expect(tab.locator("#drain .wait .left")).to_contain_text("left")
    tab.clock.set_system_time("2026-11-02T08:00:00")
    tab.clock.run_for(1000)
    expect(tab.locator("#drain .wait .left")).to_contain_text("0:5")
    tab.clock.set_system_time("2026-11-09T08:00:00")
    tab.clock.run_for(1000)
    expect(tab.locator("#drain .wait .left")).to_contain_text("0:5")


def test_the_bar_says_how_long_the_machine_is_without_power(begin: Begin) -> None:
    tab = begin(clock=NOON)
    time = tab.locator(".bar .time")
    take(tab, "Yes")
    expect(time).to_have_text("step 2")
    take(tab, "Next")
    expect(time).to_have_text("step 3 · without power 0:00 of 2:00 h")
    tab.clock.fast_forward("18:00")
    expect(time).to_have_text("step 3 · without power 0:18 of 2:00 h")
    assert float(tab.evaluate("document.querySelector('.bar .full').style.getPropertyValue('--full')")) == pytest.approx(0.15, abs=0.01)
    tab.clock.fast_forward("01:50:00")
    expect(time).to_have_text("step 3 · TOO LONG without power: 2:08, limit 2:00 h")
    expect(tab.locator(".bar .slot")).to_have_attribute("data-loud", "")
    expect(tab.locator(".bar .over")).to_contain_text("longer than the machine bears: 2:00 hours")
    tab.locator(".bar .back").click()
    expect(time).to_have_text("step 2")
    expect(tab.locator(".bar .slot")).not_to_have_attribute("data-loud", "")


def test_a_clock_that_went_back_gives_no_negative_time(begin: Begin) -> None:
    tab = begin(clock=NOON)
    take(tab, *TO_DRAIN)
    tab.clock.set_system_time("2026-11-02T08:00:00")
    tab.clock.run_for(2000)
    expect(tab.locator(".bar .time")).to_have_text("step 4 · without power 0:00 of 2:00 h")
    reload(tab)
    expect(tab.locator(".bar .time")).to_have_text("step 4 · without power 0:00 of 2:00 h")


def test_the_screen_stays_on_during_a_job_and_not_without_one(begin: Begin) -> None:
    tab = begin(init=LOCK)
    assert tab.evaluate("asked") == ["screen"]
    tab.evaluate("() => { lock.released = true; document.dispatchEvent(new Event('visibilitychange')); }")
    assert tab.evaluate("asked") == ["screen", "screen"]
    tab.goto(tab.url.split("?")[0])
    expect(tab.locator("form.begin")).to_be_visible()
    assert tab.evaluate("asked") == []


def test_where_the_screen_cannot_be_kept_on_nothing_is_said(begin: Begin) -> None:
    refused = "Object.defineProperty(Navigator.prototype, 'wakeLock', { value: { request: () => Promise.reject(new Error('no')) } });"
    wrong: list[str] = []
    tab = begin(init=f"{refused} addEventListener('unhandledrejection', (e) => (window.wrong = String(e.reason)));")
    tab.on("pageerror", lambda error: wrong.append(str(error)))
    assert tab.evaluate("window.wrong ?? ''") == ""
    assert wrong == []
