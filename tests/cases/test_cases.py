"""Whole procedures with findings worked out by hand: the check finds these and no others."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from hooks.check import examine
from hooks.check.rules import RULES
from hooks.diagnostics import Finding, Level
from hooks.parse import folder

TESTS = Path(__file__).parents[1]
FOLDERS = ("cases", "samples", "real")
ARGUED = {
    ("tm-drain-sump.md", "isolation-in-message"): "its caution tells to turn the power off, and no step does: a fault of"
    " the page. The expectation only allows for `action-in-message` there, which would call it a list of acts.",
}
"""Findings that the expectations do not name, and why they are right."""
LISTED = {f: json.loads((TESTS / f / "expected.json").read_text("utf-8")) for f in ("cases", "real")}
REPORTS = {f: examine(folder(TESTS / f)) for f in FOLDERS}
PAGES = [(f, p.name) for f in FOLDERS for p in sorted((TESTS / f).glob("*.md")) if p.name.islower()]
PAGES += [("cases", name) for name in LISTED["cases"]]


def found(where: str, name: str, level: Level = Level.ERROR) -> list[Finding]:
    """What is there, without what may be reported or not, and what is argued."""
    free = {(e["rule"], e["line"]) for e in LISTED.get(where, {}).get(name, []) if e.get("optional")}
    here = [f for f in REPORTS[where].findings if f.file.endswith(name) and f.level is level]
    return [f for f in here if (f.rule, f.span.line) not in free and (name, f.rule) not in ARGUED]


def expected(where: str, name: str, level: Level = Level.ERROR) -> list[dict]:
    """What must be there; a finding that may be reported or not is left out."""
    listed = LISTED.get(where, {}).get(name, [])
    return [e for e in listed if e["level"] == level and not e.get("optional")]


def short(finding: Finding) -> tuple:
    return finding.rule, finding.energy, finding.models, finding.span.line


def agree(where: str, name: str, level: Level) -> None:
    listed = expected(where, name, level)
    free = {e["rule"] for e in listed if e.get("line_free")}
    got = [(*short(f)[:3], 0 if f.rule in free else f.span.line) for f in found(where, name, level)]
    want = [
        (e["rule"], e["energy"], tuple(e["models"]), 0 if e["rule"] in free else e["line"]) for e in listed
    ]
    assert sorted(map(str, got)) == sorted(map(str, want))


@pytest.mark.parametrize(("where", "name"), PAGES)
def test_the_errors_of_a_page_are_exactly_these(where: str, name: str) -> None:
    agree(where, name, Level.ERROR)


@pytest.mark.parametrize("name", [name for where, name in PAGES if where == "real"])
def test_the_warnings_of_a_published_page_are_exactly_these(name: str) -> None:
    agree("real", name, Level.WARNING)


@pytest.mark.parametrize("name", LISTED["cases"])
def test_the_path_of_a_finding_is_the_shortest_with_the_words_of_its_ways(name: str) -> None:
    got = {
        short(f): ([s.line for s in f.path], [w for s in f.path if (w := s.skipped or s.way_out)])
        for f in found("cases", name)
    }
    want = {
        (e["rule"], e["energy"], tuple(e["models"]), e["line"]): (e["path"], e["ways"])
        for e in LISTED["cases"][name]
    }
    assert got == want


def test_every_rule_that_is_expected_is_written() -> None:
    named = {e["rule"] for pages in LISTED.values() for page in pages.values() for e in page}
    assert named <= {rule.name for rule in RULES}


@pytest.mark.parametrize(("name", "rule"), ARGUED)
def test_what_is_argued_is_reported(name: str, rule: str) -> None:
    assert [f.rule for f in REPORTS["real"].findings if f.file.endswith(name) and f.rule == rule] == [rule]


@pytest.mark.parametrize("where", FOLDERS)
def test_every_page_is_analysed(where: str) -> None:
    pages = [n for w, n in PAGES if w == where]
    assert pages
    assert len(REPORTS[where].analyses) == len(set(pages))
