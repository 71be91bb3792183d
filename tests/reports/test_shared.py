"""A finding in shared steps: text and JSON name the shared file's line and the line that uses it."""

from __future__ import annotations

import json
from dataclasses import replace

from hooks.report import json as report_json
from hooks.report import text
from hooks.source import Place, Span, from_text
from tests.reports.findings import SOURCE, live

SHARED = from_text("\n\n### Prove it {#prove verify=\"electricity\"}\n", "shop/safe.md")
USE = Place("shop/valve.md", Span.in_line(3, 0, 42))
INNER = Place("shop/both.md", Span.in_line(9, 0, 10))
WHOLE = live("electricity", "ON")
FOUND = replace(
    WHOLE,
    file=SHARED.name,
    span=Span.in_line(3, 20, 40),
    used=(USE, INNER),
    path=(replace(WHOLE.path[0], file=SHARED.name, used=(USE, INNER)), WHOLE.path[2]),
)


def test_the_text_names_both_places_and_the_path_the_page_s_line_and_the_file_of_the_step() -> None:
    report = text.render((FOUND,), {s.name: s for s in (SOURCE, SHARED)}, 2)
    assert report.startswith(
        'shop/safe.md:3:21: error hands-on-live: hands-on step "Swap the valve" can be reached with electricity ON\n'
        "  used by shop/both.md:9:1\n"
        "  used by shop/valve.md:3:1\n"
        '  3 | ### Prove it {#prove verify="electricity"}\n'
    )
    assert "      3  Unplug          -> Yes  electricity OFF  (shop/both.md:9, shop/safe.md:3)\n" in report
    assert "      7  Swap the valve          electricity OFF  <- hands-on here\n" in report


def test_json_has_the_lines_that_use_it_that_of_the_page_first() -> None:
    (found,) = json.loads(report_json.render((FOUND,), 2))["findings"]
    used = [{"file": "shop/valve.md", "line": 3, "column": 1}, {"file": "shop/both.md", "line": 9, "column": 1}]
    assert (found["file"], found["line"], found["used"]) == ("shop/safe.md", 3, used)
    assert [step["used"] for step in found["path"]] == [used, []]


def test_the_same_fault_on_two_pages_is_two_findings() -> None:
    other = replace(FOUND, used=(USE._replace(file="shop/other.md"), INNER))
    assert other.fingerprint != FOUND.fingerprint
    assert FOUND.page == "shop/valve.md"
    moved = replace(FOUND, used=(USE._replace(span=Span.in_line(40, 0, 42)), INNER))
    assert moved.fingerprint == FOUND.fingerprint
