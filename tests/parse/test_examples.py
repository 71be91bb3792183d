"""The text that explains a finding shows it, and shows how to mend it."""

from __future__ import annotations

import re
from textwrap import dedent

import pytest

from hooks.model import Shop
from hooks.parse import RULES, drawn, page, shop_facts
from hooks.source import from_text
from tests.parse.cases import HEAD

SHARED = "---\ntitle: Cord and tap\npage: shared-steps\n---\n### Unplug {#unplug isolate=\"electricity\"}\n"


def example(rule: str, part: str) -> str:
    """One of the examples in the text of a rule."""
    found = re.search(rf"Example {part}:\n((?:    .*\n?|\n)+)", RULES[rule])
    assert found, f"{rule} has no example {part}"
    return dedent(found[1])


def reported(rule: str, text: str) -> set[str]:
    """The rules that report something of an example."""
    if rule == "shop-facts":
        return {f.rule for f in shop_facts(from_text(text, "shop.yml"))[1]}
    head = HEAD.replace("energies:", f"{text}\nenergies:") if rule == "front-matter" else HEAD
    body = "### Look {#a check}\n" if rule == "front-matter" else text
    shop = (page(from_text(head + body, "a.md"), Shop(None)), page(from_text(SHARED, "cord-and-tap.md"), Shop(None)))
    return {f.rule for f in drawn(shop)[0].findings}


@pytest.mark.parametrize("rule", RULES)
def test_the_example_of_a_rule_is_reported_and_its_mended_form_is_clean(rule: str) -> None:
    assert rule in reported(rule, example(rule, "reported"))
    assert reported(rule, example(rule, "mended")) == set()


@pytest.mark.parametrize("rule", RULES)
def test_a_rule_says_what_and_why(rule: str) -> None:
    summary, blank, why = RULES[rule].split("\n")[:3]
    assert summary.endswith(".") and (blank, why) == ("", "Why:")
