"""A large page is followed to its end, and one that is too large says so."""

from __future__ import annotations

import pytest

from hooks.check import STATE_LIMIT, alike, analyse
from hooks.check.energy import machine
from hooks.check.paths import search

from .large import MODELS, parsed


@pytest.mark.parametrize(("wild", "least"), [(False, 200), (True, 10_000)])
def test_two_hundred_steps_stay_under_the_state_limit(wild: bool, least: int) -> None:
    page, _ = parsed(wild)
    walks = [search(page, machine(page, models)) for models in alike(page)]
    assert len(page.steps) == 200 and len(walks) == len(MODELS)
    assert all(walk.complete for walk in walks)
    assert least < max(len(walk.came) for walk in walks) < STATE_LIMIT


def test_a_page_past_the_limit_is_an_error_and_has_no_analysis() -> None:
    page, shop = parsed(wild=True)
    found, analysis = analyse(page, shop, limit=500)
    assert analysis is None
    assert [f.level.value for f in found if f.rule == "too-many-states"] == ["error"]
