"""Customers' pages in another language than the original."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import PurePosixPath

from hooks.library.entries import Entry, Library, Machine
from hooks.model import ORIGINAL, Shop

LISTS = ("customers.html", "first-minute.html")
"""The pages that no one wrote and customers read, beside those of the shop."""


def path_in(path: str, language: str) -> str:
    """Where a page stands in that language: "no-ice.de.html" for "no-ice.html"."""
    here = PurePosixPath(path)
    return path if language == ORIGINAL else here.with_name(f"{here.stem}.{language}{here.suffix}").as_posix()


def in_language(library: Library, shop: Shop, language: str) -> Library:
    """The customers' part of the library. A page that is not translated keeps its words, at its place in that language."""
    own = {e.translates: e for e in library.translations if e.language == language}
    titles = {a.id: a.title for a in shop.within(language).appliances}
    machines = tuple(_machine(m, own, titles, language) for m in library.machines if m.self_checks)
    entries = tuple(e for m in machines for e in m.self_checks)
    return replace(library, entries=entries, machines=machines)


def _machine(machine: Machine, own: Mapping[str, Entry], titles: Mapping[str, str], language: str) -> Machine:
    title = titles.get(machine.id, machine.title)
    checks = (own.get(e.name) or replace(e, address=path_in(e.address, language)) for e in machine.self_checks)
    told = tuple(replace(e, machine=machine.id, appliance=title) for e in checks)
    return replace(machine, title=title, procedures=(), self_checks=told)
