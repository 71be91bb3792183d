"""The generated shops: clean, varied, and the same each time."""

from __future__ import annotations

import re
from pathlib import Path
from statistics import mean

import pytest

from hooks import check, parse
from hooks.model import Kind, Page
from tests.bench import shops

PAGES = 100


@pytest.fixture(scope="module")
def parsed(tmp_path_factory: pytest.TempPathFactory) -> parse.ParsedShop:
    return parse.folder(shops.lay(tmp_path_factory.mktemp("shop"), PAGES) / "procedures")


@pytest.fixture(scope="module")
def procedures(parsed: parse.ParsedShop) -> list[Page]:
    return [p.page for p in parsed.pages if p.page and p.page.kind is Kind.PROCEDURE]


def test_nothing_is_found_on_any_page_and_every_job_is_followed_to_its_ends(parsed: parse.ParsedShop) -> None:
    report = check.examine(parsed)
    assert not report.findings
    with_steps = [p.page for p in parsed.pages if p.page and p.page.steps]
    assert set(report.analyses) == {page.id for page in with_steps}
    assert all(len(report.analyses[p.id].reached) == len(p.steps) for p in with_steps)


@pytest.mark.parametrize("seed", range(2, 6))
def test_another_seed_gives_another_shop_that_is_as_clean(tmp_path: Path, seed: int) -> None:
    assert not check.examine(parse.folder(shops.lay(tmp_path, 50, seed) / "procedures")).findings
    assert dict(shops.shop(50, seed)) != dict(shops.shop(50, 1))


def test_the_same_seed_gives_the_same_shop() -> None:
    assert list(shops.shop(PAGES, 7)) == list(shops.shop(PAGES, 7))


def test_there_are_as_many_pages_as_asked_of_every_kind_and_several_machines(parsed: parse.ParsedShop) -> None:
    assert len(parsed.pages) == PAGES
    assert {p.page.kind for p in parsed.pages if p.page} == {Kind.PROCEDURE, Kind.SELF_CHECK, Kind.TEXT}
    assert len(parsed.shop.appliances) == 3
    assert len({name for name, _ in shops.shop(2000) if name.startswith("laundry")}) > 200


def test_a_procedure_is_as_long_as_a_real_one(procedures: list[Page]) -> None:
    assert 15 <= mean(len(p.steps) for p in procedures) <= 20
    bodies = (" ".join(p.source.lines).split("---", 2)[2] for p in procedures)
    words = [len(re.sub(r"\{#.*?\}|\]\(#.*?\)", "", body).split()) for body in bodies]
    assert 700 <= mean(words) <= 900


def test_procedures_differ_in_words_models_readings_and_in_the_work(procedures: list[Page]) -> None:
    prose = [s.prose for p in procedures for s in p.steps if len(s.prose) > 60]
    assert len(set(prose)) > 0.7 * len(prose)
    assert len({m.name for p in procedures for m in p.models}) == 6
    assert {r.calculator for p in procedures for s in p.steps for r in s.readings} == {"coil", None}
    assert any(s.test for p in procedures for s in p.steps)
    assert any(s.only for p in procedures for s in p.steps)
    assert len({p.steps[0].prose for p in procedures}) > 0.9 * len(procedures)
