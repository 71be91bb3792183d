"""What a device keeps together: the pages of one machine, and the pages that lead to all."""

from __future__ import annotations

from collections.abc import Iterator

from hooks.library import translations
from hooks.library.entries import Library, Machine
from hooks.library.translations import path_in

LISTS = ("customers.html", "symptoms.html", "parts-and-tools.html", "about.html")
"""The pages that lead to pages, apart from the start page, which every device has."""


def library(all_pages: Library) -> tuple[str, ...]:
    """What is kept with any machine, as addresses: the lists, and the shop's ordinary pages."""
    others = (path_in(path, code) for code in all_pages.languages for path in translations.LISTS)
    return (*LISTS, *(e.address for e in all_pages.texts), *others)


def machines(all_pages: Library) -> dict[str, tuple[str, ...]]:
    """The addresses of each machine's own pages, by the id of the set ("machines/cooler")."""
    return {f"machines/{m.id}": (f"machines/{m.id}.html", *_own(m, all_pages.languages)) for m in all_pages.machines}


def _own(machine: Machine, languages: tuple[str, ...]) -> Iterator[str]:
    yield from (e.address for e in machine.entries)
    yield from (path_in(e.address, code) for code in languages for e in machine.self_checks)
