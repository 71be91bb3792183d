"""The pages that lead to pages."""

from __future__ import annotations

import posixpath
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from hooks.model import Shop
from hooks.page import site_pages
from hooks.page.first_minute import SIGNS
from hooks.page.generated import GeneratedPage
from tests.library.shops import library
from tests.site.drawn import FILES, generated, soup


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, GeneratedPage]:
    return generated(tmp_path_factory.mktemp("shop"))


@pytest.fixture(scope="module")
def start(pages: dict[str, GeneratedPage]) -> BeautifulSoup:
    return soup(pages["index.md"])


def rows(page: BeautifulSoup) -> list[tuple[str, str]]:
    return [(a.b.get_text(), a["href"]) for a in page.select(".symptoms a")]


def test_the_start_page_leads_customers_to_self_checks_first(start: BeautifulSoup) -> None:
    assert rows(start) == [
        ("No ice", "ask.html"),
        ("No ice", "cabinet/no-ice.html"),
        ("Does not turn", "drum.html"),
    ]


def test_signs_of_danger_stand_before_every_symptom(start: BeautifulSoup) -> None:
    links = [a["href"] for a in start.select(".front a")]
    assert links[: len(SIGNS)] == [f"first-minute.html#{s.id}" for s in SIGNS]


def test_the_start_page_leads_to_each_machine(start: BeautifulSoup) -> None:
    found = [(a.b.get_text(), a["href"]) for a in start.select(".machines a")]
    assert found == [("Ice cabinet", "machines/cabinet.html"), ("Laundry machine", "machines/washer.html")]


def test_a_machine_is_drawn_by_a_word_of_its_name(start: BeautifulSoup) -> None:
    drawn = [path["d"] for path in start.select(".machines path")]
    assert len(set(drawn)) == 2


def test_a_section_lists_its_own_pages_parts_and_tools_alone(pages: dict[str, GeneratedPage]) -> None:
    section = soup(pages["machines/cabinet.md"])
    assert rows(section) == [
        ("No ice: <the> valve", "../cabinet/no-ice.html"),
        ("Your cabinet makes no ice", "../ask.html"),
    ]
    assert [th.get_text() for th in section.select("tbody th")] == ["Double valve", "Multimeter"]
    assert not soup(pages["machines/washer.md"]).select("tbody th")


def test_every_symptom_stands_on_the_list_of_all(pages: dict[str, GeneratedPage]) -> None:
    assert [text for text, _ in rows(soup(pages["symptoms.md"]))] == [
        "No ice", "Does not turn", "Little ice", "No ice",
    ]  # fmt: skip


@pytest.mark.parametrize("sign", SIGNS, ids=lambda sign: sign.id)
def test_the_first_minute_ends_with_ringing_the_shop(sign: object, pages: dict[str, GeneratedPage]) -> None:
    section = soup(pages["first-minute.md"]).find(id=sign.id)
    *lines, last = [li.get_text() for li in section.select("li")]
    assert tuple(lines) == sign.lines
    assert "Ring Test shop: 555-0100" in last


def test_no_sign_of_danger_has_anyone_touch_the_machine() -> None:
    asked = ("unplug", "pull the plug", "press", "open the machine", "look inside")
    said = " ".join(line.lower() for sign in SIGNS for line in sign.lines)
    assert not [word for word in asked if word in said]


def test_the_menu_holds_sections_and_no_single_page(tmp_path: Path) -> None:
    paths = [path for item in site_pages.nav(library(tmp_path, FILES)) for path in item.values()]
    assert paths == [
        "index.md", "customers.md", "machines/cabinet.md", "machines/washer.md",
        "calculators/index.md", "parts-and-tools.md", "jobs.md", "about.md",
    ]  # fmt: skip


@pytest.mark.parametrize(("number", "listed"), [(12, 12), (13, 0)])
def test_more_machines_than_a_menu_holds_stand_on_a_page_of_their_own(tmp_path: Path, number: int, listed: int) -> None:
    known = library(tmp_path, FILES)
    first = known.machines[0]
    many = replace(known, machines=tuple(replace(first, id=f"m{n}", title=f"Machine {n}") for n in range(number)))
    paths = [path for item in site_pages.nav(many) for path in item.values()]
    assert sum(path.startswith("machines/") for path in paths) == listed
    made = {page.path: page for page in site_pages.generated(many, Shop(None))}
    assert ("all-machines.md" in paths, "all-machines.md" in made) == (not listed, not listed)
    if not listed:
        links = [a["href"] for a in soup(made["all-machines.md"]).select("ul.machines a")]
        assert sorted(links) == sorted(f"machines/m{n}.html" for n in range(number))


def test_every_page_has_one_title_and_no_style_or_script_of_its_own(pages: dict[str, GeneratedPage]) -> None:
    for made in pages.values():
        page = soup(made)
        assert len(page.find_all("h1")) == 1, made.path
        assert not page.find_all("script")
        assert not [t for t in page.find_all() if "style" in t.attrs or any(a.startswith("on") for a in t.attrs)]


def test_every_link_leads_to_a_page_and_place_that_exist(pages: dict[str, GeneratedPage]) -> None:
    places = {name.removesuffix(".md") + ".html": {"read"} for name in FILES}
    places |= {p.address: {t["id"] for t in soup(p).find_all(id=True)} for p in pages.values()}
    for made in pages.values():
        for link in soup(made).select("a[href]"):
            target, _, place = link["href"].partition("#")
            if not target.startswith("tel:"):
                address = posixpath.normpath(posixpath.join(posixpath.dirname(made.path), target))
                assert address in places, (made.path, link["href"])
                assert not place or place in places[address], (made.path, link["href"])


def test_a_shop_without_pages_has_a_start_page_all_the_same(tmp_path: Path) -> None:
    page = soup(generated(tmp_path, {})["index.md"])
    assert page.h1.get_text() == "What is wrong?"
    assert not page.select(".symptoms, .machines")
