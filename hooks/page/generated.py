"""A page that no one wrote: made from the library for the site."""

from __future__ import annotations

import posixpath
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import takewhile
from typing import Any


@dataclass(frozen=True, slots=True)
class GeneratedPage:
    """One page, ready to be laid into the site."""

    path: str
    """Its name among the sources: "index.md", "machines/cooler.md"."""
    title: str
    html: str
    meta: dict[str, Any] = field(default_factory=dict)
    """What the front matter would say; `page` is its kind."""
    writers: bool = False
    """Whether only a preview has it, beside the shop's site."""

    @property
    def address(self) -> str:
        """Where it stands in the site."""
        return address(self.path)


def address(path: str) -> str:
    """Where the page of that source stands in the site."""
    return path.removesuffix(".md") + ".html"


def links_from(path: str) -> Callable[[str], str]:
    """A function that gives the link from the page at `path` to an address of the site."""
    folder = path.split("/")[:-1]
    return lambda target: _link(folder, posixpath.normpath(target).split("/"))


def _link(folder: list[str], target: list[str]) -> str:
    """As `posixpath.relpath` gives it, which asks the system where it is each time."""
    names = [] if target == ["."] else target
    same = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(folder, names, strict=False)))
    return "/".join([".."] * (len(folder) - same) + names[same:]) or "."
