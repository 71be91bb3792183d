"""Every case of this folder gives exactly the findings that stand below it."""

from __future__ import annotations

import pytest

from hooks.diagnostics import Finding
from hooks.model import Shop
from hooks.parse import page, shop_facts
from hooks.source import from_text
from tests.parse.cases import HERE, Case, cases

PAGES = [case for file in sorted(HERE.glob("*.txt")) for case in cases(file.name)]


def compare(found: tuple[Finding, ...], case: Case) -> None:
    """Line, column, rule, and words of the message; nothing more and nothing less."""
    lines = [f"{f.span.line - case.shift}:{f.span.column} {f.rule} {f.message}" for f in found]
    assert len(lines) == len(case.expected), lines
    for line, expected in zip(lines, case.expected, strict=True):
        place, rule, words = expected.split(" ", 2)
        assert line.startswith(f"{place} {rule} ") and words in line, lines


@pytest.mark.parametrize("case", PAGES, ids=lambda case: case.name)
def test_a_case_gives_exactly_its_findings(case: Case) -> None:
    if case.name.startswith("shop:"):
        compare(shop_facts(from_text(case.text, "shop.yml"))[1], case)
        return
    parsed = page(from_text(case.text, "page.md"), Shop(None))
    compare(parsed.findings, case)
    assert parsed.sound is case.sound


@pytest.mark.parametrize("case", PAGES, ids=lambda case: case.name)
def test_every_finding_says_how_to_mend_it(case: Case) -> None:
    source = from_text(case.text, "page.md")
    found = (
        shop_facts(source)[1]
        if case.name.startswith("shop:")
        else page(source, Shop(None)).findings
    )
    for finding in found:
        assert finding.message[-1] not in ".!" and finding.help[-1] in ".}]>`", finding
