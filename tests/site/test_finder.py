"""What search looks through holds every page with all it is found by."""

from __future__ import annotations

import json
from pathlib import Path

from hooks.page import calculator_pages, finder
from tests.library.shops import library
from tests.site.drawn import FILES


def entries(script: str) -> list[dict]:
    body = script.removeprefix("window.stillbench.shelve(").removesuffix(");\n")
    return json.loads(body)


def pages(folder: Path) -> dict[str, dict]:
    script = finder.pages(library(folder, FILES), calculator_pages.all_calculators())
    return {e["address"]: e for e in entries(script)}


def test_a_page_is_found_by_symptoms_numbers_models_names_and_tools(tmp_path: Path) -> None:
    assert pages(tmp_path)["cabinet/no-ice.html"] == {
        "address": "cabinet/no-ice.html",
        "title": "No ice: <the> valve",
        "sort": "procedure",
        "about": "Ice cabinet, 10 min, one person",
        "symptoms": ["no ice", "little ice"],
        "codes": ["IW40", "IW60"],
        "parts": [["DV-2", "double valve"]],
        "tools": ["multimeter"],
    }


def test_machines_calculators_and_signs_are_found_too(tmp_path: Path) -> None:
    found = pages(tmp_path)
    assert found["machines/cabinet.html"]["codes"] == ["IW40", "IW60"]
    assert found["calculators/coil.html"]["sort"] == "calculator"
    assert found["first-minute.html#burning"]["sort"] == "first minute"
    assert found["how.html"]["title"] == "How we work"


def test_parts_tools_and_steps_are_found_where_they_stand(tmp_path: Path) -> None:
    found = {e["address"]: e for e in entries(finder.more(library(tmp_path, FILES)))}
    assert found["parts-and-tools.html#dv-2"]["title"] == "DV-2 double valve"
    assert found["parts-and-tools.html#multimeter"]["sort"] == "tool"
    assert found["cabinet/no-ice.html#read"] == {
        "address": "cabinet/no-ice.html#read",
        "title": "Read the coil",
        "sort": "step",
        "about": "Step on: No ice: <the> valve",
    }
