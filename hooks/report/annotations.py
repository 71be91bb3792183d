"""Findings as workflow commands, `::error file=…,line=…::…`: a code host shows them beside the changed lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hooks.diagnostics import Finding, Level
from hooks.report.text import path, qualified

COMMANDS = {Level.ERROR: "error", Level.WARNING: "warning", Level.NOTE: "notice"}


def render(findings: Iterable[Finding]) -> str:
    """One command a finding, in the order of their places; nothing on a clean run."""
    ordered = sorted(findings, key=lambda f: (f.order, repr(f)))
    return "".join(f"{_command(finding)}\n" for finding in ordered)


def _command(finding: Finding) -> str:
    facts = {"file": finding.file, "line": finding.span.line, "col": finding.span.column, "title": finding.rule}
    said = ",".join(f"{name}={_property(str(value))}" for name, value in facts.items())
    return f"::{COMMANDS[finding.level]} {said}::{_data(chr(10).join(_lines(finding)))}"


def _lines(finding: Finding) -> Iterator[str]:
    yield qualified(finding)
    for place in reversed(finding.used):
        yield f"  used by {place.file}:{place.span.line}"
    yield from path(finding.path, [finding.energy] if finding.energy else [])
    if finding.help:
        yield f"  Fix: {finding.help}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
