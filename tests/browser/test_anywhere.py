"""The site where it may lie: under a sub-path, on a server that knows no types, on a stick."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Serve
from tests.browser.published import headers, kinds

UNDER = "/shops/orsel"
UNKNOWN = dict.fromkeys((".wasm", ".bin", ".zip", ".json", ".webmanifest", ".woff2", ".xml"), "application/octet-stream")
"""Types that docs/publishing.md says may be wrong."""
COIL = "calculators/coil.html"
PAPER = "getComputedStyle(document.body).backgroundColor"
FACE = "document.fonts.load('20px Bench').then((faces) => faces.map((face) => face.status))"


def search(page: Page, words: str) -> None:
    page.get_by_role("button", name="Search").click()
    page.get_by_role("textbox", name="What is wrong").fill(words)
    expect(page.locator(".search .found a").first).to_be_visible(timeout=30_000)


def judge(page: Page) -> None:
    page.get_by_label("Coil reading", exact=True).fill("312")
    page.get_by_label("At least").fill("100")
    page.get_by_label("At most").fill("500")
    answer = page.get_by_role("status", name="Answer")
    expect(answer.locator(".word")).to_have_text("IN LIMITS", timeout=90_000)


def test_under_a_sub_path_and_without_types_there_are_styles_search_and_an_answer(
    browser: Browser, demo_site: Path, serve: Serve
) -> None:
    """Nothing is guessed from what comes: browsers are told not to."""
    base = serve(demo_site, under=UNDER, types=UNKNOWN, headers=headers())
    lost: list[str] = []
    with browser.new_context() as context:
        context.on("response", lambda answer: lost.append(answer.url) if answer.status >= 400 else None)
        page = context.new_page()
        page.goto(base + COIL)
        assert page.evaluate(PAPER) == "rgb(241, 244, 241)"
        assert page.evaluate(FACE) == ["loaded"]
        judge(page)
        page.emulate_media(media="print")
        expect(page.get_by_text("If it matters")).to_be_visible()
        page.emulate_media(media="screen")
        search(page, "ice valve")
        page.locator(".search .found a").first.click()
        expect(page.locator("h1")).to_be_visible()
        assert page.url.startswith(base)
        page.get_by_role("link", name="About this shop").last.click()
        expect(page.locator("h1")).to_have_text("About this shop")
    assert lost == []


def test_from_a_stick_every_kind_of_page_is_whole_and_says_what_it_cannot_do(page: Page, demo_site: Path) -> None:
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    for path in kinds(demo_site).values():
        page.goto((demo_site / path).as_uri())
        if path != "404.html":
            assert page.evaluate(PAPER) == "rgb(241, 244, 241)", path
            assert page.evaluate("document.documentElement.dataset.scheme") == "light"
    page.goto((demo_site / COIL).as_uri())
    page.get_by_label("Coil reading", exact=True).fill("312")
    page.get_by_label("At least").fill("100")
    expect(page.get_by_role("status", name="Answer")).to_contain_text("Not judged. The calculator cannot run here. Use the table below.")
    page.locator("summary", has_text="The table").click()
    expect(page.get_by_role("table").first).to_be_visible()
    page.goto((demo_site / "index.html").as_uri())
    search(page, "no ice")
    assert errors == []
