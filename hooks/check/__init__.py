"""Model to findings. The rest of the house sees only what stands here."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import chain

from hooks.check import proofs, witness
from hooks.check.analysis import Analysis
from hooks.check.before import Before, before, starts
from hooks.check.around import Answers, Around, made_of
from hooks.check.energy import machine
from hooks.check.paths import STATE_LIMIT, search
from hooks.check.rules import having
from hooks.check.settle import settled, unraisable
from hooks.check.walk import Walk
from hooks.diagnostics import Finding
from hooks.kept import Kept, digest
from hooks.model import Guard, Kind, Model, Page
from hooks.parse.lasting import lasting
from hooks.parse.result import ParsedShop
from hooks.parse.shop_folder import Contents, whole

Seen = tuple[tuple[Finding, ...], Analysis | None]
"""The findings of one page, and what the search reached on it."""


@dataclass(frozen=True, slots=True)
class Report:
    """All that is wrong with a shop, and what the pages that could be analysed do."""

    findings: tuple[Finding, ...]
    """Those of parsing included, in the order of their places."""
    analyses: Mapping[str, Analysis]
    """By the id of the page; a page that shares its id, or could not be trusted or followed to its end, has none."""
    digests: Mapping[str, str] = field(default_factory=dict)
    """By the name of a sound page: the digest of all that its findings and its analysis came of."""


@lasting()
def examine(parsed: ParsedShop, limit: int = STATE_LIMIT, kept: Kept | None = None) -> Report:
    """Check every page of a shop; `limit` bounds the states of one page on one machine.

    What is known of a page from `kept` is taken from there, as long as all that it came of is the same.
    """
    look = _Look(parsed, limit, kept or Kept())
    findings = [*parsed.findings, *unraisable(parsed.shop), *chain.from_iterable(p.findings for p in parsed.pages)]
    analyses: dict[str, Analysis] = {}
    named = Counter(one.page.id for one in parsed.pages if one.page)
    for one in parsed.pages:
        if one.page is None or not one.sound:
            continue
        found, analysis = look.at(one.page)
        findings += found
        if analysis and named[one.page.id] == 1:
            analyses[one.page.id] = analysis
    return Report(tuple(sorted(findings, key=lambda f: f.order)), analyses, look.digests)


def findings(read: Contents, kept: Kept) -> tuple[Finding, ...]:
    """All that is wrong with a shop; without looking at its pages where no file of it is another."""
    return kept.of("shop", read.digest, lambda: examine(whole(read, kept), kept=kept).findings)


class _Look:
    """Looks at the pages of a shop, or remembers what was seen."""

    def __init__(self, shop: ParsedShop, limit: int, kept: Kept) -> None:
        self._shop, self._limit, self._kept = shop, limit, kept
        self._answers = Answers(shop)
        self.digests: dict[str, str] = {}

    def at(self, page: Page) -> Seen:
        """What `analyse` says of a page."""
        made = made_of(page, self._shop)
        if made is None:
            return analyse(page, self._shop, self._limit)
        key = digest(made, str(self._limit))
        asked, seen = self._kept.get("check", key) or ((), None)
        if seen is None or any(self._answers.to(one) != then for one, then in asked):
            around = Around(self._shop)
            seen = analyse(page, around, self._limit)
            asked = tuple((one, self._answers.to(one)) for one in around.asked)
            self._kept.put("check", key, (asked, seen))
        self.digests[page.source.name] = digest(key, *(then for _, then in asked))
        return seen


def analyse(
    page: Page, shop: ParsedShop | Around, limit: int = STATE_LIMIT
) -> Seen:
    """The findings of one sound page and, if the search came to its end, what it reached."""
    found, analysis = _looked_at(page, shop, limit)
    weighed = settled(page, found, shop.shop)
    if page.kind is Kind.SHARED_STEPS:  # its steps are checked where they are used, on the machine of that page
        return tuple(f for f in weighed if f.step is None), None
    return weighed, analysis


def _looked_at(page: Page, shop: ParsedShop | Around, limit: int) -> tuple[list[Finding], Analysis | None]:
    found = list(_on_page(page, shop))
    if page.kind not in (Kind.PROCEDURE, Kind.SELF_CHECK) or not page.steps or any(s.uses for s in page.steps):
        return found, None
    made = before(page, shop, lambda other, earlier: _walks(other, earlier, limit))
    if made and (wrong := _unmet(page, made)):
        return found + wrong, None
    walks = _walks(page, made, limit)
    found += witness.findings(page, walks)
    for rule in having("on_graph"):
        found += (f.finding(rule.name, page) for f in rule.module.on_graph(walks))
    complete = all(walk.complete for walk in walks)
    return found, proofs.analysis(page, walks) if complete else None


def _unmet(page: Page, made: Before) -> list[Finding]:
    """What another page does not leave as this one says."""
    return [f.finding(rule.name, page) for rule in having("on_before") for f in rule.module.on_before(page, made)]


def _walks(page: Page, made: Before | None, limit: int) -> tuple[Walk, ...]:
    machines = (machine(page, models) for models in alike(page))
    return tuple(search(page, one, limit, starts(page, one, made)) for one in machines)


def alike(page: Page) -> tuple[tuple[Model, ...], ...]:
    """The models in groups that no guard of the page or its energies tells apart."""
    asked = {guard.option for guard in _guards(page)}
    groups: dict[frozenset[str], list[Model]] = {}
    for model in page.models or (Model("", frozenset(), page.span),):
        groups.setdefault(model.options & asked, []).append(model)
    return tuple(tuple(group) for group in groups.values())


def _guards(page: Page) -> Iterator[Guard]:
    yield from (e.only for e in page.energies if e.only)
    yield from (s.only for s in page.steps if s.only)


def _on_page(page: Page, shop: ParsedShop | Around) -> Iterator[Finding]:
    for rule in having("on_page"):
        yield from (f.finding(rule.name, page) for f in rule.module.on_page(page, shop))



