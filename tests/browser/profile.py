"""A browser that keeps what it stores, and can be killed: as a tablet whose battery went flat."""

from __future__ import annotations

import os
import signal
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import BrowserContext, Playwright

from tests.browser import chromium

START_LIMIT = 30
"""Seconds until a Chromium must have said where it listens."""


@contextmanager
def browsing(playwright: Playwright, profile: Path, *more: str) -> Iterator[BrowserContext]:
    """A Chromium on the profile in that folder; at the end it is killed with all its processes.

    `more` are arguments for it.
    """
    found = chromium.find(playwright)
    assert found, "No Chromium here: run `make test`, which installs one."
    said = profile / "DevToolsActivePort"
    said.unlink(missing_ok=True)
    root = ["--no-sandbox"] if os.geteuid() == 0 else []
    own = [f"--user-data-dir={profile}", "--remote-debugging-port=0", "--headless=new", "about:blank"]
    process = subprocess.Popen(
        [str(found), *chromium.QUIET, *root, *more, *own],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True,
    )  # fmt: skip
    try:
        browser = playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{_port(said)}")
        yield browser.contexts[0]
    finally:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()


def _port(said: Path) -> str:
    end = time.monotonic() + START_LIMIT
    while not (said.exists() and said.read_text().strip()):
        assert time.monotonic() < end, "Chromium did not start."
        time.sleep(0.05)
    return said.read_text().split()[0]
