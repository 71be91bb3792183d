"""What search looks through holds every page with all it is found by."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from hooks.page import calculator_pages, finder, text_index
from tests.library.shops import library
from tests.site.drawn import FILES, generated
from tests.site.shelved import entries, given, rows


def pages(folder: Path) -> dict[str, dict]:
    script = finder.pages(library(folder, FILES), calculator_pages.all_calculators())
    return {e["address"]: e for e in entries(script)}


def test_a_page_is_found_by_symptoms_and_by_the_numbers_and_names_of_its_machine_and_parts(tmp_path: Path) -> None:
    assert pages(tmp_path)["cabinet/no-ice.html"] == {
        "address": "cabinet/no-ice.html",
        "title": "No ice: <the> valve",
        "sort": ["procedure"],
        "appliance": ["Ice cabinet"],
        "stage": ["find the fault"],
        "symptoms": ["no ice", "little ice"],
        "from": ["machines/cabinet.html", "parts-and-tools.html#dv-2"],
    }


def test_machines_calculators_signs_parts_and_tools_are_found_too(tmp_path: Path) -> None:
    found = pages(tmp_path)
    assert found["machines/cabinet.html"]["codes"] == ["IW40", "IW60"]
    assert found["calculators/coil.html"]["sort"] == ["calculator"]
    assert found["first-minute.html#burning"]["sort"] == ["first minute"]
    assert found["how.html"]["title"] == "How we work"
    assert found["parts-and-tools.html#dv-2"] == {
        "address": "parts-and-tools.html#dv-2", "title": "double valve", "sort": ["part"], "codes": ["DV-2"],
    }  # fmt: skip
    assert found["parts-and-tools.html#multimeter"]["sort"] == ["tool"]


def test_steps_are_found_where_they_stand(tmp_path: Path) -> None:
    books = library(tmp_path, FILES)
    steps = {(title, *rest): places for title, places, rest in rows(given(finder.steps(books)))}
    on = [books.entries[at].address for at in steps["Read the coil", "read", "find the fault"]]
    assert on == ["cabinet/no-ice.html"]


def test_white_space_in_a_title_does_not_break_the_table(tmp_path: Path) -> None:
    books = library(tmp_path, FILES)
    broken = tuple(replace(e, title=f"{e.title}\n\n  or\tso") for e in books.entries)
    titles = [one["title"] for one in entries(finder.pages(replace(books, entries=broken)))]
    assert "No ice: <the> valve or so" in titles


def test_a_title_that_ends_with_its_machine_is_kept_without_it(tmp_path: Path) -> None:
    books = library(tmp_path, FILES)
    titles = ("Leaks: Ice cabinet", "Leaks: Ice cabinets", "Ice cabinet")
    named = tuple(replace(e, title=title) for e, title in zip(books.entries, titles))
    kept = given(finder.pages(replace(books, entries=named)))["title"].split("\n")
    assert kept[: len(titles)] == ["Leaks: ", *titles[1:]]


def test_lists_of_pages_are_found_by_their_titles_and_no_address_stands_twice(tmp_path: Path) -> None:
    made = tuple(generated(tmp_path).values())
    found = entries(finder.pages(library(tmp_path, FILES), calculator_pages.all_calculators(), made))
    addresses = [one["address"] for one in found]
    assert {p.address for p in made} <= set(addresses)
    assert len(addresses) == len(set(addresses))


def test_only_a_published_site_names_the_index_of_texts(tmp_path: Path) -> None:
    books = library(tmp_path, FILES)
    assert finder.pages(books, text_index=text_index.SCRIPT).endswith(f',"{text_index.SCRIPT}");\n')
    assert text_index.SCRIPT not in finder.pages(books)
