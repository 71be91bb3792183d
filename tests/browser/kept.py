"""What the tests of kept pages share: a shop's site that changes, a tablet, what is on it."""

from __future__ import annotations

import json
import shutil
import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import BrowserContext, Error, Page, Playwright, expect

from hooks.device import edition
from tests.browser.profile import browsing
from tests.browser.server import Manner, serving

MACHINE = "machines/ice-cabinet.html"
PROCEDURE = "ice-cabinet/no-ice-double-valve.html"
SELF_CHECK = "self-checks/no-ice.html"
OTHER = "laundry-machine/fill-valve.html"
LIMIT = 30_000
"""Milliseconds that a browser may take on a busy machine."""


@dataclass
class Shop:
    """A copy of the demo's site on an address of its own, and a tablet that comes to it."""

    site: Path
    profile: Path
    playwright: Playwright
    port: int
    cut: list[str] = field(default_factory=list)
    stalled: list[str] = field(default_factory=list)

    @property
    def base(self) -> str:
        return f"http://127.0.0.1:{self.port}/shop/"

    @contextmanager
    def open(self) -> Iterator[None]:
        """While this lasts there is a network."""
        manner = Manner(under="/shop", cut=self.cut, stalled=self.stalled, port=self.port)
        with serving(self.site, manner):
            yield
            self.stalled.clear()

    @contextmanager
    def tablet(self, *more: str) -> Iterator[BrowserContext]:
        """While this lasts the browser runs; then it is killed."""
        with browsing(self.playwright, self.profile, *more) as context:
            yield context

    def publish(self) -> str:
        """List the site's files anew, in the same sets."""
        lists = self.site / edition.FOLDER
        found = {p.relative_to(lists).with_suffix("").as_posix(): list(json.loads(p.read_text())) for p in lists.rglob("*.json")}
        found.pop("pages")
        return edition.publish(self.site, found)

    def rewrite(self, path: str, old: str, new: str) -> None:
        """Change a file of the site."""
        file = self.site / path
        text = file.read_text("utf-8")
        assert old in text
        file.write_text(text.replace(old, new), "utf-8")

    def restyle(self) -> None:
        """Give every page a style of another name, as a change of styles does."""
        old = next(self.site.glob("assets/stillbench/stillbench-*.css"))
        new = old.with_name("stillbench-000000000000.css")
        new.write_text(f"{old.read_text('utf-8')}\n.changed {{}}\n", "utf-8")
        old.unlink()
        for page in self.site.rglob("*.html"):
            page.write_text(page.read_text("utf-8").replace(old.name, new.name), "utf-8")


def shop(demo: Path, folder: Path, playwright: Playwright) -> Shop:
    """A shop in `folder` with nothing on its tablet yet."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    site = shutil.copytree(demo, folder / "site")
    (folder / "profile").mkdir()
    return Shop(site, folder / "profile", playwright, port)


def ask(page: Page, word: str = "ask") -> dict:
    """What the service worker answers the page."""
    return page.evaluate("(word) => stillbench.keeper.ask(word)", word)


def on_tablet(page: Page) -> set[str]:
    """The addresses of the pages that are kept."""
    return {path for path, _ in ask(page, "kept")["pages"]}


def settle(page: Page) -> None:
    """Wait until the calculators' worker runs, where there is one."""
    page.wait_for_function(
        "() => !document.querySelector('[data-calculator]') || stillbench.state === 'ready'", timeout=2 * LIMIT
    )


def visit(page: Page, base: str, *paths: str) -> None:
    """Look at pages until each is kept."""
    for path in paths:
        page.goto(base + path)
        until(page, f"(await stillbench.keeper.ask('kept')).pages.some(([kept]) => kept === '{path}')")
        settle(page)


def until(page: Page, so: str) -> None:
    """Wait until what the page has to wait for itself is so: a function that gives a promise is always true to Playwright."""
    assert _comes(page, so, LIMIT), f"it never came that {so}"


def replaced(page: Page, so: str) -> None:
    """The same for what comes once a new service worker has taken over from the old one.

    A browser ends a worker that has nothing to do, but seldom while a debugger looks on, as a test does; the new one
    waits for that. So the old one is ended here, where it takes long.
    """
    if not _comes(page, so, LIMIT // 2):
        debugger = page.context.new_cdp_session(page)
        debugger.send("ServiceWorker.enable")
        debugger.send("ServiceWorker.stopAllWorkers")
        until(page, so)


def _comes(page: Page, so: str, limit: int) -> bool:
    last = time.monotonic() + limit / 1000
    while not (there := _is(page, so)) and time.monotonic() < last:
        page.wait_for_timeout(50)
    return there


def _is(page: Page, so: str) -> bool:
    try:
        return page.evaluate(f"async () => {so}")
    except Error as error:
        if "context was destroyed" in str(error):  # the page is loaded anew
            return False
        raise


def keep(page: Page, base: str, machine: str = MACHINE) -> None:
    """Keep a machine's pages by pressing what a reader presses."""
    page.goto(base + machine)
    page.get_by_role("button", name="Keep on this device").click()
    expect(page.get_by_role("button", name="Take off this device")).to_be_visible(timeout=LIMIT)


def style(page: Page) -> str:
    """The name of the style that the page wears; it fails where the style is not applied."""
    assert page.evaluate("getComputedStyle(document.querySelector('.site')).display") == "flex"
    return page.evaluate("document.querySelector('link[rel=stylesheet]').href.split('/').at(-1)")
