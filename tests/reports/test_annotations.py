"""The report that stands beside the changed lines of a pull request."""

from __future__ import annotations

from dataclasses import replace

import pytest

from hooks.diagnostics import Level
from hooks.report import annotations
from tests.reports.findings import FINDINGS, PLAIN, live
from tests.reports.test_shared import FOUND


def test_a_finding_is_one_line_with_its_path_and_how_to_mend_it() -> None:
    assert annotations.render([live("electricity", "ON")]) == (
        "::error file=shop/valve.md,line=7,col=1,title=hands-on-live::"
        'hands-on step "Swap the valve" can be reached with electricity ON%0A'
        "      3  Unplug          -> Yes     electricity OFF%0A"
        "      5  Drain           (skipped)%0A"
        "      7  Swap the valve             electricity OFF  <- hands-on here%0A"
        "  Fix: send line 5 to a step that proves both.\n"
    )


@pytest.mark.parametrize(("level", "command"), [(Level.ERROR, "error"), (Level.WARNING, "warning"), (Level.NOTE, "notice")])
def test_each_level_has_its_command(level: Level, command: str) -> None:
    assert annotations.render([replace(PLAIN, level=level)]).startswith(f"::{command} file=")


def test_what_would_end_a_value_or_the_line_is_written_otherwise() -> None:
    found = replace(PLAIN, file="a,b:c%.md", message="50 %\r\n::error::x", models=(), help="")
    assert annotations.render([found]) == (
        "::warning file=a%2Cb%3Ac%25.md,line=3,col=13,title=step-line::50 %25%0D%0A::error::x\n"
    )


def test_shared_steps_name_the_lines_that_use_them() -> None:
    assert "%0A  used by shop/both.md:9%0A  used by shop/valve.md:3%0A" in annotations.render([FOUND])


def test_what_is_let_stand_gives_its_reason() -> None:
    assert "[allowed: the plate says so]" in annotations.render([replace(PLAIN, because="the plate says so")])


def test_the_order_of_the_findings_is_that_of_their_places_and_a_clean_run_says_nothing() -> None:
    assert annotations.render(FINDINGS) == annotations.render(FINDINGS[::-1])
    assert annotations.render(()) == ""
