"""Readings in a job: kept once when they settle, with their history; there again after a reload and in another tab."""

from __future__ import annotations

import re
import time

from playwright.sync_api import Page, expect

from tests.browser.bench import TO_DRAIN, Again, Begin, again, begin, events, folder, go, opened, reload, take  # noqa: F401

HELD = "addEventListener('DOMContentLoaded', () => { window.held = true; })"

HIDE = """() => {
  Object.defineProperty(document, "hidden", { value: true });
  document.dispatchEvent(new Event("visibilitychange"));
}"""
LATE = """() => {
  const real = stillbench.calculate;
  stillbench.calculate = async (...asked) => {
    await new Promise((done) => (window.letGo = done));
    return real(...asked);
  };
}"""


def read(tab: Page, label: str, text: str) -> None:
    field = tab.locator("#measure").get_by_label(label)
    field.fill(text)
    field.blur()


def kept(tab: Page, count: int) -> list[dict[str, object]]:
    """The readings, once so many are kept."""
    for _ in range(50):
        found = events(tab, "reading")
        if len(found) >= count:
            break
        time.sleep(0.1)
    assert len(found) == count
    return found


def test_a_reading_is_kept_with_all_that_judged_it(begin: Begin) -> None:
    tab = begin("measure")
    read(tab, "Coil in ohm", "312")
    (one,) = kept(tab, 1)
    told = {"reading": "coil", "step": 8, "label": "Coil", "text": "312", "unit": "ohm", "low": 100, "high": 500, "value": 312}
    told |= {"calculator": "coil", "verdict": "in limits", "word": "IN LIMITS", "sign": "in", "version": "1"}
    assert {name: one[name] for name in told} == told
    assert one["fields"] == {"readings": ["312"]}
    assert one["uncertainty"] > 0 and "± 4 ohm is between 100 and 500" in one["sentence"] and one["picture"].startswith("<svg")
    assert all(not isinstance(value, list) for value in one.values())


def test_a_reading_rests_before_it_is_kept_and_the_same_text_is_no_new_one(begin: Begin) -> None:
    tab = begin("measure")
    field = tab.locator("#measure").get_by_label("Coil in ohm")
    field.press_sequentially("312", delay=40)
    assert [e["text"] for e in kept(tab, 1)] == ["312"]
    field.fill("31")
    field.fill("312")
    field.press("Enter")
    tab.wait_for_timeout(1000)
    assert [e["text"] for e in kept(tab, 1)] == ["312"]


def test_a_change_is_one_more_and_what_it_was_is_shown(begin: Begin) -> None:
    tab = begin("measure")
    read(tab, "Coil in ohm", "298")
    kept(tab, 1)
    read(tab, "Coil in ohm", "312")
    expect(tab.locator("#measure .past").first).to_have_text(re.compile(r"^was 298 ± 4 ohm.*, \d\d:\d\d$"))
    read(tab, "Coil in ohm", "305")
    expect(tab.locator("#measure .past").first).to_have_text(re.compile("^was 312 ± 4 ohm.*, and 1 before$"))
    assert [e["text"] for e in kept(tab, 3)] == ["298", "312", "305"]


def test_what_was_just_typed_is_kept_when_the_page_goes_out_of_sight(begin: Begin) -> None:
    tab = begin("measure", clock="2026-11-02T12:00:00")
    tab.clock.pause_at("2026-11-02T12:01:00")
    tab.locator("#measure").get_by_label("Coil in ohm").fill("312")
    expect(tab.locator("#measure .verdict .word").first).to_have_text("IN LIMITS")
    assert events(tab, "reading") == []
    tab.evaluate(HIDE)
    assert [e["text"] for e in kept(tab, 1)] == ["312"]


def test_a_way_out_keeps_what_was_just_typed(begin: Begin) -> None:
    tab = begin()
    take(tab, *TO_DRAIN, "Proved", "Next")
    tab.locator("#measure").get_by_label("Coil in ohm").fill("312")
    tab.evaluate("document.querySelector('#measure .way').click()")
    expect(tab.locator("#good")).to_have_attribute("data-open", "")
    assert [(e["kind"], e.get("verdict")) for e in events(tab, "reading", "done")][-2:] == [("reading", "in limits"), ("done", None)]


def test_after_a_reload_it_stands_there_judged_and_its_way_out_comes_first(begin: Begin) -> None:
    tab = begin("measure")
    read(tab, "Coil in ohm", "312")
    kept(tab, 1)
    reload(tab)
    expect(tab.locator("#measure").get_by_label("Coil in ohm")).to_have_value("312")
    expect(tab.locator("#measure .verdict .word").first).to_have_text("IN LIMITS")
    expect(tab.locator("#measure .picture svg").first).to_be_attached()
    go(tab, "good")
    expect(tab.locator("#good .judged .word")).to_have_text("IN LIMITS")
    expect(tab.locator("#good .way").first).to_contain_text("In limits")
    expect(tab.locator("#good .way.main")).to_have_count(1)
    kept(tab, 1)


def test_it_stands_as_it_was_judged_where_the_calculator_does_not_answer(begin: Begin) -> None:
    tab = begin("measure")
    read(tab, "Coil in ohm", "900")
    kept(tab, 1)
    tab.add_init_script(HELD)
    reload(tab)
    expect(tab.locator("#measure .verdict .word").first).to_have_text("ABOVE LIMITS")
    go(tab, "good")
    expect(tab.locator("#good .way.main")).to_contain_text("Out of limits")


def test_what_was_not_judged_yet_is_kept_and_is_one_reading_once_it_is(begin: Begin) -> None:
    tab = begin("measure")
    tab.evaluate(LATE)
    read(tab, "Coil in ohm", "312")
    assert "verdict" not in kept(tab, 1)[0]
    tab.evaluate("letGo()")
    assert kept(tab, 2)[1]["verdict"] == "in limits"
    assert tab.evaluate("stillbench.desk.record.readings.get('coil').length") == 1
    assert tab.locator("#measure .past").first.inner_text() == ""


def test_a_catch_comes_back_row_by_row_with_its_units(begin: Begin) -> None:
    tab = begin("measure")
    tab.locator("[data-again]").click()
    tab.locator("#measure [name=volumes]").first.fill("1")
    tab.locator("#measure .entry select").first.select_option("L")
    for index, text in enumerate(("28.4", "1010", "28.8")):
        tab.locator("#measure :is([name=volumes], [name=times])").nth(index + 1).fill(text)
    tab.locator("#measure [name=times]").last.blur()
    first, found = kept(tab, 2)
    assert first["fields"] == {"volumes": ["1 L", ""], "times": ["28.4 s", ""]}
    assert found["fields"] == {"volumes": ["1 L", "1010 mL"], "times": ["28.4 s", "28.8 s"]}
    reload(tab)
    values = tab.locator("#measure :is([name=volumes], [name=times])").evaluate_all("(all) => all.map((one) => one.value)")
    assert values == ["1", "28.4", "1010", "28.8"]
    assert tab.locator("#measure .entry select").first.input_value() == "L"


def test_what_no_calculator_judges_is_kept_too(begin: Begin) -> None:
    tab = begin("measure")
    read(tab, "Volts", "231")
    (one,) = kept(tab, 1)
    told = {"reading": "volts", "text": "231", "unit": "V", "low": 207, "high": 253, "fields": {"read": ["231"]}}
    assert {name: one[name] for name in told} == told
    read(tab, "Volts", "229")
    expect(tab.locator("#measure .past").last).to_have_text(re.compile("^was 231 V"))
    reload(tab)
    expect(tab.locator("#measure").get_by_label("Volts")).to_have_value("229")


def test_what_was_refused_or_is_half_typed_is_no_reading_and_what_was_taken_away_is_said(begin: Begin) -> None:
    tab = begin("measure")
    read(tab, "Coil in ohm", "3l2")
    tab.locator("#measure [name=volumes]").fill("1000")
    tab.wait_for_timeout(1200)
    assert events(tab, "reading") == []
    read(tab, "Coil in ohm", "312")
    kept(tab, 1)
    read(tab, "Coil in ohm", "")
    assert kept(tab, 2)[1]["text"] == ""
    expect(tab.locator("#measure .past").first).to_have_text(re.compile("^was 312 ± 4 ohm"))
    reload(tab)
    expect(tab.locator("#measure").get_by_label("Coil in ohm")).to_have_value("")


def test_two_tabs_agree_and_what_is_being_typed_is_left_alone(begin: Begin, again: Again) -> None:
    tab = begin("measure")
    other = again(tab)
    read(tab, "Coil in ohm", "312")
    expect(other.locator("#measure").get_by_label("Coil in ohm")).to_have_value("312")
    expect(other.locator("#measure .verdict .word").first).to_have_text("IN LIMITS")
    other.locator("#measure").get_by_label("Volts").fill("23")
    read(tab, "Coil in ohm", "900")
    expect(other.locator("#measure .verdict .word").first).to_have_text("ABOVE LIMITS")
    expect(other.locator("#measure").get_by_label("Volts")).to_have_value("23")
    other.wait_for_timeout(1000)
    assert [e["text"] for e in kept(tab, 3)] == ["312", "900", "23"]


def test_what_the_page_before_said_stands_beside_and_is_not_taken(begin: Begin) -> None:
    tab = begin()
    job = tab.evaluate("""() => stillbench.desk.begin({ model: "P1" }, { carried: [
      { reading: "ice-coil", step: 7, at: Date.now(), label: "Coil", text: "312", unit: "ohm", said: "312 ± 4 ohm" },
      { reading: "frame", step: 8, at: Date.now(), label: "Coil to frame", text: "40", unit: "Mohm" }] })""")
    tab.goto(f"{tab.url.split('?')[0]}?job={job}#measure")
    opened(tab)
    expect(tab.locator("#measure .carried").first).to_have_text(re.compile(r"^from the page before: 312 ± 4 ohm, \d\d:\d\d$"))
    expect(tab.locator("#measure").get_by_label("Coil in ohm")).to_have_value("")
    assert "Coil 312 ± 4 ohm; Coil to frame 40 Mohm." in tab.locator(".carried-list").text_content()
    assert events(tab, "reading") == []


def test_a_picture_in_a_job_from_elsewhere_is_not_put_into_the_page(begin: Begin) -> None:
    tab = begin("measure")
    tab.evaluate("""() => stillbench.desk.act("reading", { reading: "coil", step: 8, label: "Coil", text: "312", unit: "ohm", word: "IN LIMITS",
      ways: "in limits", sign: "in", meter: "m", fields: { readings: ["312"] }, sentence: "<b id=bad>x</b>", picture: "<b id=bad>x</b>" })""")
    expect(tab.locator("#measure .verdict .word").first).to_have_text("IN LIMITS")
    tab.wait_for_timeout(300)
    assert tab.locator("#bad").count() == 0
