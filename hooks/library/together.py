"""What a device keeps together: the pages of one machine, and the pages that lead to all."""

from __future__ import annotations

from hooks.library.entries import Library

LISTS = ("customers.html", "symptoms.html", "parts-and-tools.html", "about.html")
"""The pages that lead to pages, apart from the start page, which every device has."""


def library(all_pages: Library) -> tuple[str, ...]:
    """What is kept with any machine, as addresses: the lists, and the shop's ordinary pages."""
    return (*LISTS, *(e.address for e in all_pages.texts))


def machines(all_pages: Library) -> dict[str, tuple[str, ...]]:
    """The addresses of each machine's own pages, by the id of the set ("machines/cooler")."""
    return {f"machines/{m.id}": (f"machines/{m.id}.html", *(e.address for e in m.entries)) for m in all_pages.machines}
