"""What the check of one page takes from the pages around it: noted, so that it can be kept until that is another.

A rule sees the shop through `Around`. A page that it asks for by id or by name is noted with the
digests of what came back; whatever else it looks at makes the findings depend on all pages.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Any, TypeVar

from hooks.kept import digest
from hooks.model import Page, Picture
from hooks.parse.result import ParsedShop

V = TypeVar("V")
Asked = tuple[str, str]
"""A mapping of the shop, and the name that was looked up in it; `ALL` and the name of something of the shop."""
ALL = "all"
NAMES = ("names", "pictures")
"""What of the shop is asked for all its names, and for no more."""


def made_of(page: Page, shop: ParsedShop) -> str | None:
    """The digest of a page with the shared steps in it; None for a shop that was not read from files."""
    parts = [shop.digests.get(one.source.name) for one in (page, *page.shared)]
    return digest(*(part or "" for part in parts)) if all(parts) else None


class Around:
    """A shop as the rules see it while one page is checked."""

    def __init__(self, shop: ParsedShop) -> None:
        self._shop = shop
        self.shop = shop.shop
        self.asked: dict[Asked, None] = {}
        self.by_id: Mapping[str, Page] = _Noted(shop.by_id, "by_id", self.asked)
        self.named: Mapping[str, tuple[Page, ...]] = _Noted(shop.named, "named", self.asked)
        self.pictures: Mapping[str, Picture] = _Noted(shop.pictures, "pictures", self.asked)

    def __getattr__(self, name: str) -> Any:
        self.asked[ALL, name] = None
        return getattr(self._shop, name)


class _Noted(Mapping[str, V]):
    """A mapping that notes which of its names was asked for."""

    def __init__(self, known: Mapping[str, V], what: str, asked: dict[Asked, None]) -> None:
        self._known, self._what, self._asked = known, what, asked

    def __getitem__(self, name: str) -> V:
        self._asked[self._what, name] = None
        return self._known[name]

    def __iter__(self) -> Iterator[str]:
        self._asked[ALL, self._what] = None
        return iter(self._known)

    def __len__(self) -> int:
        self._asked[ALL, self._what] = None
        return len(self._known)


class Answers:
    """What a shop answers to what was asked, as digests; each worked out once."""

    def __init__(self, shop: ParsedShop) -> None:
        self._shop = shop
        self._known: dict[Asked, str] = {}

    def to(self, asked: Asked) -> str:
        """The digest of one answer."""
        if asked not in self._known:
            self._known[asked] = self._found(*asked)
        return self._known[asked]

    def _found(self, what: str, name: str) -> str:
        if what == ALL:
            return digest(*sorted(getattr(self._shop, name))) if name in NAMES else self._everything
        if what == "pictures":
            return digest(repr(self._shop.pictures.get(name)))
        pages = {"by_id": self._by_id, "named": self._shop.named}[what].get(name, ())
        return digest(*(made_of(page, self._shop) or self._everything for page in pages))

    @cached_property
    def _by_id(self) -> Mapping[str, tuple[Page, ...]]:
        return {id: (page,) for id, page in self._shop.by_id.items()}

    @cached_property
    def _everything(self) -> str:
        """The digest of all pages; one that is not text is told by its finding."""
        shop = self._shop
        return digest(*(shop.digests.get(one.source.name) or repr(one) for one in shop.pages))
