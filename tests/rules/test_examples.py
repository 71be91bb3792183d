"""The examples in the text of a rule are true: the rule reports the one, and leaves the mended one alone."""

from __future__ import annotations

import pytest
from rules.host import found

from hooks.check.rules import RULES, Rule

NOT_RUN = {
    "too-many-states": "it would take hundreds of steps, so its examples are words",
    "translation-astray": "it takes a page in two languages; its cases have them",
}
RUN = [rule for rule in RULES if rule.name not in NOT_RUN]


@pytest.mark.parametrize("rule", RUN, ids=lambda r: r.name)
def test_what_the_example_shows_is_reported(rule: Rule) -> None:
    assert rule.name in found(rule.part("Example reported"), rule)


@pytest.mark.parametrize("rule", RUN, ids=lambda r: r.name)
def test_the_mended_example_is_not_reported(rule: Rule) -> None:
    assert rule.name not in found(rule.part("Example mended"), rule)


def test_only_rules_that_there_are_go_without() -> None:
    assert set(NOT_RUN) <= {rule.name for rule in RULES}
