"""A small shop's generated pages, as soup."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from bs4 import BeautifulSoup

from hooks.page import calculator_pages, site_pages
from hooks.page.generated import GeneratedPage
from tests.library.shops import READING, library, page, parsed

FILES = {
    "cabinet/no-ice.md": page(
        "no-ice", "No ice: <the> valve", READING, symptoms="[no ice, little ice]",
        tools="[multimeter]", parts="[{name: double valve, number: DV-2, quantity: 1}]",
    ),
    "ask.md": page("ask", "Your cabinet makes no ice", page="self-check", symptoms="[no ice]"),
    "drum.md": page("drum", "Drum stands still", appliance="washer", symptoms="[does not turn]"),
    "how.md": "---\ntitle: How we work\npage: text\n---\n# How we work\n\nWith care.\n",
}  # fmt: skip


def generated(folder: Path, files: Mapping[str, str] = FILES) -> dict[str, GeneratedPage]:
    """Every generated page by its path."""
    books = library(folder, files)
    made = site_pages.generated(books, parsed(folder, files).shop)
    return {p.path: p for p in (*made, *calculator_pages.generated(books))}


def soup(page: GeneratedPage) -> BeautifulSoup:
    """The page, parsed."""
    return BeautifulSoup(page.html, "html.parser")
