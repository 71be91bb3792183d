"""A procedure in a browser: one step open, its board, its ways; on paper and without a script."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from tests.browser.framed import Go, Serve, at, board, opened, site  # noqa: F401


def test_before_any_step_the_board_says_that_everything_is_on(at: Go) -> None:
    page = at("pump.html")
    assert (opened(page), board(page)) == ([], "HANDS OFF")
    page.get_by_role("link", name="Only read").click()
    assert opened(page) == ["hum"]


def test_the_address_opens_a_step_and_swaps_in_its_board(at: Go) -> None:
    page = at("pump.html#open")
    assert (opened(page), board(page)) == (["open"], "HANDS IN")
    page.locator("#open .way").click()
    assert opened(page) == ["measure"]
    page.go_back()
    expect(page.locator("#open")).to_have_attribute("data-open", "")
    assert opened(page) == ["open"]


def test_the_back_arm_of_the_bar_names_the_step_one_came_from(at: Go) -> None:
    page = at("pump.html#unplug")
    page.locator("#unplug .way").click()
    back = page.locator(".bar .back")
    assert back.inner_text() == "Back to 2"
    back.click()
    assert opened(page) == ["unplug"]


def arrived_straight(page: Page) -> bool:
    return page.locator(".board .arrival").is_visible()


def take(page: Page, words: str) -> None:
    """Leave the open step by the way out with these words."""
    arm = page.locator(".step[data-open] .way").filter(has_text=words).first
    target = page.locator(arm.get_attribute("href"))
    arm.click()
    expect(target).to_have_attribute("data-open", "")


def test_who_comes_straight_to_a_step_is_told_until_the_page_is_begun(at: Go) -> None:
    page = at("pump.html#open")
    assert arrived_straight(page)
    take(page, "Measure")
    assert opened(page) == ["measure"] and arrived_straight(page)
    page.get_by_role("link", name="Start at the beginning").click()
    assert opened(page) == [] and not arrived_straight(page)


def test_who_says_that_all_was_done_is_not_told_again_on_the_way(at: Go) -> None:
    page = at("pump.html#open")
    page.get_by_role("button", name="I did them all").click()
    assert not arrived_straight(page)
    take(page, "Measure")
    assert opened(page) == ["measure"] and not arrived_straight(page)


def test_who_follows_the_ways_out_is_not_told_and_may_look_back(at: Go) -> None:
    page = at("pump.html")
    page.get_by_role("link", name="Only read").click()
    for words in ("Yes", "Prove", "Drain", "Proved"):
        take(page, words)
        assert not arrived_straight(page)
    page.go_back()
    assert opened(page) == ["drain"] and not arrived_straight(page)


def test_who_jumps_on_by_the_list_is_told_until_going_back(at: Go) -> None:
    page = at("pump.html")
    page.get_by_role("link", name="Only read").click()
    take(page, "Yes")
    page.locator("#open h3 a").click()
    assert opened(page) == ["open"] and arrived_straight(page)
    page.go_back()
    assert opened(page) == ["unplug"] and not arrived_straight(page)


def test_going_back_past_what_was_turned_on_is_no_way_of_the_page(at: Go) -> None:
    page = at("pump.html")
    page.get_by_role("link", name="Only read").click()
    for words in ("Yes", "Prove", "Drain", "Proved", "Is it", "Proved", "Measure", "Is the coil", "In limits", "Open the tap", "Look"):
        take(page, words)
    assert opened(page) == ["catch"] and not arrived_straight(page)
    page.evaluate("location.hash = '#measure'")
    expect(page.locator("#measure")).to_have_attribute("data-open", "")
    assert arrived_straight(page)


def test_without_a_script_everything_is_open_and_there_is_no_board(browser: Browser, site: Path, serve: Serve) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{serve(site).rstrip('/')}/pump.html")
    assert not page.locator(".board").is_visible()
    for name in ("#stop .message", "#measure .reading table", ".evidence li >> nth=0", "#prove .small"):
        assert page.locator(name).is_visible(), name
    context.close()


def test_print_shows_every_step_whole(at: Go) -> None:
    page = at("pump.html#open")
    page.emulate_media(media="print")
    assert not page.locator(".board").is_visible() and not page.locator(".bar").is_visible()
    for name in ("#prove .message", "#prove .ways", "#measure .field", "#done .closing", ".print-head"):
        assert page.locator(name).is_visible(), name
    assert ", go to step" in page.locator("#prove .way >> nth=0").inner_text()


def test_figures_are_fetched_for_print_that_no_one_has_seen_yet(page: Page, demo_site: Path, serve: Serve) -> None:
    page.goto(f"{serve(demo_site)}ice-cabinet/no-ice-double-valve.html")
    lazy = page.locator(".figure img")
    assert lazy.evaluate_all("(all) => all.map((one) => one.complete && one.naturalWidth > 0)") == [False] * 3
    page.pdf()
    assert lazy.evaluate_all("(all) => all.map((one) => one.complete && one.naturalWidth > 0)") == [True] * 3


def test_a_customers_page_prints_on_one_sheet(page: Page, demo_site: Path, serve: Serve) -> None:
    page.goto(f"{serve(demo_site)}self-checks/no-ice.html")
    for paper in ("A4", "Letter"):
        sheets = re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper))
        assert len(sheets) == 1, paper


def test_a_customer_sees_one_question_and_can_always_stop(at: Go) -> None:
    page = at("customer.html")
    shown = page.locator(".question[data-open]")
    assert shown.get_attribute("id") == "light"
    assert page.locator(".question:visible").count() == 1
    page.get_by_role("link", name="Yes").click()
    expect(shown).to_have_attribute("id", "wait")
    assert page.locator(".stop-bar a").is_visible()
    shown.get_by_role("link", name="Back").click()
    expect(shown).to_have_attribute("id", "light")
