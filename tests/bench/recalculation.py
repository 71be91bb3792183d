"""Times one more answer of a calculator that has started, in a browser slowed four times: of the heaviest.

`python -m tests.bench.recalculation [rows]`. From the page's question to the page's answer: the way to
the worker and back is in it. Which is the heaviest is found first, in the same browser at full speed. Answers are
timed in rows, one after the other, and a row is divided by its length: a single one would mostly fall between two
stops of the slowed browser.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from calculators._lib import shelf
from calculators._lib.declare import Calculator
from tests.bench.first_answer import ANSWERED, facts, lay_site
from tests.bench.slowed import slowed
from tests.browser import chromium
from tests.browser.server import serving

TARGET = 16.0
"""Milliseconds: one frame."""
ROW = 20
AGAIN = """async ([calculator, request, typed, rows, row]) => {
  const times = [];
  const text = request.fields[typed];
  for (let one = 0; one < rows; one += 1) {
    const from = performance.now();
    for (let i = 0; i < row; i += 1) {
      const changed = (number) => (number.replace(",", ".") * (1 + (one + i / row) / 1000)).toPrecision(6);
      request.fields[typed] = text.replace(/[0-9.,]+/, changed);
      const answer = await stillbench.calculate(calculator, request);
      if (answer.refused.length) throw new Error(JSON.stringify(answer.refused));
    }
    times.push((performance.now() - from) / row);
  }
  return times;
}"""
"""Each with a reading of its own, so that nothing is remembered."""


def again(page: Page, calculator: Calculator, rows: int) -> list[float]:
    """Milliseconds for one answer to the worked example, row by row."""
    example = calculator.example
    limits = {"low": example.low, "high": example.high, "unit": example.unit or None}
    request = {"fields": example.fields, "limits": limits}
    return page.evaluate(AGAIN, [calculator.id, request, calculator.typed[0], rows, ROW])


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
            full = {id: min(again(page, shelf.get(id), 10)) for id in shelf.ids()}
            heaviest = max(full, key=full.__getitem__)
            with slowed(4):
                times = again(page, shelf.get(heaviest), rows)
        browser.close()
    print("At full speed, ms, the quickest row: " + ", ".join(f"{id} {time:.1f}" for id, time in full.items()))
    told = f"{statistics.median(times):.1f} ms, median of {rows} rows of {ROW} ({min(times):.1f} to {max(times):.1f})"
    print(f"One more answer of {heaviest}, slowed: {told}, target {TARGET:.0f}")


if __name__ == "__main__":
    main()
