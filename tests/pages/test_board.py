"""The board says what the analysis found for each step, the worst over all paths, and never more."""

from __future__ import annotations

import pytest
from bs4 import BeautifulSoup

from hooks.check.analysis import State
from tests.pages.drawn import Drawn, draw, sample, words

PAGES = {
    "pump": draw(),
    "laundry": sample("laundry-fill-valve.md"),
    "cooler": sample("cooler-hot-tank.md"),
}
SHOWN = {State.ON: "on", State.OFF: "off", State.RELEASED: "off", State.PROVED: "proved"}


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES.keys())
def test_every_line_is_as_full_as_the_worst_state_while_the_step_is_done(page: Drawn) -> None:
    for step in page.page.steps:
        reached = page.analysis.at(step.number)
        if reached is None:
            continue
        arriving, leaving = dict(reached.arriving), dict(reached.leaving)
        drawn = [li["class"][1] for li in page.board(step.id).select("li.line")]
        assert drawn == [SHOWN[min(arriving[e], leaving[e])] for e in arriving], step.id


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES.keys())
def test_hands_in_is_said_where_all_is_proved_and_nowhere_else(page: Drawn) -> None:
    for step in page.page.steps:
        reached = page.analysis.at(step.number)
        known = [*reached.arriving, *reached.leaving] if reached else []
        proved = bool(known) and all(state is State.PROVED for _, state in known)
        said = words(page.board(step.id).select_one("strong"))
        assert (said == "HANDS IN") is (proved and not step.test), step.id


CASES = (
    ("hum", "live", "HANDS OFF Power, water and heat are on."),
    ("cold", "unproved", "HANDS OFF Prove the heat first."),
    ("open", "in", "HANDS IN Inside the machine. The wall side stays on."),
    ("tap-on", "live", "HANDS OFF Water goes on in this step."),
    ("catch", "test", "TUBE ONLY Hold tube and bucket. Water is on for the test."),
    ("plug-in", "live", "HANDS OFF Water is on. Power and heat go on in this step."),
)


@pytest.mark.parametrize(("step", "look", "said"), CASES)
def test_the_machine_says_what_may_be_touched(step: str, look: str, said: str) -> None:
    board = PAGES["pump"].board(step)
    assert board["class"] == ["board-now", look]
    assert words(board.select_one(".machine p")) == said


def test_a_meter_is_all_that_touches_in_a_live_test_of_power() -> None:
    board = PAGES["laundry"].board("live")
    assert words(board.select_one("strong")) == "METER ONLY"
    assert "test" in board["class"]


def test_a_proof_is_linked_and_so_is_the_next_proof_that_is_missing() -> None:
    lines = PAGES["pump"].board("cold").select("li.line p")
    assert [words(p) for p in lines] == [
        "Power proved off step 3",
        "Water proved off step 4",
        "Heat cooled, NOT proved prove it: step 6 heated only",
    ]
    assert [a["href"] for p in lines for a in p.select("a")] == ["#prove", "#drain", "#cold"]


def test_every_proof_that_may_cover_a_line_is_named() -> None:
    power = PAGES["laundry"].board("swap").select_one("li.line p")
    assert words(power) == "Power proved off step 3 or 12"


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES.keys())
def test_the_wall_side_of_a_supply_is_always_full(page: Drawn) -> None:
    for board in page.boards:
        for pipe in board.select("svg.pipe"):
            supply = pipe.find("use", class_="point") is not None
            wall = pipe.find("rect", attrs={"x": "64%"})
            assert (wall is not None and wall["class"] == ["fill-on"]) is supply


def test_without_an_analysis_nothing_counts_as_proved() -> None:
    page = draw(analysed=False)
    for step in page.page.steps:
        board = page.board(step.id)
        assert "unproved" in board["class"]
        assert {li["class"][1] for li in board.select("li.line")} == {"off"}


def test_a_step_that_no_way_leads_to_is_not_proved() -> None:
    lost = "### Lost {#lost work}\n\nNext: [Stop](#stop)\n\n### Stop {#stop"
    page = draw(_text().replace("### Stop {#stop", lost))
    board = page.board("lost")
    assert "unproved" in board["class"]
    assert "no checked way leads to this step" in words(board)


def test_equal_boards_are_drawn_once() -> None:
    soup = PAGES["pump"].soup
    drawn = [str(board) for board in PAGES["pump"].boards]
    assert len(drawn) == len(set(drawn)) > 1
    for shared in ("heads", "lines"):
        parts = [str(part) for part in soup.select(f"#page--board-{shared} > *")]
        assert len(parts) == len(set(parts)) > 1
    shown = {step["data-board"] for step in soup.select(".step")}
    assert len(shown) < len(PAGES["pump"].page.steps)


def _text() -> str:
    return "\n".join(PAGES["pump"].page.source.lines)
