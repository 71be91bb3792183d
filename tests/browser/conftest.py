"""What browser tests share: one Chromium, servers, the requests that were made, the demo shop."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, Request, sync_playwright

from tests.browser import chromium
from tests.browser.server import Manner, serving

ROOT = Path(__file__).resolve().parents[2]

Serve = Callable[..., str]


@dataclass
class Recorder:
    """The addresses asked for by pages, frames and workers of one context."""

    urls: list[str] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)
    """Those without what the service worker fetches to keep it."""

    def listen(self, context: BrowserContext) -> None:
        """Record what `context` asks for from now on."""
        context.on("request", self._hear)

    def beyond(self, origin: str) -> list[str]:
        """What was asked of anybody else than `origin`."""
        own = (origin, "data:", "blob:")
        return [url for url in self.urls if not url.startswith(own)]

    def _hear(self, request: Request) -> None:
        self.urls.append(request.url)
        if request.service_worker is None:
            self.asked.append(request.url)


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """A Chromium; without one the test fails, it is never passed over."""
    started = chromium.launch(playwright)
    yield started
    started.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A fresh context: no storage, no cache."""
    opened = browser.new_context()
    yield opened
    opened.close()


@pytest.fixture
def recorder(context: BrowserContext) -> Recorder:
    """The requests of `context`."""
    recording = Recorder()
    recording.listen(context)
    return recording


@pytest.fixture
def page(context: BrowserContext) -> Page:
    return context.new_page()


@pytest.fixture
def serve() -> Iterator[Serve]:
    """Serve a folder until the test ends: `serve(folder, under="/shop", types={".wasm": "text/plain"})`."""
    with ExitStack() as stack:
        yield lambda folder, **manner: stack.enter_context(serving(folder, Manner(**manner)))


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo shop, built once a session."""
    site = tmp_path_factory.mktemp("demo") / "site"
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "-d", str(site)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return site
