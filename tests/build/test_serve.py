"""`mkdocs serve`: the writer sees the finding inside its step, and sees it go."""

from __future__ import annotations

import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import urljoin

import pytest
from bs4 import BeautifulSoup

from tests.build import shop

PATIENCE = 90
"""Seconds until a slow machine is believed to be stuck."""


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[tuple[Path, str]]:
    folder = shop.lay(tmp_path / "shop", shop.BROKEN)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        place = f"127.0.0.1:{free.getsockname()[1]}"
    command = [sys.executable, "-m", "mkdocs", "serve", "-a", place]
    with (tmp_path / "log").open("w") as log:
        serving = subprocess.Popen(command, cwd=folder, stdout=log, stderr=log)
    yield folder, f"http://{place}/switch.html"
    serving.terminate()
    serving.wait(PATIENCE)


def until(address: str, fits: Callable[[BeautifulSoup], bool]) -> BeautifulSoup:
    """Ask for a page until it is as wanted."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        try:
            with urllib.request.urlopen(address, timeout=5) as answer:
                page = BeautifulSoup(answer.read(), "html.parser")
            if fits(page):
                return page
        except (urllib.error.URLError, ConnectionError):
            pass
        time.sleep(0.2)
    raise AssertionError(f"{address} never became what was wanted")


def test_serving_goes_on_with_an_error_which_stands_in_its_step(preview: tuple[Path, str]) -> None:
    folder, address = preview
    page = until(address, lambda page: page.select_one("#swap") is not None)
    finding = page.select_one("#swap .finding")
    assert finding and "hands-on-live" in finding.get_text()
    assert not page.select("#unplug .finding")
    rule = until(urljoin(address, finding.select_one(".why")["href"]), lambda page: page.h1 is not None)
    assert rule.h1.get_text() == "hands-on-live" and not rule.select(".preview")
    (folder / "procedures/switch.md").write_text(shop.PAGE, "utf-8")
    until(address, lambda page: not page.select(".finding") and page.select_one("#prove") is not None)


def test_a_page_that_cannot_be_read_is_shown_with_its_reason(preview: tuple[Path, str]) -> None:
    folder, address = preview
    until(address, lambda page: page.select_one("#swap") is not None)
    (folder / "procedures/switch.md").write_text("# No front matter\n", "utf-8")
    page = until(address, lambda page: "front-matter" in page.get_text())
    assert "switch.md" in page.get_text()
