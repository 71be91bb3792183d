"""`--values FOLDER` runs the reference values of another folder; the summary counts rows by file."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

COUNTS: dict[str, Counter[str]] = {}


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--values", type=Path, default=None, help="a folder of reference values to run instead")


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    file = dict(report.user_properties).get("values")
    if file and (report.when == "call" or report.failed):
        what = "failed" if report.failed else "excepted" if hasattr(report, "wasxfail") else "passed"
        COUNTS.setdefault(file, Counter())[what] += 1


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    for file, count in sorted(COUNTS.items()):
        named = f", {count['excepted']} named exceptions" if count["excepted"] else ""
        terminalreporter.write_line(f"{file}: {count['passed']} rows passed, {count['failed']} failed{named}")
