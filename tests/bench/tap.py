"""Times what a tap in a job takes until the screen answers, in a browser slowed four times.

`python -m tests.bench.tap [taps]`. On the largest procedure of the demo, by touch: from the moment at which the browser
was told of the finger on a way out to the first frame after the next step stood open, which is after the tick was
written to the disk. The finger leaves at once; nothing of the test runs in the page meanwhile. The whole browser is slowed,
with what writes to the disk and what draws.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from tests.bench.first_answer import facts
from tests.bench.slowed import slowed
from tests.browser import chromium
from tests.browser.conftest import ROOT
from tests.browser.server import serving

TARGET = 100.0
"""Milliseconds."""
PAGE, MODEL = "ice-cabinet/supply-line.html", "IW60"
FIRST = "catch-on"
AGAIN = {"enough": "too close to call"}
"""From the first step on the first ways out lead here in three taps, and from here back."""
WATCH = """() => {
  window.answered = [];
  window.told = () => {};
  let down = 0;
  addEventListener("pointerdown", (event) => { down = event.timeStamp; }, true);
  new MutationObserver((changes) => {
    if (!changes.some(({ target }) => target.matches(".step[data-open]")) || !down) return;
    const from = down;
    down = 0;
    requestAnimationFrame(() => setTimeout(() => told(answered.push(performance.now() - from))));
  }).observe(document.querySelector(".job"), { subtree: true, attributeFilter: ["data-open"] });
}"""
ANSWERED = "(count) => answered.length >= count || new Promise((done) => { told = (now) => now >= count && done(); })"
REST = 100
"""Milliseconds from an answer to the next tap."""


def begin(page: Page, address: str) -> None:
    """Open the page and start a job at the first step of the loop."""
    page.goto(address)
    page.locator(f"form.begin label:has([value={MODEL}])").tap()
    page.locator("form.begin .way").tap()
    page.locator('[data-desk="open"]').wait_for()
    page.evaluate("(id) => { location.hash = id; }", FIRST)
    page.locator(f"#{FIRST}[data-open]").wait_for()
    page.evaluate(WATCH)


def tap(page: Page, number: int) -> None:
    """Take the way out of the open step, and wait until the screen has answered."""
    step = page.locator(".step[data-open]").get_attribute("id")
    verdict = f'[data-verdict="{AGAIN[step]}"]' if step in AGAIN else ""
    arm = page.locator(f"#{step} .ways .way{verdict}").first
    arm.scroll_into_view_if_needed()
    place = arm.bounding_box()
    page.wait_for_timeout(REST)
    page.touchscreen.tap(place["x"] + place["width"] / 2, place["y"] + place["height"] / 2)
    page.evaluate(ANSWERED, number + 1)


def measure(page: Page, taps: int) -> list[float]:
    """Milliseconds of each tap; the first round, in which everything is new, is one of them."""
    for number in range(taps):
        tap(page, number)
    return page.evaluate("answered")


def main() -> None:
    """Print the median and the worst beside the target."""
    taps = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        command = [sys.executable, "-m", "mkdocs", "build", "-q", "-d", name]
        subprocess.run(command, cwd=ROOT, check=True)
        browser = chromium.launch(playwright)
        print(facts(browser))
        with serving(Path(name)) as base:
            page = browser.new_page(viewport={"width": 820, "height": 1180}, has_touch=True)
            begin(page, base + PAGE)
            full = measure(page, taps)
            page.evaluate("answered = []")
            with slowed(4):
                slow = measure(page, taps)
        browser.close()
    for manner, times in (("at full speed", full), ("slowed", slow)):
        print(f"A tap in a job, {manner}: {statistics.median(times):.0f} ms, the worst {max(times):.0f} ms of {len(times)}; target {TARGET:.0f}")


if __name__ == "__main__":
    main()
