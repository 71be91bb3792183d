"""What the findings of a page weigh in the end: raised by the shop, or let stand by the writer.

A shop only raises. A writer lets warnings and notes stand, beside their step and with a reason; an error,
one that the shop made so too, is never let stand.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from hooks.check.rules import RULES, having
from hooks.diagnostics import Finding, Level
from hooks.model import Page, Raised, Shop
from hooks.parse import shop_facts
from hooks.parse.notes import choose, rule_of
from hooks.parse.rules import RULES as PARSING

WEIGHT = (Level.NOTE, Level.WARNING, Level.ERROR)
MILDEST = {name: Level.ERROR for name in PARSING} | {rule.name: rule.mildest for rule in RULES}
"""By name of a rule: the least that one of its findings can weigh."""


def settled(page: Page, findings: Iterable[Finding], shop: Shop) -> tuple[Finding, ...]:
    """The findings of one page with their levels and reasons, and what is wrong with those reasons."""
    least = {one.rule: one.level for one in shop.raised}
    found = [_raised(finding, least.get(finding.rule)) for finding in findings]
    wrong = [
        _raised(one.finding(rule.name, page), least.get(rule.name))
        for rule in having("on_findings")
        for one in rule.module.on_findings(page, found, MILDEST)
    ]
    reasons = {(s.id, rule): s.because for s in page.steps if s.because for rule in s.allow}
    return (*(_let_stand(finding, reasons) for finding in found), *wrong)


def _raised(finding: Finding, least: Level | None) -> Finding:
    if least is None or WEIGHT.index(least) <= WEIGHT.index(finding.level):
        return finding
    return replace(finding, level=least)


def _let_stand(finding: Finding, reasons: dict[tuple[str, str], str]) -> Finding:
    if not reasons or finding.step is None or finding.level is Level.ERROR:
        return finding
    because = reasons.get((finding.step.id, finding.rule))
    return replace(finding, because=because) if because else finding


def unraisable(shop: Shop) -> Iterator[Finding]:
    """Each entry under `rules` in the shop facts that names no rule, or would not raise it."""
    for raised in shop.raised:
        fault = _fault(raised)
        if fault and shop.source:
            rule = rule_of(shop_facts.__module__)
            yield Finding(rule, Level.ERROR, shop.source.name, raised.span, *fault)


def _fault(raised: Raised) -> tuple[str, str] | None:
    least = MILDEST.get(raised.rule)
    if least is None:
        return f"there is no rule `{raised.rule}`", choose(raised.rule, sorted(MILDEST))
    if WEIGHT.index(raised.level) > WEIGHT.index(least):
        return None
    what = f"`{raised.rule}` reports nothing milder than {'an' if least is Level.ERROR else 'a'} {least.value}"
    return what, "Take it out: here a level is only raised, and no error can be lowered or turned off."
