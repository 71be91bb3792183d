"""Model to findings. The rest of the house sees only what stands here."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from hooks.check import proofs, witness
from hooks.check.analysis import Analysis
from hooks.check.before import Before, before, starts
from hooks.check.energy import machine
from hooks.check.paths import STATE_LIMIT, search
from hooks.check.rules import having
from hooks.check.settle import settled, unraisable
from hooks.check.walk import Walk
from hooks.diagnostics import Finding
from hooks.model import Guard, Kind, Model, Page
from hooks.parse.lasting import lasting
from hooks.parse.result import ParsedShop


@dataclass(frozen=True, slots=True)
class Report:
    """All that is wrong with a shop, and what the pages that could be analysed do."""

    findings: tuple[Finding, ...]
    """Those of parsing included, in the order of their places."""
    analyses: Mapping[str, Analysis]
    """By the id of the page; a page that shares its id, or could not be trusted or followed to its end, has none."""


@lasting()
def examine(parsed: ParsedShop, limit: int = STATE_LIMIT) -> Report:
    """Check every page of a shop; `limit` bounds the states of one page on one machine."""
    findings = [*parsed.findings, *unraisable(parsed.shop), *chain.from_iterable(p.findings for p in parsed.pages)]
    analyses: dict[str, Analysis] = {}
    named = Counter(one.page.id for one in parsed.pages if one.page)
    for one in parsed.pages:
        if one.page is None or not one.sound:
            continue
        found, analysis = analyse(one.page, parsed, limit)
        findings += found
        if analysis and named[one.page.id] == 1:
            analyses[one.page.id] = analysis
    return Report(tuple(sorted(findings, key=lambda f: f.order)), analyses)


def analyse(
    page: Page, shop: ParsedShop, limit: int = STATE_LIMIT
) -> tuple[tuple[Finding, ...], Analysis | None]:
    """The findings of one sound page and, if the search came to its end, what it reached."""
    found, analysis = _looked_at(page, shop, limit)
    weighed = settled(page, found, shop.shop)
    if page.kind is Kind.SHARED_STEPS:  # its steps are checked where they are used, on the machine of that page
        return tuple(f for f in weighed if f.step is None), None
    return weighed, analysis


def _looked_at(page: Page, shop: ParsedShop, limit: int) -> tuple[list[Finding], Analysis | None]:
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
    whole = all(walk.complete for walk in walks)
    return found, proofs.analysis(page, walks) if whole else None


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


def _on_page(page: Page, shop: ParsedShop) -> Iterator[Finding]:
    for rule in having("on_page"):
        yield from (f.finding(rule.name, page) for f in rule.module.on_page(page, shop))



