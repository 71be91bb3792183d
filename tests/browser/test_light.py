"""A page is small, waits for nothing, and does not move when it comes alive."""

from __future__ import annotations

import gzip
import re
import time
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from playwright.sync_api import Browser, Page, Route

from tests.browser.conftest import Recorder, Serve
from tests.browser.published import kinds

BUDGET = 120_000
"""Bytes of a page before the runtime, compressed as servers do: itself, styles, scripts, typeface, signs."""
SHIFTS = """window.shifts = [];
new PerformanceObserver((list) => {
  for (const shift of list.getEntries()) if (!shift.hadRecentInput) shifts.push([shift.value, ...shift.sources.map((s) => s.node?.outerHTML?.slice(0, 80))]);
}).observe({ type: "layout-shift", buffered: true });"""
BLOCKING = """() => performance.getEntriesByType("resource")
  .filter((e) => e.renderBlockingStatus === "blocking").map((e) => e.name.split("/").pop())"""
LATE = 0.6
"""Seconds by which the page's script comes after its styles."""


def weight(site: Path, path: str) -> int:
    """Bytes on the wire of a page and of all that it names, without its figures and what a calculator fetches later."""
    page = site / path
    soup = BeautifulSoup(page.read_bytes(), "html.parser")
    named = {tag["href"] for tag in soup.select("link[href]")} | {tag["src"] for tag in soup.select("[src]:not(img)")}
    files = {page, *(site / name[1:] if name.startswith("/") else (page.parent / name).resolve() for name in named)}
    return sum(len(gzip.compress(file.read_bytes(), 6)) for file in files if "icon-" not in file.name)


def test_a_page_of_every_kind_keeps_to_the_budget(demo_site: Path) -> None:
    weights = {kind: weight(demo_site, path) for kind, path in kinds(demo_site).items()}
    assert {"procedure", "self-check", "calculator", "text"} <= weights.keys()
    assert {kind: bytes for kind, bytes in weights.items() if not 40_000 < bytes < BUDGET} == {}


def test_the_first_paint_waits_for_styles_and_for_light_or_dark_alone(
    page: Page, demo_site: Path, serve: Serve
) -> None:
    page.goto(serve(demo_site) + kinds(demo_site)["procedure"])
    waited = {re.sub("-[0-9a-f]{12}", "", name) for name in page.evaluate(BLOCKING)}
    assert waited == {"stillbench.css", "first.js"}


def test_the_runtime_is_fetched_where_there_is_a_calculator_and_nowhere_else(
    browser: Browser, demo_site: Path, serve: Serve
) -> None:
    base = serve(demo_site)
    fetched, needed = set(), set()
    for kind, path in kinds(demo_site).items():
        with browser.new_context(service_workers="block") as context:
            recorder = Recorder()
            recorder.listen(context)
            page = context.new_page()
            page.goto(base + path)
            if page.locator("[data-calculator]").count():
                needed.add(kind)
                page.wait_for_event("worker", timeout=30_000) if not page.workers else None
            page.wait_for_load_state("networkidle")
            if any("assets/runtime/" in url for url in recorder.urls):
                fetched.add(kind)
    assert fetched == needed and {"procedure", "calculator"} <= needed


@pytest.mark.parametrize(
    ("kind", "size"), [("procedure", (820, 1180)), ("self-check", (390, 844)), ("calculator", (390, 844))], ids=str
)
def test_nothing_moves_when_the_page_and_its_calculator_come_alive(
    kind: str, size: tuple[int, int], browser: Browser, demo_site: Path, serve: Serve
) -> None:
    def late(route: Route) -> None:
        time.sleep(LATE)
        route.continue_()

    base = serve(demo_site)
    path = kinds(demo_site)[kind]
    steps = BeautifulSoup((demo_site / path).read_bytes(), "html.parser").select(".step, .question")
    places = ["", *(f"#{step['id']}" for step in (steps[len(steps) // 2 :][:1] if steps else ()))]
    for place in places:
        with browser.new_context(viewport={"width": size[0], "height": size[1]}) as context:
            context.add_init_script(SHIFTS)
            page = context.new_page()
            page.route("**/stillbench-*.js", late)
            page.goto(base + path + place)
            for _ in range(300):
                if page.evaluate("window.stillbench.state") in ("ready", "off"):
                    break
                page.wait_for_timeout(100)
            page.wait_for_timeout(300)
            assert page.evaluate("shifts") == [], place
