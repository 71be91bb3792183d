"""The list of pages to look at again, as a page for the shop's own people."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag

from hooks import check, device, parse
from hooks.library.past import Past
from hooks.page import theme
from hooks.page.site import Site
from tests.build import shop
from tests.library.test_review import SHARED, commit, kept, rewrite  # noqa: F401

ADDRESS = "review.html"


def site(folder: Path, *, preview: bool = False) -> Site:
    procedures = folder / "procedures"
    parsed = parse.folder(procedures)
    return Site(parsed, check.examine(parsed), "procedures/", preview, past=Past(procedures))


def html(made: Site, path: str = "review.md") -> str:
    return next(page.html for page in made.generated if page.path == path)


def rows(made: Site) -> dict[str, list[str]]:
    """The text of each row, by the heading that it stands under."""
    soup = BeautifulSoup(html(made), "html.parser")
    return {h.get_text(): [said(li) for li in h.find_next("ul", class_="rows").find_all("li", recursive=False)] for h in soup.find_all("h2")}


def said(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").split())


def test_each_page_stands_under_what_is_known_of_it_since_its_review(kept: Path) -> None:  # noqa: F811
    rewrite(kept / "procedures/cord.md", "in sight", "in hand")
    never = shop.PAGE.replace("id: switch", "id: never").replace("2026-11-02", "2000-01-01")
    (kept / "procedures/never.md").write_text(never, "utf-8")
    assert rows(site(kept)) == {
        "Never looked at": ["never Change the switch Kettle, procedures/never.md"],
        "Changed since their review": ["2026-11-02 Change the switch Kettle, procedures/switch.md Changed: the shared steps cord."],
        "What changed since is not known": ["2026-10-01 Change the switch Kettle, procedures/lamp.md"],
    }


def test_what_the_check_finds_is_told_and_whether_the_reviewed_page_had_it(kept: Path) -> None:  # noqa: F811
    rewrite(kept / "procedures/switch.md", "time: 10 min\n", "time: 10 min\ntools: [voltage tester, spoon]\n")
    rewrite(kept / "procedures/switch.md", "tools: [voltage tester]\n", "")
    commit(kept, "2026-11-02")
    (only,) = rows(site(kept))["Nothing changed since"]
    assert "spoon" in only and "New since" not in only
    rewrite(kept / "procedures/switch.md", "spoon]", "spoon, fork]")
    (only,) = rows(site(kept))["Changed since their review"]
    assert only.count("New since:") == 1 and "New since: No step uses the tool fork" in only


def test_the_same_shop_gives_the_same_list_whatever_the_day(kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # noqa: F811
    first = html(site(kept))
    monkeypatch.setenv("TZ", "Pacific/Kiritimati")
    assert html(site(kept)) == first
    assert "days ago" not in first


def test_without_git_it_says_that_nothing_is_known(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path))
    monkeypatch.chdir(shop.lay(tmp_path / "loose"))
    made = site(Path())
    assert list(rows(made)) == ["What changed since is not known"]
    assert "git" in html(made)


def test_only_the_page_of_the_jobs_leads_to_it_and_no_search_finds_it(kept: Path) -> None:  # noqa: F811
    made = site(kept)
    drawn = {path: made.html(path, "") for path in (*made.by_path, *(page.path for page in made.generated))}
    assert [path for path, text in drawn.items() if ADDRESS in text] == ["jobs.md"]
    assert ADDRESS not in str(made.nav)
    scripts = made.files(device.SCRIPTS, device.JOBS_SCRIPTS, theme.JOB_SCHEMA)
    assert not [path for path, content in scripts.items() if ADDRESS.encode() in content]
    assert made.meta("review.md")["noindex"] is True


def test_a_preview_has_neither_the_list_nor_the_link(kept: Path) -> None:  # noqa: F811
    made = site(kept, preview=True)
    assert not [page for page in made.generated if page.path == "review.md"]
    assert ADDRESS not in html(made, "jobs.md")
