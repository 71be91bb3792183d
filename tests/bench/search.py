"""Times the first result of a search in a large shop, ours against Material's, on this machine.

`python -m tests.bench.search [PAGES [REPEATS]]` (2,000 and 3): the time from opening a page in a
browser that has never seen it, and that runs four times slower, to the first result, with what is
pressed and typed done within the page, the moment it can be; and the bytes that were moved for the
search alone, compressed where a server would. The browser's own window is there before: it is no
part of either site. Material gets the same texts without the navigation, which would only slow its
pages down. It takes some minutes.
"""

from __future__ import annotations

import gzip
import json
import os
import platform
import statistics
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Page, sync_playwright

from tests.bench import shops, stock
from tests.bench.slowed import slowed
from tests.browser import chromium
from tests.browser.server import serving

TIME, BYTES = 0.05, 200_000
"""At most so much of Material's time, and so many bytes."""
TIMEOUT = 180_000
READ = "first result: "
SOMEBODY = """([opens, field, result, typed, read]) => {
  const seen = (selector) => [...document.querySelectorAll(selector)].find((one) => one.checkVisibility());
  const type = (into, text) => {
    into.value = text;
    for (const kind of ["keydown", "input", "keyup"]) into.dispatchEvent(new Event(kind, { bubbles: true }));
  };
  const acts = [
    [opens, (button) => button.click()],
    [field, (into) => (into.focus(), type(into, typed.slice(0, -1)))],
    [field, (into) => type(into, typed)],
    [result, (link) => console.log(read + JSON.stringify([performance.now(), link.getAttribute("href")]))],
  ];
  const look = () => {
    const found = seen(acts[0][0]);
    if (found) acts.shift()[1](found);
    if (acts.length) requestAnimationFrame(look);
  };
  addEventListener("DOMContentLoaded", look);
}"""
"""Does one thing a frame, as soon as it can be done: press, type but for one letter, type that, read."""
SETTLE = 1500
"""Milliseconds until a browser's new window has drawn itself."""


@dataclass(frozen=True, slots=True)
class Sort:
    """How one of the two is asked, and which of its files are the search's."""

    opens: str
    field: str
    result: str
    files: tuple[str, ...]


OURS = Sort("[data-search-open]", ".search [name=words]", ".search .found a", ("/find-", "/pagefind/"))
MATERIAL = Sort(".md-search__input", ".md-search__input", ".md-search-result__link", ("/search/", "/workers/search"))


@dataclass(frozen=True, slots=True)
class Found:
    """One search: milliseconds, bytes, the first result's address."""

    time: float
    bytes: int
    first: str


def build(folder: Path) -> Path:
    """The site of the shop that lies in `folder`."""
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": str(shops.ROOT)}
    subprocess.run([sys.executable, "-m", "mkdocs", "build", "-q"], cwd=folder, env=environment, check=True)
    return folder / "site"


def lay_stock(folder: Path, pages: int) -> Path:
    """The same texts for Material, without the navigation."""
    laid = stock.lay(folder, pages)
    with (laid / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write("nav: [index.md]\nvalidation: {nav: {omitted_files: ignore}}\n")
    return laid


def moved(site: Path, address: str) -> int:
    """Bytes of a file as a server sends it: compressed, unless it is smaller as it is."""
    content = (site / urlsplit(address).path.lstrip("/")).read_bytes()
    return min(len(content), len(gzip.compress(content)))


def search(page: Page, sort: Sort, base: str, site: Path, typed: str) -> Found:
    """Open the start page; there somebody presses, types, and reads the first result."""
    asked: list[str] = []
    page.context.on("request", lambda request: asked.append(request.url))
    page.add_init_script(f"({SOMEBODY})({json.dumps([sort.opens, sort.field, sort.result, typed, READ])})")
    with page.expect_console_message(lambda said: said.text.startswith(READ), timeout=TIMEOUT) as said:
        page.goto(base + "index.html", wait_until="commit")
    time, link = json.loads(said.value.text.removeprefix(READ))
    own = {url for url in asked if any(part in url for part in sort.files)}
    return Found(time, sum(moved(site, url) for url in own), link.removeprefix("./").removeprefix(base))


def fresh(browser: Browser, sort: Sort, site: Path, typed: str) -> Found:
    """The same in a browser that has never seen the site, and is slowed."""
    with serving(site) as base, browser.new_context() as context:
        page = context.new_page()
        page.wait_for_timeout(SETTLE)
        with slowed(4):
            return search(page, sort, base, site, typed)


def queries(folder: Path) -> dict[str, str]:
    """What is typed, by what it is: a symptom, a part number, a step, the end of its text; of one page in the middle."""
    pages = sorted((folder / "procedures").rglob("procedure-*.md"))
    text = pages[len(pages) // 2].read_text("utf-8")
    head, body = text.split("\n---\n", 1)
    symptom = head.split("symptoms:")[1].split("\n")[1].strip(" -'\"")
    number = head.split("\nparts:")[1].split("number: ")[1].split(",")[0].strip("'\"} ")
    step, _, said, *_ = body[body.index("### Measure ") :].splitlines()
    text = " ".join(said.rstrip(".").split()[-4:])
    return {"symptom": symptom, "part number": number, "step": step.removeprefix("### ").split(" {")[0], "text": text}


def main() -> None:
    """Print the times and bytes of each query, and the ratios with their targets."""
    count, repeats = (*map(int, sys.argv[1:]), *(2000, 3)[len(sys.argv) - 1 :])
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        ours, theirs = shops.lay(Path(name, "ours"), count), lay_stock(Path(name, "stock"), count)
        sites = ((OURS, build(ours)), (MATERIAL, build(theirs)))
        browser = chromium.launch(playwright)
        load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
        print(f"{count} pages, Chromium {browser.version}, {os.cpu_count()} cores, {platform.machine()}, load {load}")
        for what, typed in queries(ours).items():
            runs = [[fresh(browser, sort, site, typed) for sort, site in sites] for _ in range(repeats)]
            mine, stocks = zip(*runs, strict=True)
            times = [statistics.median(one.time for one in some) for some in (mine, stocks)]
            print(f'{what} "{typed}": ours {times[0]:.0f} ms, {mine[0].bytes / 1000:.0f} KB, {mine[0].first}')
            print(f"    Material {times[1]:.0f} ms, {stocks[0].bytes / 1000:.0f} KB, {stocks[0].first}")
            print(f"    ratio {times[0] / times[1]:.3f}, target {TIME}; target {BYTES / 1000:.0f} KB")
        browser.close()


if __name__ == "__main__":
    main()
