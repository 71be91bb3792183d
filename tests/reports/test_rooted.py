"""Files are named from the root of the repository, wherever the command runs."""

from __future__ import annotations

from pathlib import Path

import pytest

from hooks.report.rooted import below_root, rooted
from tests.reports.test_shared import FOUND


@pytest.mark.parametrize(
    ("below", "page", "shared"),
    [(".", "shop/valve.md", "shop/safe.md"), ("docs", "docs/shop/valve.md", "docs/shop/safe.md")],
)
def test_every_file_of_a_finding_is_named_from_the_root(below: str, page: str, shared: str) -> None:
    (one,) = rooted((FOUND,), below)
    assert (one.file, one.page) == (shared, page)
    assert [(step.file, [p.file for p in step.used][:1]) for step in one.path] == [(shared, [page]), (page, [])]


def test_a_step_up_and_down_again_is_no_part_of_a_name() -> None:
    (one,) = rooted((FOUND,), "shop/../docs/..")
    assert one == FOUND


def test_the_root_is_the_nearest_folder_with_a_repository(tmp_path: Path) -> None:
    here = tmp_path / "shop/pages"
    here.mkdir(parents=True)
    assert below_root(here) == "."
    (tmp_path / ".git").touch()
    assert below_root(here) == "shop/pages"
