"""The demo shop as it is published: one page of each kind, and the headers of docs/publishing.md."""

from __future__ import annotations

import re
from pathlib import Path

from bs4 import BeautifulSoup

from tests.browser.conftest import ROOT

DOCUMENT = ROOT / "docs/publishing.md"


def headers() -> dict[str, str]:
    """What the document tells a server to send."""
    block = re.search(r"```\n(Content-Security-Policy: .*?)```", DOCUMENT.read_text("utf-8"), re.DOTALL)
    assert block
    return dict(line.split(": ", 1) for line in block[1].splitlines())


def kinds(site: Path) -> dict[str, str]:
    """The largest page of each kind, by kind; ordinary pages are of the kind "text"."""
    found: dict[str, str] = {}
    for page in sorted(site.rglob("*.html"), key=lambda page: page.stat().st_size):
        main = BeautifulSoup(page.read_bytes(), "html.parser").find("main")
        if main:
            found[str(main.get("data-kind", "text"))] = page.relative_to(site).as_posix()
    return found | {"lost": "404.html"}
