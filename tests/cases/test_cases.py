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
NOT_WRITTEN = {"isolating-point-uncontrolled", "tool-unlisted", "action-in-message"}
"""Rules that the expectations of `real` name and that the check does not have yet."""
LISTED = {f: json.loads((TESTS / f / "expected.json").read_text("utf-8")) for f in ("cases", "real")}
REPORTS = {f: examine(folder(TESTS / f)) for f in FOLDERS}
PAGES = [(f, p.name) for f in FOLDERS for p in sorted((TESTS / f).glob("*.md")) if p.name.islower()]
PAGES += [("cases", name) for name in LISTED["cases"]]


def found(where: str, name: str) -> list[Finding]:
    return [f for f in REPORTS[where].findings if f.file.endswith(name) and f.level is Level.ERROR]


def expected(where: str, name: str) -> list[dict]:
    """What must be there; a finding that may be reported or not is left out."""
    listed = LISTED.get(where, {}).get(name, [])
    return [e for e in listed if e["rule"] not in NOT_WRITTEN and not e.get("optional")]


def short(finding: Finding) -> tuple:
    return finding.rule, finding.energy, finding.models, finding.span.line


@pytest.mark.parametrize(("where", "name"), PAGES)
def test_the_errors_of_a_page_are_exactly_these(where: str, name: str) -> None:
    free = {e["rule"] for e in expected(where, name) if e.get("line_free")}
    got = [(*short(f)[:3], 0 if f.rule in free else f.span.line) for f in found(where, name)]
    want = [
        (e["rule"], e["energy"], tuple(e["models"]), 0 if e["rule"] in free else e["line"])
        for e in expected(where, name)
    ]
    assert sorted(map(str, got)) == sorted(map(str, want))


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


def test_only_these_rules_are_left_out_of_the_comparison() -> None:
    written = {rule.name for rule in RULES}
    named = {e["rule"] for pages in LISTED.values() for page in pages.values() for e in page}
    assert named - written == NOT_WRITTEN


@pytest.mark.parametrize("where", FOLDERS)
def test_every_page_is_analysed(where: str) -> None:
    pages = [n for w, n in PAGES if w == where]
    assert pages
    assert len(REPORTS[where].analyses) == len(set(pages))
