"""A few of the kills of `make torture`, and that a loss would be noticed."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Playwright

from tests.torture.jobs import Shown, faults, torture

WHOLE = {"ids": ["a", "b"], "order": [0, 1], "at": 2, "wanted": ["p"], "photos": [["p", 9]], "open": 2}


def test_jobs_survive_browsers_that_are_killed(playwright: Playwright, tmp_path: Path) -> None:
    assert torture(playwright, tmp_path, rounds=10, seed=20261125) == []


def test_a_job_that_lost_doubled_or_moved_something_is_noticed() -> None:
    before = Shown(["a", "b"], 2)
    assert faults(WHOLE, before) == []
    assert faults(WHOLE | {"ids": ["a"], "order": [0]}, before)
    assert faults(WHOLE | {"ids": ["a", "b", "b"], "order": [0, 1, 2]}, before)
    assert faults(WHOLE | {"ids": ["b", "a"]}, before)
    assert faults(WHOLE | {"photos": []}, before)
    assert faults(WHOLE | {"at": 3, "open": 3}, before)
    assert faults(WHOLE | {"open": 1}, before)
