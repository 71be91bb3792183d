"""The list of pages to look at again says how long ago, by the reader's clock, and the plain day without a script."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from hooks.page import bundle
from hooks.page.templates import BLOCKS
from tests.browser.test_access import AXE
from tests.library.test_review import kept, rewrite  # noqa: F401
from tests.site.test_review_page import html, site

LIST = '<div class="review"><p class="when"><time datetime="2026-11-02">2026-11-02</time></p></div>'


@pytest.mark.parametrize(
    ("now", "said"),
    [
        ("2026-11-02T08:00:00Z", "today"),
        ("2026-11-03T08:00:00Z", "1 day ago"),
        ("2026-12-01T08:00:00Z", "29 days ago"),
        ("2027-11-02T08:00:00Z", "12 months ago"),
        ("2029-11-02T08:00:00Z", "3 years ago"),
        ("2026-11-01T08:00:00Z", ""),
    ],
)
def test_the_day_stands_with_how_long_ago_that_was(page: Page, now: str, said: str) -> None:
    page.clock.set_fixed_time(now)
    page.set_content(LIST)
    page.add_script_tag(content=(BLOCKS / "review/review.js").read_text("utf-8"))
    expect(page.locator(".when")).to_have_text(f"2026-11-02 {said}".strip())


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_list_keeps_the_rules_of_access_and_fits_a_narrow_screen(page: Page, kept: Path, scheme: str) -> None:  # noqa: F811
    rewrite(kept / "procedures/cord.md", "in sight", "in hand")
    page.set_viewport_size({"width": 320, "height": 640})
    listed = html(site(kept))
    page.set_content(f'<html lang="en" data-scheme="{scheme}"><title>t</title><body><main class="sheet">{listed}</main></body></html>')
    page.add_style_tag(content=bundle.css())
    page.add_script_tag(path=AXE)
    assert [(v["id"], v["nodes"][0]["html"]) for v in page.evaluate("axe.run()")["violations"]] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    small = "() => [...document.querySelectorAll('.review a')].filter((e) => e.offsetHeight < 44).length"
    assert page.locator(".review a").count() == 2 and page.evaluate(small) == 0
