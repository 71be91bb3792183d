"""From parsed pages to entries, and from entries to the library."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from hooks.library import indexes, stages
from hooks.library.entries import Entry, Library, StepEntry
from hooks.library.words import slug
from hooks.model import Item, Kind, LANGUAGES, ORIGINAL, Page, Part
from hooks.parse.front_matter import ANY_MODEL
from hooks.parse.result import ParsedShop

PUBLISHED = (Kind.PROCEDURE, Kind.SELF_CHECK, Kind.TEXT)
Address = Callable[[str], str]


def collect(parsed: ParsedShop, address: Address) -> Library:
    """The library of all pages that could be read.

    `address` tells where in the site the page of a file's name stands.
    """
    pages = [p.page for p in parsed.pages if p.page is not None]
    shown = [p for p in pages if p.kind in PUBLISHED and p.language == ORIGINAL]
    entries = tuple(_entry(p, address(p.source.name)) for p in shown)
    others = [p for p in pages if p.kind is Kind.SELF_CHECK and p.language in LANGUAGES and p.language != ORIGINAL]
    return Library(
        entries=entries,
        machines=indexes.machines(parsed.shop, shown, entries),
        customer_symptoms=indexes.symptoms(e for e in entries if e.kind is Kind.SELF_CHECK),
        technician_symptoms=indexes.symptoms(e for e in entries if e.kind is Kind.PROCEDURE),
        parts=indexes.parts(entries),
        tools=indexes.tools(entries),
        calculators=indexes.calculators(shown, entries),
        translations=tuple(_entry(p, address(p.source.name)) for p in others),
    )


def _entry(page: Page, address: str) -> Entry:
    front = page.front
    drawn = (page, *page.shared)
    text = page.kind is Kind.TEXT
    return Entry(
        name=page.source.name,
        address=address,
        id=page.id,
        kind=page.kind,
        title=page.title,
        appliance=page.appliance,
        machine="" if text else page.appliance_id or slug(page.appliance),
        models=tuple(m.name for m in page.models if m.name != ANY_MODEL),
        does=front.does or "",
        time=front.time or "",
        people=front.people,
        revision=front.revision or "",
        reviewed=front.reviewed or "",
        symptoms=_symptoms(page),
        tools=_texts(p.front.tools for p in drawn),
        parts=_parts(drawn),
        calculators=_calculators(page),
        stage=stages.of_page(page),
        language=page.language,
        translates=page.original if page.language != ORIGINAL else "",
        shared=tuple(shared.id for shared in page.shared),
        steps=tuple(StepEntry(s.id, s.title, stages.of_step(page, s)) for s in page.steps),
    )


def _symptoms(page: Page) -> tuple[str, ...]:
    """A self-check without symptoms is found by its title."""
    written = _texts([page.front.symptoms])
    return (page.title,) if page.kind is Kind.SELF_CHECK and not written else written


def _texts(lists: Iterable[tuple[Item, ...] | None]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(item.text for items in lists for item in items or ()))


def _parts(pages: tuple[Page, ...]) -> tuple[Part, ...]:
    found = {(p.number, p.name): p for page in pages for p in page.front.parts or ()}
    return tuple(found.values())


def _calculators(page: Page) -> tuple[str, ...]:
    readings = (r for s in page.steps for r in s.readings)
    return tuple(dict.fromkeys(r.calculator for r in readings if r.calculator))
