"""Texts with slips of the pen, five hundred of them, and that a broken promise is noticed."""

from __future__ import annotations

from pathlib import Path

import pytest

from hooks import build
from hooks.check.explained import EXPLAINED
from hooks.page.site import Site
from hooks.source import Source
from tests.build import shop
from tests.torture.pages import WHOLE, Bench, Tally, fuzz, placed
from tests.torture.shops import Fuzzed

GOOD = Fuzzed("good", {"shop.yml": shop.FACTS, "switch.md": shop.PAGE}, "switch.md")


def test_a_slip_gives_findings_with_a_place_or_a_page_that_is_drawn() -> None:
    tally, told = fuzz(500, 20261125)
    assert told == []
    assert tally.broken(500) == []
    assert len(tally.rules) > 0.8 * len(EXPLAINED)


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    made = Bench(tmp_path)
    made.look(GOOD)
    assert (made.tally.looked, made.tally.reached, made.tally.clean) == (1, 1, 1)
    return made


def test_a_page_that_is_built_though_the_check_rejects_it_is_noticed(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(build, "has_errors", lambda found: False)
    with pytest.raises(AssertionError):
        bench.look(GOOD.saying(shop.BROKEN))


def test_a_clean_page_that_is_refused_is_noticed(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(build, "has_errors", lambda found: True)
    with pytest.raises(AssertionError):
        bench.look(GOOD)


def test_a_drawing_that_lacks_a_step_is_noticed(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Site, "html", lambda self, path, drawn: "<article></article>")
    with pytest.raises(AssertionError):
        bench.look(GOOD)


def test_a_finding_without_a_line_is_noticed(bench: Bench) -> None:
    bench.look(GOOD.saying(shop.BROKEN))
    found = bench.plugins["good"].site.report.findings
    assert found
    with pytest.raises(AssertionError):
        placed(found, {"procedures/switch.md": Source("procedures/switch.md", ("One line.",))})


def test_a_run_that_reaches_nothing_breaks_its_promises() -> None:
    broken = Tally(looked=WHOLE).broken(WHOLE)
    assert all(any(rule in told for told in broken) for rule in EXPLAINED)
    assert any("reached the analysis" in told for told in broken) and any("clean" in told for told in broken)
