"""Findings as JSON, schema 1: for scripts and for editors.

`{"schema": 1, "pages": N, "findings": […]}`; lines and columns count from 1, the
end is exclusive, `models: []` means all models of the page. `used` is for what is
found in shared steps: the lines that use them, that of the page first.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from hooks.diagnostics import Finding, PathStep, StepRef
from hooks.source import Place

SCHEMA = 1


def render(findings: Iterable[Finding], pages: int) -> str:
    """The report as one JSON document, the same bytes for the same input."""
    ordered = sorted(findings, key=lambda f: f.order)
    document = {"schema": SCHEMA, "pages": pages, "findings": [_finding(f) for f in ordered]}
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def _finding(finding: Finding) -> dict[str, Any]:
    span = finding.span
    return {
        "rule": finding.rule,
        "level": finding.level.value,
        "file": finding.file,
        "line": span.line,
        "column": span.column,
        "end_line": span.end_line,
        "end_column": span.end_column,
        "step": _step(finding.step) if finding.step else None,
        "message": finding.message,
        "help": finding.help,
        "energy": finding.energy,
        "models": list(finding.models),
        "because": finding.because,
        "fingerprint": finding.fingerprint,
        "used": [_used(place) for place in finding.used],
        "path": [_path_step(p) for p in finding.path],
    }


def _step(step: StepRef) -> dict[str, str]:
    return {"id": step.id, "title": step.title}


def _path_step(step: PathStep) -> dict[str, Any]:
    return {
        "file": step.file,
        "line": step.line,
        "step": _step(step.step),
        "way_out": step.way_out,
        "skipped": step.skipped,
        "energies": dict(step.energies),
        "used": [_used(place) for place in step.used],
    }


def _used(place: Place) -> dict[str, Any]:
    return {"file": place.file, "line": place.span.line, "column": place.span.column}
