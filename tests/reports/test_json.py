"""The report a script reads."""

from __future__ import annotations

import json
from dataclasses import replace

from hooks.report import json as report
from tests.reports.findings import FINDINGS, PLAIN, live


def test_every_finding_has_the_documented_fields() -> None:
    document = json.loads(report.render(FINDINGS, 1))
    assert (document["schema"], document["pages"]) == (1, 1)
    assert [f["line"] for f in document["findings"]] == [3, 7, 7]
    finding = document["findings"][1]
    path = finding.pop("path")
    assert finding == {
        "rule": "hands-on-live",
        "level": "error",
        "file": "shop/valve.md",
        "line": 7,
        "column": 1,
        "end_line": 7,
        "end_column": 32,
        "step": {"id": "swap", "title": "Swap the valve"},
        "message": FINDINGS[2].message,
        "help": "send line 5 to a step that proves both.",
        "energy": "electricity",
        "models": [],
        "because": None,
        "fingerprint": FINDINGS[2].fingerprint,
        "used": [],
    }
    assert path[1] == {
        "file": "shop/valve.md",
        "line": 5,
        "step": {"id": "drain", "title": "Drain"},
        "way_out": "",
        "skipped": "skipped",
        "energies": {"electricity": "OFF", "water": "ON"},
        "used": [],
    }


def test_the_same_findings_in_another_order_give_the_same_bytes() -> None:
    assert report.render(FINDINGS, 1) == report.render(FINDINGS[::-1], 1)


def test_a_fingerprint_outlives_an_edit_above_and_tells_energies_apart() -> None:
    water = live("water", "ON")
    moved = replace(water, span=water.span._replace(line=90, end_line=90))
    assert moved.fingerprint == water.fingerprint
    assert live("electricity", "ON").fingerprint != water.fingerprint


def test_findings_without_a_step_have_fingerprints_of_their_own() -> None:
    assert replace(PLAIN, message="another").fingerprint != PLAIN.fingerprint
