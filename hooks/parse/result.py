"""What parsing gives: pages as far as they could be read, and what was wrong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import PurePosixPath

from hooks.diagnostics import Finding
from hooks.model import Page, Picture, Shop
from hooks.source import Source


@dataclass(frozen=True, slots=True)
class ParsedPage:
    """One file of the shop."""

    source: Source
    page: Page | None
    """None where not even the kind of page could be read."""
    findings: tuple[Finding, ...]
    sound: bool
    """Whether the steps and energies can be trusted: only then is the page analysed."""

    @property
    def name(self) -> str:
        """That of its file."""
        return self.source.name


@dataclass(frozen=True)
class ParsedShop:
    """All that stands in a shop's folder."""

    shop: Shop
    pages: tuple[ParsedPage, ...]
    """In the order of their names."""
    findings: tuple[Finding, ...]
    """What is wrong with the shop facts or between pages."""
    digests: Mapping[str, str] = field(default_factory=dict)
    """By the name of a page: the digest of its text, and of all that parsing it depends on but the pages that it uses."""
    pictures: Mapping[str, Picture] = field(default_factory=dict)
    """The files that a figure can show, by their names."""

    @cached_property
    def by_id(self) -> Mapping[str, Page]:
        """The pages that could be read, by their ids."""
        return {p.page.id: p.page for p in self.pages if p.page}

    @cached_property
    def named(self) -> Mapping[str, tuple[Page, ...]]:
        """The pages that could be read, by their ids and by their files' names without folder and ending."""
        found: dict[str, list[Page]] = {}
        for page in (p.page for p in self.pages if p.page):
            for name in {page.id, PurePosixPath(page.source.name).stem}:
                found.setdefault(name, []).append(page)
        return {name: tuple(pages) for name, pages in found.items()}

    @cached_property
    def names(self) -> frozenset[str]:
        """The names of the pages' files, without their ending."""
        return frozenset(p.source.name.removesuffix(".md") for p in self.pages)

    @property
    def sources(self) -> tuple[Source, ...]:
        """Every file that was read."""
        facts = (self.shop.source,) if self.shop.source else ()
        return facts + tuple(p.source for p in self.pages)
