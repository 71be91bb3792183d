"""A job at work in a browser: a page with readings, a catch and a wait, begun and opened."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from calculators._lib import entry
from hooks.page import bundle
from tests.browser.conftest import Serve
from tests.browser.framed import CALCULATE, FRAME, JOB, TABLET
from tests.pages.drawn import PUMP, draw

Begin = Callable[..., Page]
Again = Callable[[Page], Page]

FLOW = """
```reading
id: flow
label: Flow
unit: L/min
at-least: 1.9
calculator: flow
```
"""
VOLTS = """
```reading
id: volts
label: Volts
unit: V
limits: [207, 253]
```
"""
BENCH = (
    PUMP.replace("time: 1 h 30 min", "time: 1 h 30 min\noff-limit: 2 h")
    .replace('verify="water"}', 'verify="water" wait="1 min"}')
    .replace('reads="coil"', 'reads="coil, flow, volts"')
    .replace("calculator: coil\n```\n", f"calculator: coil\n```\n{FLOW}{VOLTS}")
)
TO_DRAIN = ("Yes", "Next", "Proved")
"""The ways out from the first step to the one with the wait: the power went off and was proved."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "bench.css").write_text(bundle.css(["body.plain { margin: 0; }"]), "utf-8")
    (tmp_path / "bench.js").write_text(bundle.js([CALCULATE, *JOB]), "utf-8")
    (tmp_path / "bench.html").write_text(FRAME.format(draw(BENCH).html), "utf-8")
    return tmp_path


@pytest.fixture
def begin(folder: Path, serve: Serve, context: BrowserContext) -> Begin:
    """Begin a job; `init` is a script that runs before those of the page, `clock` a time at which it is."""
    address = f"{serve(folder).rstrip('/')}/bench.html"

    def start(step: str = "", init: str = "", clock: str = "", size: tuple[int, int] = TABLET) -> Page:
        tab = _tab(context, init)
        tab.set_viewport_size({"width": size[0], "height": size[1]})
        if clock:
            tab.clock.install(time=clock)
        tab.goto(address)
        tab.locator("form.begin [value=P1]").check()
        tab.locator("form.begin .way").click()
        opened(tab)
        return go(tab, step) if step else tab

    return start


@pytest.fixture
def again(context: BrowserContext) -> Again:
    """Open what a tab shows in another one."""

    def open_again(tab: Page) -> Page:
        other = _tab(context, "")
        other.goto(tab.url)
        return opened(other)

    return open_again


def _tab(context: BrowserContext, init: str) -> Page:
    tab = context.new_page()
    tab.expose_function("ask", entry.answer)
    if init:
        tab.add_init_script(init)
    return tab


def opened(tab: Page) -> Page:
    """Wait until the job stands on the page."""
    expect(tab.locator(".bar .time")).to_be_visible()
    return tab


def reload(tab: Page) -> Page:
    tab.reload()
    return opened(tab)


def go(tab: Page, step: str) -> Page:
    """Look at a step, by its address."""
    tab.evaluate("(id) => { location.hash = id; }", f"#{step}")
    expect(tab.locator(f"#{step}")).to_have_attribute("data-open", "")
    return tab


def take(tab: Page, *ways: str) -> None:
    """Press the ways out that have these words, from the first step on if none is open."""
    if not tab.locator(".step[data-open]").count():
        tab.locator(".start .way").click()
    for way in ways:
        before = tab.locator(".step[data-open]").get_attribute("id")
        tab.locator(".step[data-open] .ways .way", has_text=way).first.click()
        expect(tab.locator(f"#{before}")).not_to_have_attribute("data-open", "")


def events(tab: Page, *kinds: str) -> list[dict[str, object]]:
    """The events of the job that are of these kinds, in order."""
    script = "async (kinds) => (await stillbench.store.events(stillbench.desk.job.id)).filter((e) => kinds.includes(e.kind))"
    return tab.evaluate(script, list(kinds))
