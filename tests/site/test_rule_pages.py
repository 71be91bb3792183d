"""The page of a rule says what `stillbench explain` says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from hooks import check
from hooks.check.explained import EXPLAINED
from hooks.cli import CLEAN, main
from hooks.page import rule_pages
from hooks.page.site import Site
from tests.library.shops import parsed
from tests.site.drawn import FILES

PAGES = {page.path: page for page in rule_pages.generated()}


def letters(text: str) -> str:
    """A text without what Markdown marks and how lines are set."""
    return re.sub(r"[\s`*]+", "", re.sub(r"(?m)^(Why|Example reported|Example mended):$", r"\1", text))


@pytest.mark.parametrize("rule", EXPLAINED)
def test_the_page_of_a_rule_and_explain_show_the_same_docstring(rule: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", rule]) == CLEAN
    page = BeautifulSoup(PAGES[f"rules/{rule}.md"].html, "html.parser")
    said = "".join(part.get_text() for part in page.select(".rule"))
    assert letters(said) == letters(capsys.readouterr().out)


def test_an_example_keeps_its_lines() -> None:
    page = BeautifulSoup(PAGES["rules/reading-incomplete.md"].html, "html.parser")
    assert page.pre.get_text() == EXPLAINED["reading-incomplete"][0].part("Example reported")


def test_the_list_leads_to_the_page_of_every_rule() -> None:
    links = [a["href"] for a in BeautifulSoup(PAGES[rule_pages.INDEX].html, "html.parser").select("li a")]
    assert links == [f"{rule}.html" for rule in EXPLAINED]
    assert {f"rules/{link.removesuffix('.html')}.md" for link in links} == {*PAGES} - {rule_pages.INDEX}


@pytest.mark.parametrize("preview", [True, False])
def test_a_preview_has_them_and_a_site_has_none(preview: bool, tmp_path: Path) -> None:
    shop = parsed(tmp_path / "shop", FILES)
    made = Site(shop, check.examine(shop), "shop/", preview)
    assert ({*PAGES} <= {page.path for page in made.generated}) is preview
    assert ("rules/" in {page.path[:6] for page in made.generated}) is preview
