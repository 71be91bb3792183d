"""What a drawn page says of each step is what the search saw there, on random jobs and on the samples."""

from __future__ import annotations

import re
from collections import defaultdict
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from hypothesis import HealthCheck, given, settings

from hooks.check import alike, analyse
from hooks.check.analysis import State
from hooks.check.energy import machine
from hooks.check.graph import applies
from hooks.check.paths import search
from hooks.check.walk import Walk
from hooks.model import Page, Shop
from hooks.page import procedure
from hooks.parse import page
from hooks.parse.result import ParsedShop
from hooks.source import from_text
from tests.pages.drawn import PUMP, shared
from tests.paths.jobs import jobs
from tests.paths.shapes import Job, markdown

SAMPLES = sorted((Path(__file__).parents[1] / "samples").glob("*.md"))
NAMES = {"electricity": "power", "hot-water": "hot water"}


class Seen:
    """What the search saw, step by step, without what the check makes of it."""

    def __init__(self, made: Page) -> None:
        self.ways: dict[str, set[str]] = defaultdict(set)
        self.arriving: dict[str, dict[str, State]] = defaultdict(dict)
        self.worst: dict[str, dict[str, State]] = defaultdict(dict)
        for models in alike(made):
            self.follow(made, search(made, machine(made, models)))

    def follow(self, made: Page, walk: Walk) -> None:
        names = [e.name for e in walk.machine.energies]
        for node in walk.came:
            step = made.steps[node.place]
            if applies(step, walk.machine):
                self.lower(self.arriving[step.id], names, node.now.states)
                self.lower(self.worst[step.id], names, node.now.states)
        for node, way, after in walk.moves:
            step = made.steps[node.place]
            self.ways[step.id].add(made.steps[after.place].id)
            if not way.skipped and way.proof is not False:
                self.lower(self.worst[step.id], names, after.now.states)

    @staticmethod
    def lower(known: dict[str, State], names: list[str], states: tuple[State, ...]) -> None:
        for name, state in zip(names, states, strict=True):
            known[name] = min(known.get(name, state), state)


def agrees(made: Page, drawn: Tag) -> None:
    """Ways, board, rail and the line of words of every step that is reached."""
    seen = Seen(made)
    for step in made.steps:
        row = drawn.find(id=step.id)
        if step.id not in seen.worst:
            assert "HANDS IN" not in board(drawn, row)
            continue
        offered = {a["href"][1:] for a in row.select("a.way")}
        passing = {s.id for s in made.steps[step.number : step.number + 1] if step.only}
        assert offered - passing <= seen.ways[step.id] <= offered, step
        hands_may_go_in = not step.test and set(seen.worst[step.id].values()) == {State.PROVED}
        assert ("HANDS IN" in board(drawn, row)) is hands_may_go_in, step
        assert proved_by_words(row) == proved(seen.arriving[step.id]), step
        known = [seen.arriving[step.id].get(e.name) for e in made.energies]
        assert rail(row) == [state is State.PROVED for state in known if state is not None], step


def board(drawn: Tag, row: Tag) -> str:
    """The board without its lines."""
    return str(shared(drawn, "heads", drawn.find("template", id=row["data-board"])["data-head"]))


def proved(known: dict[str, State]) -> set[str]:
    return {NAMES.get(e, e) for e, state in known.items() if state is State.PROVED}


def proved_by_words(row: Tag) -> set[str]:
    words = row.select_one(".head .small").get_text().lower().replace("; ", ". ")
    found = re.search(r"([^.;]*?) proved off", re.sub(r"[^.;]*not proved", "", words))
    return {n.strip() for n in re.split(r",| and ", found[1])} - {""} if found else set()


def rail(row: Tag) -> list[bool]:
    """Whether the top of each pipe beside the step is hollow, from left to right."""
    pipes = row.select_one("svg.rail").find_all("svg", recursive=False)
    return ["fill-proved" in pipe.find("rect")["class"] for pipe in pipes]


def drawn(text: str) -> tuple[Page, Tag]:
    parsed = page(from_text(text, "page.md"), Shop(None))
    assert parsed.page is not None and parsed.sound, parsed.findings
    _, analysis = analyse(parsed.page, ParsedShop(Shop(None), (parsed,), ()))
    return parsed.page, BeautifulSoup(procedure.render(parsed.page, analysis), "html.parser")


@pytest.mark.parametrize("text", [PUMP, *(p.read_text("utf-8") for p in SAMPLES if "self-check" not in p.name)])
def test_a_written_page_says_what_the_search_saw(text: str) -> None:
    agrees(*drawn(text))


@settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck))
@given(jobs())
def test_a_random_page_says_what_the_search_saw(job: Job) -> None:
    agrees(*drawn(markdown(job)))
