"""Takes the pictures in docs/pictures anew: `python -m tests.pictures`, or `make pictures`.

They are of the demo as it is now; the preview is of a copy of it, in which a proof was taken out.
"""

from __future__ import annotations

import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from playwright.sync_api import Browser, Page, expect, sync_playwright

from tests.browser import chromium
from tests.browser.conftest import ROOT
from tests.browser.server import serving

FOLDER = ROOT / "docs/pictures"
TABLET, PHONE = (820, 1180), (390, 844)
VALVE = "ice-cabinet/no-ice-double-valve.html"
PROOF = ("### Shut, drain and prove the water again {", "### Is the flow enough? {")
"""Between which the preview's page has lost its proof."""
PATIENCE = 180
"""Seconds until a preview is believed to be stuck."""


@dataclass(frozen=True)
class Picture:
    """What is looked at, how large, in which light, and what is done there first."""

    name: str
    address: str
    size: tuple[int, int]
    done: Callable[[Page], None] = lambda page: None
    light: Literal["light", "dark"] = "light"


def _read(page: Page) -> None:
    page.locator("#water-coil input[name=readings]").fill("312")
    expect(page.locator("#water-coil .judged-now .word")).to_have_text("IN LIMITS", timeout=60_000)
    page.locator("#water-coil input[name=readings]").blur()
    _did_them_all(page)


def _did_them_all(page: Page) -> None:
    page.get_by_text("I did them all").click()
    page.evaluate("document.querySelector(location.hash).scrollIntoView()")


def _first_finding(page: Page) -> None:
    page.get_by_text("go to the first").click()
    _did_them_all(page)


def _first_question(page: Page) -> None:
    page.locator(".question[data-open] .way").first.click()
    expect(page.get_by_role("heading", name="snowflake")).to_be_visible()


OF_THE_SITE = (
    Picture("before-tablet", VALVE, TABLET),
    Picture("procedure-tablet", f"{VALVE}#water-coil", TABLET, _read),
    Picture("procedure-phone-dark", "laundry-machine/fill-valve.html#live", PHONE, _did_them_all, "dark"),
    Picture("self-check-phone", "self-checks/no-ice.html", PHONE, _first_question),
)
OF_THE_PREVIEW = Picture("preview-tablet", VALVE, TABLET, _first_finding)


def take(browser: Browser, base: str, picture: Picture) -> None:
    """One picture, into its file."""
    width, height = picture.size
    page = browser.new_page(viewport={"width": width, "height": height}, color_scheme=picture.light, reduced_motion="reduce")
    page.goto(base + picture.address)
    picture.done(page)
    page.wait_for_timeout(500)
    page.screenshot(path=FOLDER / f"{picture.name}.png")
    page.close()


@contextmanager
def previewed(folder: Path) -> Iterator[str]:
    """The address of a preview of the demo in which a step drains and proves nothing."""
    shutil.copytree(ROOT / "procedures", folder / "procedures")
    (folder / "mkdocs.yml").write_text("site_name: Orsel Valley Workshop\ndocs_dir: procedures\nuse_directory_urls: false\nplugins: [stillbench]\n")
    page = (folder / "procedures" / VALVE).with_suffix(".md")
    before, begin, rest = page.read_text("utf-8").partition(PROOF[0])
    step, end, after = rest.partition(PROOF[1])
    step = step.replace(' verify="water"', "").replace("**Proved**, no drip", "No drip").replace("**Not proved**, it", "It")
    page.write_text(before + begin + step + end + after, "utf-8")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        place = f"127.0.0.1:{free.getsockname()[1]}"
    server = subprocess.Popen([sys.executable, "-m", "mkdocs", "serve", "-a", place], cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        _answered(f"http://{place}/")
        yield f"http://{place}/"
    finally:
        server.terminate()
        server.wait()


def _answered(address: str) -> None:
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        try:
            urllib.request.urlopen(address, timeout=60).close()
            return
        except OSError:
            time.sleep(0.5)
    raise SystemExit(f"{address} does not answer")


def main() -> None:
    """Build the demo, take all pictures."""
    with tempfile.TemporaryDirectory() as work, sync_playwright() as playwright:
        browser = chromium.launch(playwright)
        subprocess.run([sys.executable, "-m", "mkdocs", "build", "-q", "-d", f"{work}/site"], cwd=ROOT, check=True)
        with serving(Path(work, "site")) as base:
            for picture in OF_THE_SITE:
                take(browser, base, picture)
        with previewed(Path(work, "shop")) as base:
            take(browser, base, OF_THE_PREVIEW)
        browser.close()


if __name__ == "__main__":
    main()
