"""A technician's page: order of what is read, ways out, readings, evidence, access."""

from __future__ import annotations

import json
import re

import pytest
from bs4 import Tag

from tests.pages.drawn import PUMP, Drawn, draw, sample, words

PAGES = {
    "pump": draw(),
    "laundry": sample("laundry-fill-valve.md"),
    "cooler": sample("cooler-hot-tank.md"),
}
each_page = pytest.mark.parametrize("page", PAGES.values(), ids=PAGES.keys())


def order(step: Tag, *selectors: str) -> list[int]:
    """Where the first match of each selector stands among all tags of a step."""
    tags = step.find_all(True)
    return [next(i for i, t in enumerate(tags) if t is step.select_one(s)) for s in selectors]


@each_page
def test_a_message_is_read_before_the_number_and_title_of_its_step(page: Drawn) -> None:
    warned = [s for s in page.page.steps if s.messages]
    assert warned
    for step in warned:
        places = order(page.step(step.id), ".message", ".n", ".title", ".prose")
        assert places == sorted(places), step.id


@each_page
def test_a_step_begins_at_its_id_so_that_a_jump_shows_its_message(page: Drawn) -> None:
    for step in page.page.steps:
        section = page.step(step.id)
        assert section.name == "section"
        assert len(section.select(".message")) == len(step.messages)


@each_page
def test_headings_go_down_by_one_and_there_is_one_title(page: Drawn) -> None:
    levels = [int(tag.name[1]) for tag in page.soup.find_all(re.compile("^h[1-6]$"))]
    assert levels.count(1) == 1 and levels[0] == 1
    assert all(b - a <= 1 for a, b in zip(levels, levels[1:], strict=False))


@each_page
def test_every_link_within_the_page_leads_somewhere_and_no_id_is_twice(page: Drawn) -> None:
    soup = page.soup
    ids = [tag["id"] for tag in soup.find_all(id=True)]
    assert len(ids) == len(set(ids))
    links = {a["href"][1:] for a in soup.select("a[href^='#']")} | {
        u["href"][1:] for u in soup.select("use")
    }
    assert links <= set(ids)


@each_page
def test_nothing_on_the_page_needs_an_inline_style_or_script(page: Drawn) -> None:
    for tag in page.soup.find_all(True):
        assert not [name for name in tag.attrs if name == "style" or name.startswith("on")]
    scripts = page.soup.find_all("script")
    assert [s["type"] for s in scripts] == ["application/json"]


@each_page
def test_the_graph_holds_what_the_search_reached(page: Drawn) -> None:
    graph = json.loads(page.soup.find("script", id="graph").string)
    assert [n["id"] for n in graph["nodes"]] == [s.id for s in page.page.steps]
    edges = {(e["from"], e["to"], e["words"]) for e in graph["edges"]}
    assert edges == {(e.source, e.target, e.words) for e in page.analysis.edges}


@each_page
def test_the_arms_of_a_step_lead_where_the_analysis_goes(page: Drawn) -> None:
    for step in page.page.steps:
        reached = {e.target for e in page.analysis.edges if e.source == step.number}
        arms = {int(words(a.select_one(".n"))) for a in page.step(step.id).select(".way")}
        assert reached <= arms, step.id


WAYS = {
    "hum": ["on Yes 2", "on No 17"],
    "unplug": ["on Next 3 main"],
    "prove": ["on Proved 4", "stop Not proved, a light 16"],
    "drain": ["on Proved 5", "stop Not proved 16"],
    "cool": ["on Done 6 main", "on Not fitted on P1 6"],
    "cold": ["on Proved 7", "back Not proved 5", "on Not fitted on P1 7"],
    "good": ["on In limits 11", "on Out of limits 10", "back Too close to call 8"],
    "change": ["on Done 11 main", "on Leave it out 11"],
    "done": [],
    "stop": [],
}


@pytest.mark.parametrize(("step", "expected"), WAYS.items())
def test_ways_out_keep_their_order_and_point_where_they_go(step: str, expected: list[str]) -> None:
    arms = PAGES["pump"].step(step).select(".way")
    said = [
        " ".join([a["class"][1], words(a.select_one(".answer")).replace(" ,", ","), words(a.select_one(".n")), *a["class"][2:]])
        for a in arms
    ]
    assert said == expected


def test_an_end_says_its_closing_state_and_what_follows() -> None:
    closing = PAGES["pump"].step("done").select_one(".closing")
    assert words(closing) == (
        "In service. Outcome: repaired. Cause: coil. "
        "Goes on with Check the pump , where everything counts as on and is proved again."
    )
    assert closing.a["href"] == "pump-check.html"


def test_where_the_machine_runs_again_the_end_says_what_to_leave_in_order() -> None:
    said = {s["id"]: words(s.select_one(".leaving ul")) for s in PAGES["pump"].soup.select(".step:has(.leaving)")}
    assert said == {"done": "Wipe the floor"}


def test_the_clearing_sentence_stands_before_what_to_do_where_it_is_asked_for() -> None:
    cleared = [s["id"] for s in PAGES["pump"].soup.select(".step") if s.select(".clearing")]
    assert cleared == ["tap-on", "plug-in"]
    places = order(PAGES["pump"].step("tap-on"), ".clearing", ".prose", ".ways")
    assert places == sorted(places)


ROWS = {
    "unplug": "power off",
    "prove": "has a warning power proved off",
    "drain": "has a caution water proved off",
    "cool": "has a warning heat cooled heated only",
    "open": "hands go in",
    "tap-on": "water on",
    "catch": "has a caution tube and bucket only",
}


@pytest.mark.parametrize(("step", "said"), ROWS.items())
def test_a_row_says_in_words_what_its_rail_shows(step: str, said: str) -> None:
    assert words(PAGES["pump"].step(step).select_one(".marks")) == said


def test_what_is_known_stands_in_words_where_there_is_no_board() -> None:
    small = PAGES["pump"].step("tap-on").select_one(".small")
    assert words(small) == "Step 12 of 17. Power, water and heat proved off. Water goes on in this step."


def test_the_lead_is_one_sentence_to_say_aloud() -> None:
    assert words(PAGES["pump"].soup.select_one(".lead")) == (
        "One person, 1 hour 30 minutes. Bring tester and pliers; "
        "cut power at the plug and water at the tap; let the heat out."
    )


def test_a_list_that_is_none_says_so() -> None:
    none = [words(p) for p in PAGES["pump"].soup.select(".lists .none")]
    assert none == ["Supplies none", "Before you start none"]


def test_the_map_says_how_often_hands_go_in() -> None:
    figure = PAGES["pump"].soup.select_one("figure.map")
    assert words(figure.figcaption) == "Hands go in once, only while all three lines are hollow: proved off."
    assert "Hands in at step 7 to 11" in figure.find("svg")["aria-label"]


def test_the_map_does_not_call_a_line_hollow_that_is_not() -> None:
    page = draw(PUMP.replace("- No: [As it was](#as-found)", "- No: [Open it](#open)"))
    assert "Not every line is proved off at step 7" in words(page.soup.select_one(".map figcaption"))


def test_the_evidence_names_the_proof_of_every_hands_on_step() -> None:
    rows = [words(li) for li in PAGES["pump"].soup.select(".evidence li")]
    assert rows[0] == "7 Open it : Power proved in step 3 ; water proved in step 4 ; heat proved in step 6 ."
    assert len(rows) == sum(s.hands_on for s in PAGES["pump"].page.steps)


def test_the_evidence_does_not_hide_a_step_without_proof() -> None:
    rows = [words(li) for li in draw(analysed=False).soup.select(".evidence li")]
    assert all("NOT proved" in row for row in rows) and rows


def test_a_reading_has_a_label_with_unit_and_limits_and_a_live_answer() -> None:
    reading = PAGES["pump"].step("measure").select_one(".reading")
    field = reading.select_one(".field input")
    label = reading.find("label", attrs={"for": field["id"]})
    assert words(label) == "Coil in ohm, limits 100 to 500"
    assert field["inputmode"] == "decimal"
    answer = reading.find(id=field["aria-describedby"])
    assert answer["role"] == "status"
    assert json.loads(reading["data-request"])["limits"] == {"low": 100.0, "high": 500.0, "unit": "ohm"}


def test_the_table_stands_open_in_the_page_for_paper_and_without_a_script() -> None:
    table = PAGES["pump"].step("measure").select_one("details.table")
    assert table.has_attr("open")
    verdicts = [words(row.select("td")[1]) for row in table.select("tbody tr")]
    assert "In limits" in verdicts and "Too close to call" in verdicts


def test_a_reading_without_a_calculator_asks_to_compare_with_the_limits() -> None:
    reading = PAGES["laundry"].step("coil").select_one(".reading")
    assert not reading.has_attr("data-calculator")
    assert "compare it with the limits yourself, 700 to 1500 ohm" in words(reading)


def test_a_decision_on_its_own_step_is_tied_to_its_reading() -> None:
    step = PAGES["pump"].step("good")
    assert step.select_one(".ways")["data-judges"] == "coil"
    assert step.select_one("[data-judged=coil] a")["href"] == "#measure"
    verdicts = [a["data-verdict"] for a in step.select(".way")]
    assert verdicts == ["in limits", "out of limits", "too close to call"]


def test_tags_in_the_text_are_shown_as_text() -> None:
    message = PAGES["pump"].soup.select_one(".before .message")
    assert "Prove <b>all</b> of it off." in words(message)
    written = "- Below <5 ohm>, &lt; 0.5 V: [Unplug <it>](#unplug)"
    step = draw(PUMP.replace("- Yes: [Unplug](#unplug)", written)).step("hum")
    assert words(step.select_one(".way .answer")) == "Below <5 ohm>, < 0.5 V"


def test_a_finding_is_drawn_for_the_writer_only() -> None:
    shown = {"finding_html": {2: "<p>mind</p>"}, "page_findings": "<p>page</p>"}
    assert not draw(**shown).soup.select(".findings")
    preview = draw(**shown, preview=True)
    assert words(preview.step("unplug").select_one(".findings")) == "mind"
    assert words(preview.soup.select_one(".before .findings")) == "page"
