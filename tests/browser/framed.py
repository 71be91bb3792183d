"""Pages in a frame of their own for the browser: sizes, the frame, the calculators' answers without a worker."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

from calculators._lib import entry
from hooks.device import SCRIPTS
from hooks.page import bundle
from tests.pages.drawn import PUMP, draw, sample

Serve = Callable[..., str]
Go = Callable[[str], Page]

CALCULATE = """
window.stillbench = {
  ...window.stillbench,
  state: "ready",
  onstate: (listener) => listener("ready"),
  calculate: async (id, request) => window.held ? new Promise(() => {}) : JSON.parse(await ask(id, JSON.stringify(request))),
};
"""
"""Stands in for the worker: the same Python answers, outside the browser."""

JOB = [path.read_text("utf-8") for path in SCRIPTS if path.parent.name == "job"]

SIZES = ((820, 1180), (390, 844), (320, 640), (844, 390))
TABLET, PHONE, SMALL = SIZES[:3]
FRAME = (
    '<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
    '<title>t</title><link rel="stylesheet" href="bench.css"><body class="plain">{0}<script src="bench.js"></script>'
)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("pages")
    (folder / "bench.css").write_text(bundle.css(["body.plain { margin: 0; }"]), "utf-8")
    (folder / "bench.js").write_text(bundle.js([CALCULATE, *JOB]), "utf-8")
    flow = draw(PUMP.replace("calculator: coil\n", ""))
    pages = {"pump": draw(), "flow": flow, "laundry": sample("laundry-fill-valve.md"), "customer": sample("cooler-self-check.md")}
    for name, page in pages.items():
        (folder / f"{name}.html").write_text(FRAME.format(page.html), "utf-8")
    return folder


@pytest.fixture
def at(site: Path, serve: Serve, page: Page) -> Callable[[str], Page]:
    """Go to a page of the folder with the calculators at hand."""
    base = serve(site)
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.expose_function("ask", entry.answer)

    def go(address: str) -> Page:
        page.goto(f"{base.rstrip('/')}/{address}")
        assert not errors
        return page

    return go


def board(page: Page) -> str:
    return page.locator(".board strong").inner_text()


def opened(page: Page) -> list[str]:
    """The ids of the open steps, once the page has followed its address."""
    return page.evaluate("""async () => {
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
        return [...document.querySelectorAll('.step[data-open]')].map((s) => s.id);
    }""")
