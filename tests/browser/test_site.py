"""The demo shop's site in a browser: found, read, pressed; with nothing but itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import ROOT, Recorder, Serve
from tests.browser.published import kinds

AXE = (ROOT / "node_modules/axe-core/axe.min.js").read_text("utf-8")
RUN = "axe.run().then(r => r.violations.map(v => [v.id, ...v.nodes.map(n => n.target.join(' '))]))"
SMALL = """() => [...document.querySelectorAll(
    '.site :is(a, button, summary):not(.skip), .site-foot a, .leaf :is(a, button, select, summary)')]
  .filter(e => e.checkVisibility())
  .map(e => [e.textContent.trim().slice(0, 40), e.getBoundingClientRect()])
  .filter(([, box]) => box.height < 43.9 || box.width < 43.9).map(([text]) => text)"""


def every(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


def search(page: Page, words: str) -> None:
    page.get_by_role("button", name="Search").click()
    page.get_by_role("textbox", name="What is wrong").fill(words)
    expect(page.locator(".search .count")).not_to_contain_text("Fetching")
    expect(page.locator(".search")).not_to_have_attribute("data-looking", "")


@pytest.mark.parametrize(("scheme", "pages"), [("light", every), ("dark", lambda site: kinds(site).values())])
def test_no_page_has_a_fault_that_a_machine_can_see(
    scheme: str, pages: Callable[[Path], Iterable[str]], browser: Browser, demo_site: Path, serve: Serve
) -> None:
    base = serve(demo_site)
    page = browser.new_page(color_scheme=scheme, viewport={"width": 820, "height": 1180})
    found = {}
    for path in pages(demo_site):
        page.goto(base + path)
        page.evaluate(AXE)
        found[path] = page.evaluate(RUN)
    page.close()
    assert found and {path: faults for path, faults in found.items() if faults} == {}


@pytest.mark.parametrize("opened", ["menu", "search"])
def test_what_opens_over_the_page_has_no_such_fault_either(
    opened: str, page: Page, demo_site: Path, serve: Serve
) -> None:
    page.goto(serve(demo_site) + "index.html")
    if opened == "menu":
        page.get_by_text("Menu").click()
    else:
        search(page, "ice")
    page.evaluate(AXE)
    assert page.evaluate(RUN) == []


def test_search_says_when_there_is_nothing(page: Page, demo_site: Path, serve: Serve) -> None:
    page.goto(serve(demo_site) + "index.html")
    search(page, "zzgurk")
    expect(page.get_by_role("status").filter(has_text="Nothing found")).to_be_visible()
    expect(page.locator(".search .found a")).to_have_count(0)


def test_nothing_is_fetched_for_search_before_someone_searches(
    page: Page, recorder: Recorder, demo_site: Path, serve: Serve
) -> None:
    page.goto(serve(demo_site) + "index.html")
    page.wait_for_load_state("networkidle")
    assert not [url for url in recorder.asked if "find-" in url]
    search(page, "ice")
    assert [url for url in recorder.asked if url.endswith("find-pages.js")]


def test_the_start_page_asks_and_search_answers_from_the_keyboard(
    page: Page, demo_site: Path, serve: Serve
) -> None:
    page.goto(serve(demo_site) + "index.html")
    page.get_by_role("searchbox").press_sequentially("IW40")
    page.keyboard.press("Enter")
    expect(page.get_by_role("textbox", name="What is wrong")).to_have_value("IW40")
    expect(page.locator(".search .found a").first).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("searchbox")).to_be_focused()
    page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    page.wait_for_url("**/machines/ice-cabinet.html")


def test_the_first_stop_of_the_keyboard_leads_past_the_head(page: Page, demo_site: Path, serve: Serve) -> None:
    page.goto(serve(demo_site) + "index.html")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Skip to the page")).to_be_focused()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    expect(page.get_by_role("searchbox")).to_be_focused()


RING = """() => {
    const here = document.activeElement;
    if (here === document.body) return "end";
    const ring = (e) => e && getComputedStyle(e).outlineStyle !== "none";
    return ring(here) || ring(here.closest(".field, .find, .ask")) ? "" : here.outerHTML;
}"""


@pytest.mark.parametrize("address", ["first-minute.html", "calculators/coil.html", "self-checks/no-ice.html"])
def test_the_keyboard_shows_where_it_is(address: str, page: Page, demo_site: Path, serve: Serve) -> None:
    page.goto(f"{serve(demo_site)}{address}")
    stops = 0
    while stops < 80:
        page.keyboard.press("Tab")
        if (bare := page.evaluate(RING)) == "end":
            break
        assert not bare
        stops += 1
    assert 5 < stops < 80


def test_search_and_links_work_from_a_folder_on_a_stick(page: Page, demo_site: Path) -> None:
    page.goto((demo_site / "index.html").as_uri())
    search(page, "DV-2")
    page.locator(".search .found a").first.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("double water valve")


def test_light_or_dark_is_remembered(page: Page, demo_site: Path, serve: Serve) -> None:
    base = serve(demo_site)
    page.goto(base + "index.html")
    page.get_by_role("button", name="Dark").click()
    page.goto(base + "about.html")
    expect(page.locator("html")).to_have_attribute("data-scheme", "dark")
    expect(page.get_by_role("button", name="Light")).to_be_visible()


def test_without_a_script_the_lists_are_there_and_nothing_that_does_nothing(
    browser: Browser, demo_site: Path, serve: Serve
) -> None:
    base = serve(demo_site)
    page = browser.new_page(java_script_enabled=False)
    page.goto(base + "index.html")
    expect(page.get_by_role("link", name="It smells of burning")).to_be_visible()
    expect(page.get_by_role("button")).to_have_count(0)
    page.goto(base + "calculators/coil.html")
    expect(page.get_by_role("table")).to_be_visible()
    expect(page.get_by_role("textbox")).to_have_count(0)
    page.close()


def test_no_page_is_wider_than_the_screen_and_fingers_hit_what_they_aim_at(
    browser: Browser, demo_site: Path, serve: Serve
) -> None:
    base = serve(demo_site)
    page = browser.new_page()
    wide, small = [], {}
    for path in every(demo_site):
        page.goto(base + path)
        for width in (320, 390, 820, 1280):
            page.set_viewport_size({"width": width, "height": 844})
            if page.evaluate("document.documentElement.scrollWidth") > width:
                wide.append((path, width))
            if missed := page.evaluate(SMALL):
                small[path, width] = missed
    page.close()
    assert (wide, small) == ([], {})


def test_a_calculator_takes_reading_and_limits_each_in_its_own_unit(
    page: Page, demo_site: Path, serve: Serve
) -> None:
    page.goto(serve(demo_site) + "calculators/coil.html")
    page.get_by_label("Coil reading", exact=True).fill("0.312")
    page.get_by_label("Coil reading, unit", exact=True).select_option("kohm")
    page.get_by_label("At least").fill("100")
    page.get_by_label("At most").fill("500")
    answer = page.get_by_role("status", name="Answer")
    expect(answer.locator(".word")).to_have_text("IN LIMITS", timeout=60_000)
    page.get_by_label("At most").fill("200")
    expect(answer.locator(".word")).to_have_text("ABOVE LIMITS")


def test_a_calculator_refuses_beside_the_field(page: Page, demo_site: Path, serve: Serve) -> None:
    page.goto(serve(demo_site) + "calculators/coil.html")
    field = page.get_by_label("Coil reading", exact=True)
    field.fill("3l2")
    expect(field).to_have_attribute("aria-invalid", "true", timeout=60_000)
    expect(page.locator("[data-field=readings] .why").first).to_contain_text("3l2")
    expect(page.get_by_role("status", name="Answer").locator(".word")).to_be_hidden()
