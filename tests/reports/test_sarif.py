"""The report that code hosts read."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft4Validator

from hooks import source
from hooks.check import examine
from hooks.check.explained import EXPLAINED
from hooks.check.rules import RULES
from hooks.diagnostics import Finding, Level
from hooks.model import Shop
from hooks.parse import ParsedShop, page
from hooks.report import sarif
from tests.reports.findings import FINDINGS, PLAIN, live
from tests.reports.test_shared import FOUND
from tests.rules.reading import cases, findings

SCHEMA = json.loads((Path(__file__).parent / "sarif-2.1.0-rtm.5.json").read_text("utf-8"))
SILENCED = replace(PLAIN, because="the plate says so")
EVERY_KIND = (*FINDINGS, FOUND, SILENCED, replace(PLAIN, level=Level.NOTE, file="shop/über dem tal.md"))
LIVE = """---
title: Valve
page: procedure
id: valve
appliance: Valve
models: {V1: []}
energies: {electricity: {points: [plug]}}
---
# Valve

### Unplug {#unplug isolate="electricity"}

Pull the plug.

### Swap {#swap work}

Swap the valve.
"""


def run(findings: Iterable[Finding]) -> dict[str, Any]:
    return json.loads(sarif.render(findings))["runs"][0]


def result(finding: Finding) -> dict[str, Any]:
    (one,) = run([finding])["results"]
    return one


def checked(text: str) -> tuple[Finding, ...]:
    read = page(source.from_text(text, "shop/valve.md"), Shop(None))
    return examine(ParsedShop(Shop(None), (read,), ())).findings


def faults(findings: Iterable[Finding]) -> list[str]:
    return [e.message for e in Draft4Validator(SCHEMA).iter_errors(json.loads(sarif.render(findings)))]


@pytest.mark.parametrize("findings", [(), EVERY_KIND], ids=["clean", "every kind"])
def test_it_is_valid_against_the_schema(findings: tuple[Finding, ...]) -> None:
    assert faults(findings) == []


def test_what_every_rule_reports_in_its_cases_is_valid() -> None:
    found = [f for case in cases() for f in findings(case)]
    assert {f.rule for f in found} == {rule.name for rule in RULES}
    assert faults(found) == []


def test_the_schema_refuses_what_is_not_sarif() -> None:
    document = json.loads(sarif.render(FINDINGS))
    document["runs"][0]["results"][0]["level"] = "fatal"
    assert not Draft4Validator(SCHEMA).is_valid(document)


def test_a_clean_run_says_that_nothing_was_found_and_lists_every_rule() -> None:
    clean = run(())
    assert (clean["results"], clean["columnKind"]) == ([], "unicodeCodePoints")
    assert {r["id"] for r in clean["tool"]["driver"]["rules"]} == {*EXPLAINED} > {rule.name for rule in RULES}


def test_the_same_findings_in_another_order_give_the_same_bytes() -> None:
    assert sarif.render(EVERY_KIND) == sarif.render(EVERY_KIND[::-1])


def test_a_finding_names_its_rule_place_and_step() -> None:
    found = run(FINDINGS)
    one = found["results"][1]
    assert found["tool"]["driver"]["rules"][one["ruleIndex"]]["id"] == one["ruleId"] == "hands-on-live"
    assert (one["level"], one["properties"]) == ("error", {"energy": "electricity", "models": []})
    assert one["message"]["text"] == f"{FINDINGS[2].message}. send line 5 to a step that proves both."
    assert one["locations"] == [{
        "physicalLocation": {
            "artifactLocation": {"uri": "shop/valve.md", "uriBaseId": "%SRCROOT%"},
            "region": {"startLine": 7, "startColumn": 1, "endLine": 7, "endColumn": 32},
        },
        "logicalLocations": [{"name": "swap", "kind": "step"}],
    }]  # fmt: skip


def test_an_address_has_no_letter_that_addresses_cannot_have() -> None:
    at = result(EVERY_KIND[-1])["locations"][0]["physicalLocation"]
    assert at["artifactLocation"]["uri"] == "shop/%C3%BCber%20dem%20tal.md"


def test_the_path_is_a_code_flow_with_the_energies_as_state() -> None:
    steps = result(live("electricity", "ON"))["codeFlows"][0]["threadFlows"][0]["locations"]
    assert [s["location"]["message"]["text"] for s in steps] == [
        "Unplug -> Yes", "Drain (skipped)", "Swap the valve: hands-on here",
    ]  # fmt: skip
    assert [s["location"]["physicalLocation"]["region"]["startLine"] for s in steps] == [3, 5, 7]
    assert [s["executionOrder"] for s in steps] == [1, 2, 3]
    assert [s["importance"] for s in steps] == ["essential", "important", "essential"]
    assert steps[0]["state"] == {"electricity": {"text": "OFF"}, "water": {"text": "ON"}}


def test_only_a_step_that_turned_the_energy_in_question_is_essential() -> None:
    steps = result(live("water", "ON"))["codeFlows"][0]["threadFlows"][0]["locations"]
    assert [s["importance"] for s in steps] == ["important", "important", "essential"]


def test_shared_steps_nest_and_the_lines_that_use_them_are_related() -> None:
    one = result(FOUND)
    related = [p["physicalLocation"] for p in one["relatedLocations"]]
    assert [(p["artifactLocation"]["uri"], p["region"]["startLine"]) for p in related] == [("shop/valve.md", 3), ("shop/both.md", 9)]
    steps = one["codeFlows"][0]["threadFlows"][0]["locations"]
    assert [s["nestingLevel"] for s in steps] == [2, 0]
    assert steps[0]["location"]["message"]["text"] == "Unplug -> Yes, used by shop/valve.md:3, shop/both.md:9"


def test_what_a_writer_lets_stand_is_suppressed_with_the_reason() -> None:
    assert result(SILENCED)["suppressions"] == [{"kind": "inSource", "justification": "the plate says so"}]
    assert result(PLAIN)["suppressions"] == []


def test_fingerprints_outlive_a_line_inserted_above() -> None:
    before, after = (run(checked(text))["results"] for text in (LIVE, LIVE.replace("# Valve\n", "# Valve\n\nA sentence.\n")))
    lines, moved = ([r["locations"][0]["physicalLocation"]["region"]["startLine"] for r in one] for one in (before, after))
    assert "hands-on-live" in {r["ruleId"] for r in before} and lines != moved
    assert [r["partialFingerprints"] for r in before] == [r["partialFingerprints"] for r in after]


def test_two_findings_of_one_rule_in_one_step_have_fingerprints_of_their_own() -> None:
    twice = (live("water", "ON"), replace(live("water", "ON"), message="and again"))
    prints = {r["partialFingerprints"]["stillbench/v1"] for r in run(twice)["results"]}
    assert len(prints) == 2


@pytest.mark.parametrize(
    ("said", "written"),
    [("unknown [Swap](#swap)", r"unknown \[Swap\](#swap)"), ("write `{0}`", "write `{{0}}`"), (r"a\b [c]", r"a\b [c]")],
)
def test_words_of_a_page_never_make_a_link_or_a_place_for_a_value(said: str, written: str) -> None:
    assert result(replace(PLAIN, message=said))["message"]["text"].startswith(f"{written} (")


@pytest.mark.parametrize("rule", run(())["tool"]["driver"]["rules"], ids=lambda rule: rule["id"])
def test_a_rule_brings_its_whole_docstring(rule: dict[str, Any]) -> None:
    plain, marked = rule["help"]["text"], rule["help"]["markdown"]
    assert rule["shortDescription"]["text"] == plain.partition("\n")[0]
    bare = [line.strip().removesuffix(":") for line in plain.splitlines() if line.strip()]
    kept = [line.strip("* ").removesuffix(":") for line in marked.splitlines() if line.strip("~ ")]
    assert [line.strip("* ") for line in bare] == kept
