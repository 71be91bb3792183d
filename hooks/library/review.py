"""Which pages are to be looked at again: by the day of their last review, and by what they rely on and has changed since."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from hooks import check, parse
from hooks.diagnostics import Finding
from hooks.library.past import Asked, Then
from hooks.model import Appliance, Page, Shop
from hooks.parse import ParsedShop
from hooks.parse.lasting import lasting
from hooks.source import Source, from_text

NEVER = "2000-01-01"
"""The day that a page begun with `stillbench new` has until somebody looks at it."""


@dataclass(frozen=True, slots=True)
class Due:
    """A page and why it is to be looked at."""

    page: Page
    reviewed: str
    """YYYY-MM-DD; empty where the page does not say."""
    changed: tuple[str, ...] | None
    """What is another than on that day; None where nothing is known of that day."""
    findings: tuple[Finding, ...] = ()
    """What the check says of it now."""
    new: frozenset[str] = frozenset()
    """The fingerprints of those that were not found on it as it was reviewed."""

    @property
    def unseen(self) -> bool:
        """Whether nobody has looked at it yet."""
        return self.reviewed in ("", NEVER)


@lasting()
def due(now: ParsedShop, past: Callable[[Iterable[Asked]], Then], findings: Iterable[Finding] = ()) -> tuple[Due, ...]:
    """Every procedure and self-check, the longest unreviewed first; `past` gives texts as they were on a day."""
    pages = [parsed.page for parsed in now.pages if parsed.page and parsed.page.kind in ("procedure", "self-check")]
    found: dict[str, list[Finding]] = defaultdict(list)
    for one in findings:
        found[one.page].append(one)
    review = _Review(now, past((day, one.name) for page in pages if (day := page.front.reviewed) for one in _files(page, now.shop)))
    listed = (review.due(page, tuple(found[page.source.name])) for page in pages)
    return tuple(sorted(listed, key=lambda one: (one.reviewed, one.page.source.name)))


def _files(page: Page, shop: Shop) -> tuple[Source, ...]:
    """The page, what it shares, the shop facts."""
    return (page.source, *(shared.source for shared in page.shared), *([shop.source] if shop.source else []))


class _Review:
    """Looks at what pages of one shop rely on, and what that was."""

    def __init__(self, now: ParsedShop, then: Then) -> None:
        self.now, self.then = now, then
        self.shops: dict[str, Shop] = {}

    def due(self, page: Page, findings: tuple[Finding, ...]) -> Due:
        """What is to be said of a page."""
        day = page.front.reviewed or ""
        changed = tuple(self.changed(page, day)) if self.then.known(day) else None
        return Due(page, day, changed, findings, self.new(page, day, findings) if changed and findings else frozenset())

    def changed(self, page: Page, day: str) -> Iterator[str]:
        """What is another than on the day of its review."""
        if self.other(page.source, day):
            yield "its own text"
        for shared in page.shared:
            if self.other(shared.source, day):
                yield f"the shared steps {shared.id}"
        if page.appliance_id and _machine(self.now.shop, page.appliance_id) != _machine(self.shop(day), page.appliance_id):
            yield f"the shop facts of {page.appliance_id}"

    def was(self, source: Source, day: str) -> Source:
        """A file as it was; empty where it was not there."""
        if (day, source.name) not in self.then.touched:
            return source
        return from_text(self.then.touched[day, source.name] or "", source.name)

    def other(self, source: Source, day: str) -> bool:
        """Whether a file is another now."""
        return self.was(source, day).lines != source.lines

    def shop(self, day: str) -> Shop:
        """The shop by its facts of that day."""
        facts = self.now.shop.source
        if facts is None or not self.other(facts, day):
            return self.now.shop
        if day not in self.shops:
            self.shops[day] = parse.shop_facts(self.was(facts, day))[0]
        return self.shops[day]

    def new(self, page: Page, day: str, findings: tuple[Finding, ...]) -> frozenset[str]:
        """What is found now and was not on the page as it was reviewed, on the machine of that day, among the pages of today."""
        sources = (page.source, *(one.source for one in page.shared))
        made = parse.drawn(parse.page(self.was(one, day), self.shop(day)) for one in sources)
        others = (one for one in self.now.pages if one.source not in sources)
        then = ParsedShop(self.shop(day), (*made, *others), (), pictures=self.now.pictures)
        seen = check.analyse(made[0].page, then)[0] if made[0].page and made[0].sound else ()
        return frozenset(one.fingerprint for one in findings) - {one.fingerprint for one in (*made[0].findings, *seen)}


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
        return "never reviewed yet" if one.unseen else "what changed since is not known"
    return f"changed since: {', '.join(one.changed)}" if one.changed else "nothing it relies on has changed since"
