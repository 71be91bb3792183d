"""A calculator's own page is made from its declaration, all of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from calculators._lib import grid, shelf, table
from calculators._lib.declare import Sweep
from hooks.page import calculator_pages
from tests.site.drawn import generated, soup

CALCULATORS = calculator_pages.all_calculators()


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, BeautifulSoup]:
    made = generated(tmp_path_factory.mktemp("shop"))
    return {c.id: soup(made[f"calculators/{c.id}.md"]) for c in CALCULATORS}


def test_every_calculator_of_the_shelf_has_its_page(pages: dict[str, BeautifulSoup]) -> None:
    assert sorted(pages) == sorted(shelf.ids())


@pytest.mark.parametrize("calculator", CALCULATORS, ids=lambda c: c.id)
def test_every_input_has_a_field_with_a_label_and_its_hint(
    calculator: object, pages: dict[str, BeautifulSoup]
) -> None:
    page = pages[calculator.id]
    for wanted in calculator.inputs:
        field = page.select_one(f'form [name="{wanted.name}"]')
        assert page.find("label", attrs={"for": field["id"]}).get_text().startswith(wanted.label)
        assert wanted.hint in page.select_one(f'[data-field="{wanted.name}"]').get_text()


@pytest.mark.parametrize("calculator", CALCULATORS, ids=lambda c: c.id)
def test_what_stands_behind_it_is_on_the_page(calculator: object, pages: dict[str, BeautifulSoup]) -> None:
    text = pages[calculator.id].get_text()
    sources = [word for s in calculator.sources for word in (s.text, s.seen)]
    for said in (*calculator.formula, *calculator.validity, *calculator.cautions, *sources):
        assert said in text
    assert calculator.example.sentence in text


@pytest.mark.parametrize("calculator", CALCULATORS, ids=lambda c: c.id)
def test_without_a_script_the_table_says_what_the_calculator_says(
    calculator: object, pages: dict[str, BeautifulSoup]
) -> None:
    example = calculator.example
    limits = {"low": example.low, "high": example.high, "unit": example.unit}
    drawn = [[td.get_text() for td in tr.find_all("td")] for tr in pages[calculator.id].select("tbody tr")]
    if isinstance(calculator.table, Sweep):
        given = {name: text for name, text in example.fields.items() if name not in calculator.typed}
        rows = table.table(calculator.id, given, limits).rows
        assert drawn == [[r.words, r.verdict.capitalize(), r.sentence] for r in rows]
    else:
        assert drawn == [list(row) for _, row in grid.cells(calculator, example.fields).rows]


def test_it_leads_to_the_steps_whose_readings_it_judges(pages: dict[str, BeautifulSoup]) -> None:
    links = [a["href"] for a in pages["coil"].select(".points a")]
    assert links == ["../cabinet/no-ice.html#read"]


def test_a_calculator_that_no_page_uses_says_nothing_of_use(tmp_path: Path) -> None:
    page = soup(generated(tmp_path, {})["calculators/coil.md"])
    assert "Where it is used" not in page.get_text()
