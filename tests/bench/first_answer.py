"""Times a calculator's first answer, ours against stock PyScript, on this machine.

`python -m tests.bench.first_answer [repeats]`. Stock is the page of docs/calculators-elsewhere.md. Both have the
same calculators and Pyodide, from here. Cold: nothing is cached. Offline: a service worker that keeps everything
answers. Slowed: cold, and the whole browser gets a quarter of the time.
"""

from __future__ import annotations

import json
import os
import platform
import statistics
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from hooks.device import SCRIPTS
from hooks.runtime import lay
from hooks.runtime.packages import version
from tests.browser import chromium
from tests.browser.conftest import ROOT
from tests.bench.slowed import slowed
from tests.browser.elsewhere import EXAMPLE, lay_elsewhere
from tests.browser.server import serving

TARGETS = {"cold": 0.45, "offline": 0.45, "slowed": 0.25}
CALCULATOR, REQUEST = "coil", {"fields": {"readings": "312"}, "limits": {"low": "100", "high": "500", "unit": "ohm"}}
ANSWERED = "() => document.body?.dataset.at && Number(document.body.dataset.at)"

OURS = """<!doctype html><meta charset=utf-8><body data-calculator>
<script src=register.js></script>
<output></output>
<script src=stillbench.js data-runtime="{folder}"></script>
<script>stillbench.calculate("{calculator}", {request}).then((answer) => {{
  document.querySelector("output").textContent = answer.sentence;
}});</script>"""

ANSWER = "is between 100 and 500"

KEEP_ALL = """self.onactivate = (event) => event.waitUntil(clients.claim());
self.onfetch = (event) => event.respondWith((async () => {
  const kept = await caches.match(event.request);
  if (kept) return kept;
  const response = await fetch(event.request);
  if (response.ok) await (await caches.open("all")).put(event.request, response.clone());
  return response;
})());"""

REGISTER = """if (location.search === "?keep") navigator.serviceWorker.register("keep_all.js");
new MutationObserver(() => {
  const said = document.querySelector("output")?.textContent;
  if (said?.includes("ANSWER")) document.body.dataset.at ??= performance.now();
}).observe(document, { subtree: true, childList: true });""".replace("ANSWER", ANSWER)
"""Notes when the answer stands in the page; on both pages, before anything else."""


@dataclass(frozen=True)
class Series:
    """The times of one page in one manner, in milliseconds."""

    times: list[float]

    @property
    def median(self) -> float:
        return statistics.median(self.times)

    def __format__(self, form: str) -> str:
        return format(f"{self.median:.0f} ({min(self.times):.0f} to {max(self.times):.0f})", form)


def lay_page(folder: Path, name: str, runtime: str) -> None:
    """A page of ours that asks the calculators of the runtime laid at `runtime`."""
    script = "\n".join(path.read_text("utf-8") for path in SCRIPTS)
    words = {"folder": runtime, "calculator": CALCULATOR, "request": json.dumps(REQUEST)}
    for file, text in {f"{name}.html": OURS.format(**words), "stillbench.js": script, "register.js": REGISTER}.items():
        (folder / file).write_text(text, "utf-8")


def lay_site(folder: Path) -> None:
    """A site with one page of each kind."""
    lay_page(folder, "ours", lay(folder, ROOT / "calculators", ROOT / ".cache/runtime").folder)
    lay_elsewhere(folder)
    stock = EXAMPLE.read_text("utf-8").replace("<title>", "<script src=register.js></script><title>", 1)
    (folder / "stock.html").write_text(stock, "utf-8")
    (folder / "keep_all.js").write_text(KEEP_ALL, "utf-8")


def first_answer(page: Page, url: str) -> float:
    """Milliseconds from the start of the navigation to the answer in the page."""
    page.goto(url)
    return page.wait_for_function(ANSWERED, timeout=120_000).json_value()


def cold(browser: Browser, url: str) -> float:
    """In a browser that has never seen the page."""
    with browser.new_context() as context:
        return first_answer(context.new_page(), url)


def offline(browser: Browser, url: str) -> float:
    """On the third visit, without a network."""
    with browser.new_context() as context:
        page = context.new_page()
        page.goto(url + "?keep")
        page.evaluate("navigator.serviceWorker.ready.then(() => null)")
        first_answer(page, url)
        context.set_offline(True)
        return first_answer(page, url)


def slow(browser: Browser, url: str) -> float:
    """Cold, in a browser that runs four times slower."""
    with slowed(4):
        return cold(browser, url)


def measure(browser: Browser, base: str, repeats: int) -> list[tuple[str, Series, Series]]:
    """Both pages in turn, so that a busy moment falls on both."""
    rows = []
    manners: dict[str, Callable[[Browser, str], float]] = {
        "cold": cold,
        "offline": offline,
        "slowed": slow,
    }
    for name, manner in manners.items():
        ours, stock = Series([]), Series([])
        for _ in range(repeats):
            ours.times.append(manner(browser, base + "ours.html"))
            stock.times.append(manner(browser, base + "stock.html"))
        rows.append((name, ours, stock))
    return rows


def facts(browser: Browser) -> str:
    """What the figures depend on."""
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    told = ", ".join(f"{name} {version(name)}" for name in ("pyodide", "@pyscript/core"))
    return f"Chromium {browser.version}, {told}, {os.cpu_count()} cores, {platform.machine()}, load {load}"


def main() -> None:
    """Print a line for each manner, and the ratios."""
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        lay_site(Path(name))
        browser = chromium.launch(playwright)
        print(facts(browser))
        print(f"First answer, median of {repeats}, ms (least to most)")
        print(f"{'':8} {'ours':>22} {'stock PyScript':>22}  ratio  target")
        with serving(Path(name)) as base:
            for manner, ours, stock in measure(browser, base, repeats):
                ratio = ours.median / stock.median
                print(f"{manner:8} {ours:>22} {stock:>22}  {ratio:5.2f}  {TARGETS[manner]:6.2f}")
        browser.close()


if __name__ == "__main__":
    main()
