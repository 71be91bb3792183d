"""Each rule on its own cases: what it reports, word for word, and what it leaves alone."""

from __future__ import annotations

import re

import pytest
from rules.reading import Case, cases, reported

from hooks.check.rules import PARTS, RULES, Rule, having
from hooks.diagnostics import Level

CASES = tuple(cases())
NAMES = {rule.name for rule in RULES}
PATH_RULES = {rule.name for rule in having("breached")}


@pytest.mark.parametrize("case", CASES, ids=lambda c: f"{c.rule}: {c.title}")
def test_the_report_is_exactly_this(case: Case) -> None:
    assert reported(case) == case.report


@pytest.mark.parametrize("case", CASES, ids=lambda c: f"{c.rule}: {c.title}")
def test_a_case_is_reported_or_clean_as_its_title_says(case: Case) -> None:
    named = f" {case.rule}" in case.report
    assert named is (case.kind != "Clean")


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.name)
def test_every_rule_has_its_cases(rule: Rule) -> None:
    kinds = {case.kind for case in CASES if case.rule == rule.name}
    wanted = {"Reported", "Clean"} | ({"Made safe, then unmade"} if rule.name in PATH_RULES else set())
    assert kinds == wanted


def test_every_file_of_cases_is_of_a_rule() -> None:
    assert {case.rule for case in CASES} == NAMES


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.name)
def test_the_docstring_of_a_rule_is_its_page(rule: Rule) -> None:
    assert rule.summary.endswith(".") and len(rule.summary) < 100
    assert all(rule.part(part) for part in PARTS)
    assert rule.part("Example reported") != rule.part("Example mended")


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.name)
def test_a_rule_never_claims_to_comply_with_a_standard(rule: Rule) -> None:
    assert "compl" not in rule.text.lower().replace("incomplete", "")


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.name)
def test_a_rule_has_one_form_and_a_path_rule_may_look_at_words_too(rule: Rule) -> None:
    forms = [form for form in ("on_page", "on_before", "on_graph", "breached", "on_findings") if hasattr(rule.module, form)]
    assert len(forms) == 1 or forms == ["on_page", "breached"]


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.name)
def test_the_cases_of_a_rule_show_each_level_that_it_says(rule: Rule) -> None:
    shown = re.findall(rf"^\S+(?: used by .*)? (\w+) {rule.name}\b", "\n".join(c.report for c in CASES if c.rule == rule.name), re.M)
    assert set(shown) == set(rule.levels)
    assert rule.levels == tuple(level for level in Level if level in rule.levels)
