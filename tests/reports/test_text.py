"""The report a writer reads in a terminal."""

from __future__ import annotations

from dataclasses import replace

from hooks.report import text
from tests.reports.findings import FINDINGS, PLAIN, SOURCE, live

SOURCES = {SOURCE.name: SOURCE}

WHOLE = '''\
shop/valve.md:3:13: warning step-line: unknown word "unplug" (only on LM30)
  3 | ### Unplug {#unplug isolate="electricity"}
    |             ^^^^^^^
  Fix: the nearest known word is "isolate".

shop/valve.md:7:1: error hands-on-live: hands-on step "Swap the valve" can be reached with \
electricity OFF, not proved
shop/valve.md:7:1: error hands-on-live: hands-on step "Swap the valve" can be reached with water ON
  7 | ### Swap the valve {#swap work}
    | ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
      3  Unplug          -> Yes     electricity OFF
      5  Drain           (skipped)
      7  Swap the valve             electricity OFF, water ON  <- hands-on here
  Fix: send line 5 to a step that proves both.

1 page checked: 2 errors, 1 warning. Consistent text is not a safe machine: prove it at the machine.
'''


def test_findings_on_one_path_share_its_drawing_and_stand_in_file_order() -> None:
    assert text.render(FINDINGS, SOURCES, 1) == WHOLE


def test_findings_of_one_rule_and_place_with_different_paths_stay_apart() -> None:
    other = replace(live("water", "ON"), path=live("water", "ON").path[:1])
    report = text.render((other, live("electricity", "ON")), SOURCES, 1)
    assert report.count("  7 | ### Swap the valve") == 2


def test_a_clean_run_says_how_much_was_looked_at_and_what_it_does_not_prove() -> None:
    assert text.render((), SOURCES, 2) == f"2 pages checked, nothing found. {text.CLOSING}\n"


def test_a_silenced_finding_stands_with_its_reason() -> None:
    silenced = replace(PLAIN, because="the plate says so")
    report = text.render((silenced, replace(PLAIN, rule="other")), SOURCES, 1)
    assert "[allowed: the plate says so]" in report
    assert "1 page checked: 2 warnings, 1 of them allowed with a reason." in report


def test_the_caret_stands_under_its_word_behind_a_tab() -> None:
    source = replace(SOURCE, lines=("\tbad word",))
    span = PLAIN.span._replace(line=1, column=6, end_line=1, end_column=10)
    report = text.render((replace(PLAIN, span=span),), {source.name: source}, 1)
    assert "  1 | \tbad word\n    | \t    ^^^^\n" in report
