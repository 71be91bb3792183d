"""Which pages are to be looked at again: by the day of their last review, and by what they rely on and has changed since."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from hooks import parse
from hooks.model import Appliance, Page, Shop
from hooks.parse import ParsedShop
from hooks.source import Source, from_text

NEVER = "2000-01-01"
"""The day that a page begun with `stillbench new` has until somebody looks at it."""
Texts = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Due:
    """A page and why it is to be looked at."""

    page: Page
    reviewed: str
    """YYYY-MM-DD; empty where the page does not say."""
    changed: tuple[str, ...] | None
    """What is another than on that day; None where nothing is known of that day."""


def due(now: ParsedShop, then: Callable[[str], Texts | None]) -> tuple[Due, ...]:
    """Every procedure and self-check, the longest unreviewed first; `then` gives the shop's texts on a day, if there are any."""
    prefix = (now.shop.source.name if now.shop.source else "").removesuffix(parse.FACTS)
    pages = [parsed.page for parsed in now.pages if parsed.page and parsed.page.kind in ("procedure", "self-check")]
    found = [_due(page, now.shop, then, prefix) for page in pages]
    return tuple(sorted(found, key=lambda one: (one.reviewed, one.page.source.name)))


def _due(page: Page, shop: Shop, then: Callable[[str], Texts | None], prefix: str) -> Due:
    day = page.front.reviewed or ""
    texts = then(day) if day else None
    return Due(page, day, None if texts is None else tuple(_changed(page, shop, texts, prefix)))


def _changed(page: Page, shop: Shop, texts: Texts, prefix: str) -> Iterator[str]:
    if _other(page.source, texts, prefix):
        yield "its own text"
    for shared in page.shared:
        if _other(shared.source, texts, prefix):
            yield f"the shared steps {shared.id}"
    if page.appliance_id and _machine(shop, page.appliance_id) != _machine(_facts(texts), page.appliance_id):
        yield f"the shop facts of {page.appliance_id}"


def _other(source: Source, texts: Texts, prefix: str) -> bool:
    text = texts.get(source.name.removeprefix(prefix))
    return text is None or from_text(text, "").lines != source.lines


def _facts(texts: Texts) -> Shop:
    return parse.shop_facts(from_text(texts.get(parse.FACTS, ""), parse.FACTS))[0]


def _machine(shop: Shop, name: str) -> tuple[object, ...] | None:
    """What is true of a machine, wherever in the file it stands."""
    found = next((a for a in shop.appliances if a.id == name), None)
    return found and _without_places(found)


def _without_places(machine: Appliance) -> tuple[object, ...]:
    models = tuple((m.name, sorted(m.options)) for m in machine.models)
    energies = tuple(
        (e.name, e.points, e.trapped, e.charged_by, e.only and (e.only.option, e.only.negated), e.lowest_word) for e in machine.energies
    )
    return (machine.title, models, energies, machine.off_limit, machine.does)


def listed(found: tuple[Due, ...]) -> str:
    """One line a page: day, file, what changed since."""
    return "".join(f"{one.reviewed or 'never':10}  {one.page.source.name}: {_said(one)}\n" for one in found)


def _said(one: Due) -> str:
    if one.changed is None:
        return "never reviewed yet" if one.reviewed in ("", NEVER) else "what changed since is not known"
    return f"changed since: {', '.join(one.changed)}" if one.changed else "nothing it relies on has changed since"
