"""Times one more answer of a calculator that has started, in a browser slowed four times.

`python -m tests.bench.recalculation [rows]`. From the page's question to the page's answer: the way to
the worker and back is in it. Answers are timed in rows, one after the other, and a row is divided by
its length: a single one would mostly fall between two stops of the slowed browser.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.bench.first_answer import ANSWERED, CALCULATOR, REQUEST, facts, lay_site
from tests.bench.slowed import slowed
from tests.browser import chromium
from tests.browser.server import serving

TARGET = 16.0
"""Milliseconds: one frame."""
ROW = 20
AGAIN = """async ([calculator, request, rows, row]) => {
  const times = [];
  for (let one = 0; one < rows; one += 1) {
    const from = performance.now();
    for (let i = 0; i < row; i += 1) {
      request.fields.readings = String(200 + one + i / row);
      const answer = await stillbench.calculate(calculator, request);
      if (!answer.verdict) throw new Error(JSON.stringify(answer.refused));
    }
    times.push((performance.now() - from) / row);
  }
  return times;
}"""
"""Each with a reading of its own, so that nothing is remembered."""


def main() -> None:
    """Print the median beside its target."""
    rows = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        lay_site(Path(name))
        browser = chromium.launch(playwright)
        print(facts(browser))
        with serving(Path(name)) as base:
            page = browser.new_page()
            page.goto(base + "ours.html")
            page.wait_for_function(ANSWERED, timeout=120_000)
            with slowed(4):
                times = page.evaluate(AGAIN, [CALCULATOR, REQUEST, rows, ROW])
        browser.close()
    median = statistics.median(times)
    print(f"One recalculation, slowed: {median:.1f} ms, median of {rows} rows of {ROW} ({min(times):.1f} to {max(times):.1f}), target {TARGET:.0f}")


if __name__ == "__main__":
    main()
