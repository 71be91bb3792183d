"""The list of pages to look at again says how long ago, by the reader's clock, and the plain day without a script."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from hooks.page.templates import BLOCKS

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
