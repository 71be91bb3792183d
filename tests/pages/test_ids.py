"""The ids that the built page needs for itself are none that a step may have."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from hooks.check import analyse
from hooks.model import Shop
from hooks.page import procedure
from hooks.page.theme import FOLDER
from hooks.parse import page
from hooks.parse.result import ParsedShop
from hooks.parse.words import OWN_ID
from hooks.source import read

SAMPLES = sorted(Path(__file__).parents[1].glob("samples/*.md"))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_an_id_of_the_page_itself_is_none_of_a_step(path: Path) -> None:
    made = page(read(path, path.name), Shop(None)).page
    assert made is not None
    drawn = procedure.render(made, analyse(made, ParsedShop(Shop(None), (), ()))[1])
    steps = {step.id for step in made.steps}
    ids = [tag["id"] for tag in BeautifulSoup(drawn, "html.parser").find_all(id=True)]
    assert len(ids) == len(set(ids))
    assert all(OWN_ID.fullmatch(id) for id in ids if id not in steps)


@pytest.mark.parametrize("path", sorted(FOLDER.rglob("*.html")), ids=lambda path: path.name)
def test_an_id_of_the_frame_is_none_of_a_step(path: Path) -> None:
    ids = re.findall(r'\bid="([^"]*)"', path.read_text("utf-8"))
    assert all(OWN_ID.fullmatch(id) or id.startswith("_") for id in ids)
