"""The same customers' page in several languages: where each lies, and what stands in for one not yet translated."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from hooks.library.entries import Entry, Library
from hooks.library.translations import LISTS, path_in
from hooks.model import ORIGINAL, Shop
from hooks.page.languages import Language, language
from hooks.page.templates import draw

START = "index.html"


@dataclass(frozen=True, slots=True)
class Version:
    """One language of a page."""

    code: str
    name: str
    address: str
    here: bool
    translated: bool
    """Whether it is in that language; else it shows the original."""


def meta(library: Library, shop: Shop, original: str, code: str) -> dict[str, object]:
    """What the frame of a customers' page has to know: its language, its other ones, and where its readers go.

    `original` is the address of the page in the original language, `code` the language it is drawn in.
    """
    say, own = language(code), shop.within(code)
    return {
        "language": code,
        "versions": tuple(_versions(library, original, code)),
        "menu": tuple(_menu(say)),
        "home": START if code == ORIGINAL else path_in(LISTS[0], code),
        "hours": own.hours,
        "about": own.about,
    }


def lists(library: Library) -> dict[str, str]:
    """Where the list of customers' pages lies in each language but the original."""
    return {code: path_in(LISTS[0], code) for code in library.languages}


def elsewhere(library: Library) -> tuple[Version, ...]:
    """Where customers go from a page that is not theirs alone: their list in the other languages."""
    return tuple(replace(one, translated=False) for one in _versions(library, LISTS[0], ORIGINAL) if not one.here)


def _versions(library: Library, original: str, code: str) -> Iterator[Version]:
    """The languages of a page; none where the shop has one only."""
    there = {e.address for e in library.translations}
    for other in (ORIGINAL, *library.languages) if library.languages else ():
        place = path_in(original, other)
        translated = other == ORIGINAL or original in LISTS or place in there
        yield Version(other, language(other).name, place, other == code, translated)


def _menu(say: Language) -> Iterator[tuple[str, str]]:
    customers, first_minute = (path_in(path, say.code) for path in LISTS)
    yield say("what-do-you-see"), customers
    yield say("first-minute"), first_minute
    yield say("technicians"), START


def stand_ins(library: Library) -> Iterator[tuple[Entry, str]]:
    """The self-checks that are not yet translated, each with the language that it is not in."""
    there = {(e.translates, e.language) for e in library.translations}
    for code in library.languages:
        yield from ((e, code) for m in library.machines for e in m.self_checks if (e.name, code) not in there)


def stand_in(html: str, code: str) -> str:
    """The article of a page that is not yet translated, from that of its original."""
    return str(draw("languages/not-translated.html", say=language(code), original=language(), html=Markup(html)))
