"""What the writer sees of a finding."""

from __future__ import annotations

from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from hooks import source
from hooks.diagnostics import Finding, Level, PathStep, StepRef
from hooks.model import Page
from hooks.page import finding
from hooks.parse import page as read_page
from hooks.model import Shop
from hooks.source import Span

TEXT = """---
title: Pump
page: procedure
id: pump
appliance: Pump
models: {P1: []}
energies: {electricity: {points: [plug]}, water: {points: [tap]}}
---
# Pump

### Unplug {#unplug isolate="electricity"}

### Shut {#shut isolate="water" optional}

### Swap {#swap work}
"""
NAME = "shop/pump.md"
OFF, ON = "OFF, not proved", "ON"


@pytest.fixture(scope="module")
def page() -> Page:
    return read_page(source.from_text(TEXT, NAME), Shop(None)).page


def passed(line: int, id: str, title: str, power: str, **more: str) -> PathStep:
    energies = (("electricity", power), ("water", ON))
    return PathStep(NAME, line, StepRef(id, title), more.get("way", ""), more.get("skipped", ""), energies, more.get("note", ""))


PATH = (
    passed(11, "unplug", "Unplug", OFF, way="Yes"),
    passed(13, "shut", "Shut", OFF, skipped="skipped"),
    passed(15, "swap", "Swap", OFF, note="hands-on here"),
)


def live(energy: str) -> Finding:
    return Finding(
        "hands-on-live", Level.ERROR, NAME, Span(15, 1, 15, 5), f"<b>Swap</b> can be reached with {energy} on",
        "Prove it first.", StepRef("swap", "Swap"), energy, path=PATH,
    )  # fmt: skip


def drawn(found: list[Finding], page: Page) -> tuple[dict[int, BeautifulSoup], BeautifulSoup]:
    by_step, rest = finding.render(found, page)
    return {n: BeautifulSoup(h, "html.parser") for n, h in by_step.items()}, BeautifulSoup(rest, "html.parser")


def test_a_finding_stands_at_its_step_with_rule_place_and_help(page: Page) -> None:
    by_step, rest = drawn([live("electricity")], page)
    assert list(by_step) == [3] and not rest.get_text()
    text = " ".join(by_step[3].get_text().split())
    assert "hands-on-live error, shop/pump.md line 15, column 1." in text
    assert "To mend it: Prove it first." in text


def test_words_of_the_page_are_shown_as_text(page: Page) -> None:
    by_step, _ = drawn([live("electricity")], page)
    assert by_step[3].select_one(".says").get_text() == "<b>Swap</b> can be reached with electricity on"


def test_the_path_links_to_its_steps_and_says_what_changed_and_which_way_was_taken(page: Page) -> None:
    by_step, _ = drawn([live("electricity")], page)
    rows = by_step[3].select(".path li")
    assert [row.a["href"] for row in rows] == ["#unplug", "#shut", "#swap"]
    assert [row.select_one(".said").get_text() for row in rows] == [
        "Power OFF, not proved. Took “Yes”",
        "Passed over: skipped",
        "Power OFF, not proved. Hands-on here",
    ]


def test_the_path_has_a_pipe_an_energy_that_follows_its_state(page: Page) -> None:
    by_step, _ = drawn([live("electricity")], page)
    pipes = [[r["class"][0] for r in row.select("rect[class^=fill]")] for row in by_step[3].select(".path li")]
    assert pipes == [["fill-on", "fill-off", "fill-on"], ["fill-off", "fill-on"], ["fill-off", "fill-on"]]


def test_two_energies_by_one_path_are_drawn_together(page: Page) -> None:
    by_step, _ = drawn([live("electricity"), live("water")], page)
    assert len(by_step[3].select(".finding")) == 1
    assert len(by_step[3].select(".says")) == 2


def test_a_finding_without_a_step_stands_on_the_page(page: Page) -> None:
    by_step, rest = drawn([replace(live("water"), step=None, path=(), span=Span(2, 1, 2, 5))], page)
    assert by_step == {}
    assert rest.select_one(".says")


def test_a_finding_that_names_no_step_stands_in_the_one_of_its_lines(page: Page) -> None:
    by_step, rest = drawn([replace(live("water"), step=None, path=(), span=Span(14, 1, 14, 5))], page)
    assert list(by_step) == [2] and not rest.get_text()


def test_what_is_quoted_from_the_page_stands_apart(page: Page) -> None:
    found = replace(live("water"), message="`a<b` is no word", help="Write `ab`.", path=())
    shown = drawn([found], page)[0][3]
    assert shown.select_one(".says").decode_contents() == "<code>a&lt;b</code> is no word"
    assert "`" not in shown.get_text()


def test_pages_that_no_one_wrote_say_which_pages_have_errors() -> None:
    errors = [live("water"), live("electricity"), replace(live("water"), level=Level.WARNING)]
    strip = BeautifulSoup(finding.overview([("a.html", "A", tuple(errors)), ("b.html", "B", ())]), "html.parser")
    assert strip.b.get_text() == "Preview, 2 errors. The shop’s site stays as it was."
    assert [(a["href"], a.get_text()) for a in strip.find_all("a")] == [("a.html", "A: 2")]


def test_a_reason_given_by_the_writer_is_shown(page: Page) -> None:
    by_step, _ = drawn([replace(live("water"), because="no water here", level=Level.NOTE)], page)
    assert "because: no water here" in by_step[3].get_text()


@pytest.mark.parametrize(
    ("levels", "said", "to"),
    [
        ([Level.ERROR, Level.ERROR], "Preview, 2 errors. The shop’s site keeps the last good page.", "#swap"),
        ([Level.ERROR], "Preview, 1 error. The shop’s site keeps the last good page.", "#swap"),
        ([Level.WARNING], "Preview, no errors, 1 thing to look at.", "#swap"),
        ([], "Preview, nothing found. The shop’s site can have this page.", None),
    ],
)
def test_the_strip_on_top_says_what_keeps_the_page_back(
    levels: list[Level], said: str, to: str | None, page: Page
) -> None:
    found = [replace(live("water"), level=level) for level in levels]
    strip = BeautifulSoup(finding.banner(found, page), "html.parser")
    assert strip.b.get_text() == said
    assert (strip.a and strip.a["href"]) == to


def test_a_page_that_cannot_be_read_shows_the_line_that_stops_it() -> None:
    text = source.from_text("---\ntitle: [open\n---\n", NAME)
    found = Finding("front-matter", Level.ERROR, NAME, Span(2, 8, 2, 9), "this is not YAML", "Close it.")
    page = BeautifulSoup(finding.unreadable([found], text), "html.parser")
    assert page.h1.get_text() == "This page cannot be read yet"
    assert page.pre.get_text() == "title: [open"


@pytest.mark.parametrize("root", ["./", "../../"])
def test_it_leads_to_the_page_of_its_rule_from_any_folder(page: Page, root: str) -> None:
    by_step, _ = finding.render([live("electricity")], page, root)
    assert BeautifulSoup(by_step[3], "html.parser").select_one(".why")["href"] == f"{root}rules/hands-on-live.html"
