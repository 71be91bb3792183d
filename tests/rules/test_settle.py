"""What findings weigh in the end: a shop only raises, a writer lets warnings stand and gives the reason."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from hooks import check, parse
from hooks.diagnostics import Finding, Level
from hooks.page import procedure
from hooks.report import json, text

HEAD = (Path(__file__).parent / "heads/power.txt").read_text("utf-8")
ALLOWED = 'allow="isolating-point-uncontrolled" because="the cord is a foot long"'
PAGE = """!!! warning electricity "Shock"
    Live parts can kill. Prove first.

### Unplug {#unplug isolate="electricity" %s}
Pull the plug.
### Prove it {#prove verify="electricity"}
- **Not proved**: [Unplug](#unplug)
### Plug in {#on restore="electricity" clear}
Dry hands.
### Done {#done end="in service"}
Run it.
"""


def shop(folder: Path, rules: str, words: str = "") -> parse.ParsedShop:
    (folder / "shop.yml").write_text(f"rules: {rules}\n" if rules else "clearing: All out.\n", "utf-8")
    (folder / "page.md").write_text(HEAD + PAGE % words, "utf-8")
    return parse.folder(folder)


def found(folder: Path, rules: str, words: str = "") -> tuple[Finding, ...]:
    return check.examine(shop(folder, rules, words)).findings


def levels(findings: tuple[Finding, ...]) -> dict[str, Level]:
    return {finding.rule: finding.level for finding in findings}


def test_a_shop_raises_a_warning_to_an_error_on_all_its_pages(tmp_path: Path) -> None:
    assert levels(found(tmp_path, "")) == {"isolating-point-uncontrolled": Level.WARNING}
    raised = found(tmp_path, "{isolating-point-uncontrolled: error}")
    assert levels(raised) == {"isolating-point-uncontrolled": Level.ERROR}


def test_what_a_shop_has_made_an_error_is_not_let_stand(tmp_path: Path) -> None:
    raised = found(tmp_path, "{isolating-point-uncontrolled: error}", ALLOWED)
    assert levels(raised) == {
        "isolating-point-uncontrolled": Level.ERROR,
        "exception-unexplained": Level.ERROR,
    }
    assert [finding.because for finding in raised] == [None, None]


@pytest.mark.parametrize(
    ("rules", "says"),
    [
        ("{hands-on-live: error}", "`hands-on-live` reports nothing milder than an error"),
        ("{hands-on-live: warning}", "`hands-on-live` reports nothing milder than an error"),
        ("{times-disagree: warning}", "`times-disagree` reports nothing milder than a warning"),
        ("{step-line: error}", "`step-line` reports nothing milder than an error"),
        ("{time-disagrees: error}", "there is no rule `time-disagrees`"),
        ("{hands-on-live: note}", "`note` is not known"),
        ('{hands-on-live: "off"}', "`off` is not known"),
    ],
)
def test_no_level_is_lowered_and_no_rule_turned_off(tmp_path: Path, rules: str, says: str) -> None:
    wrong = [f for f in found(tmp_path, rules, ALLOWED) if f.level is Level.ERROR]
    assert [(f.rule, f.file.rpartition("/")[2], f.span.line) for f in wrong] == [("shop-facts", "shop.yml", 1)]
    assert says in wrong[0].message


def test_a_rule_that_weighs_less_than_a_warning_is_raised_to_one(tmp_path: Path) -> None:
    assert levels(found(tmp_path, "{step-unmarked: warning}", ALLOWED)) == {
        "isolating-point-uncontrolled": Level.WARNING
    }


def test_what_is_let_stand_is_in_every_report_and_on_the_page_with_its_reason(tmp_path: Path) -> None:
    parsed = shop(tmp_path, "", ALLOWED)
    report = check.examine(parsed)
    assert "[allowed: the cord is a foot long]" in text.render(report.findings, {}, 1)
    assert '"because": "the cord is a foot long"' in json.render(report.findings, 1)
    page = parsed.pages[0].page
    assert page is not None
    html = procedure.render(page, report.analyses[page.id], report.findings, parsed.shop)
    drawn = BeautifulSoup(html, "html.parser")
    said = drawn.select("#unplug .accepted, .evidence li")
    assert sum("Because: the cord is a foot long" in one.get_text() for one in said) == 2
    assert not drawn.select("#prove .accepted")
