"""A procedure in a browser: one step open, its board, its reading; nothing lost on small screens."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from calculators._lib import entry
from hooks.page import bundle
from tests.pages.drawn import PUMP, draw, sample

Serve = Callable[..., str]

CALCULATE = """
window.stillbench = {
  state: "ready",
  onstate: (listener) => listener("ready"),
  calculate: async (id, request) => window.held ? new Promise(() => {}) : JSON.parse(await ask(id, JSON.stringify(request))),
};
"""
"""Stands in for the worker: the same Python answers, outside the browser."""

AXE = Path(__file__).parents[2] / "node_modules/axe-core/axe.min.js"
"""Checks a page against WCAG; `npm ci` lays it there."""

SIZES = ((820, 1180), (390, 844), (320, 640), (844, 390))
FRAME = (
    '<!doctype html><html lang="en"><meta name="viewport" content="width=device-width">'
    '<title>t</title><link rel="stylesheet" href="bench.css"><body class="plain">{0}<script src="bench.js"></script>'
)


SPACED = "* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important }"
"""The text spacing that WCAG 1.4.12 asks a page to stand."""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("pages")
    (folder / "bench.css").write_text(bundle.css(["body.plain { margin: 0; }"]), "utf-8")
    (folder / "bench.js").write_text(bundle.js([CALCULATE]), "utf-8")
    flow = draw(PUMP.replace("calculator: coil\n", ""))
    pages = {"pump": draw(), "flow": flow, "laundry": sample("laundry-fill-valve.md"), "customer": sample("cooler-self-check.md")}
    for name, page in pages.items():
        (folder / f"{name}.html").write_text(FRAME.format(page.html), "utf-8")
    return folder


@pytest.fixture
def at(site: Path, serve: Serve, page: Page) -> Callable[[str], Page]:
    """Go to a page of the folder with the calculators at hand."""
    base = serve(site)
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.expose_function("ask", entry.answer)

    def go(address: str) -> Page:
        page.goto(f"{base.rstrip('/')}/{address}")
        assert not errors
        return page

    return go


Go = Callable[[str], Page]


def board(page: Page) -> str:
    return page.locator(".board strong").inner_text()


def opened(page: Page) -> list[str]:
    """The ids of the open steps, once the page has followed its address."""
    return page.evaluate("""async () => {
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
        return [...document.querySelectorAll('.step[data-open]')].map((s) => s.id);
    }""")


def test_before_any_step_the_board_says_that_everything_is_on(at: Go) -> None:
    page = at("pump.html")
    assert (opened(page), board(page)) == ([], "HANDS OFF")
    page.get_by_role("link", name="Start").click()
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
    page.get_by_role("link", name="Start").click()
    for words in ("Yes", "Prove", "Drain", "Proved"):
        take(page, words)
        assert not arrived_straight(page)
    page.go_back()
    assert opened(page) == ["drain"] and not arrived_straight(page)


def test_who_jumps_on_by_the_list_is_told_until_going_back(at: Go) -> None:
    page = at("pump.html")
    page.get_by_role("link", name="Start").click()
    take(page, "Yes")
    page.locator("#open h3 a").click()
    assert opened(page) == ["open"] and arrived_straight(page)
    page.go_back()
    assert opened(page) == ["unplug"] and not arrived_straight(page)


def test_going_back_past_what_was_turned_on_is_no_way_of_the_page(at: Go) -> None:
    page = at("pump.html")
    page.get_by_role("link", name="Start").click()
    for words in ("Yes", "Prove", "Drain", "Proved", "Is it", "Proved", "Measure", "Is the coil", "In limits", "Open the tap", "Look"):
        take(page, words)
    assert opened(page) == ["catch"] and not arrived_straight(page)
    page.evaluate("location.hash = '#measure'")
    expect(page.locator("#measure")).to_have_attribute("data-open", "")
    assert arrived_straight(page)


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


TABLET, PHONE = SIZES[:2]
READINGS = ("312", "560", "101", "0.2", "OL", "12,5", "3l2")


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


@pytest.mark.parametrize("scheme", ["default", "slate"])
@pytest.mark.parametrize("address", ["pump.html", "pump.html#prove", "pump.html#measure", "customer.html"])
def test_access_rules_are_kept(at: Go, address: str, scheme: str) -> None:
    page = at(address)
    page.evaluate(f"document.body.dataset.mdColorScheme = '{scheme}'")
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


LARGE = "html { font-size: 200% }"
TEXTS = [(TABLET, LARGE), (PHONE, LARGE), (TABLET, SPACED), (PHONE, SPACED), (SIZES[2], SPACED)]


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
    assert bar["y"] - board["height"] >= size[1] * 0.4
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
