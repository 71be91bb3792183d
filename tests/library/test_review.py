"""`stillbench review`: which pages are to be looked at again, and what they rely on that is another since."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

from hooks.cli import CLEAN, COULD_NOT_RUN, main
from tests.build import shop

Captured = pytest.CaptureFixture[str]
SHARED = """---
title: Cord
page: shared-steps
id: cord
---
### Unplug it {#unplug isolate="electricity"}

Keep the plug in sight.

### Prove it {#prove verify="electricity" needs="voltage tester"}

!!! warning electricity "Shock"
    Live parts kill. Touch nothing but the tester.

Try the tester, test, try the tester.

- **Proved**: [Go on](#go-on)
- **Not proved**: [It is live](#live)

### Go on {#go-on end="goes on"}

### It is live {#live end="stopped"}

Tell the office.
"""
START, END = shop.PAGE.index("### Unplug it"), shop.PAGE.index("### Swap the switch")
USING = f'{shop.PAGE[:START]}### Make it safe {{#safe uses="cord"}}\n\n- Go on: [Swap the switch](#swap)\n\n{shop.PAGE[END:]}'.partition("### Stop")[0]
OTHER = shop.PAGE.replace("id: switch", "id: lamp").replace("reviewed: 2026-11-02", "reviewed: 2026-10-01")


def commit(folder: Path, day: str) -> None:
    """All that stands in the folder, as of noon that day."""
    date = f"{day}T12:00:00"
    told = {**os.environ, "GIT_AUTHOR_DATE": date, "GIT_COMMITTER_DATE": date}
    who = ("-c", "user.name=A", "-c", "user.email=a@b.example", "-c", "commit.gpgsign=false")
    for command in (("init", "-q"), ("add", "-A"), (*who, "commit", "-q", "-m", day)):
        subprocess.run(["git", *command], cwd=folder, env=told, check=True, capture_output=True)


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop whose page uses shared steps, all of it reviewed and committed on one day."""
    folder = shop.lay(tmp_path / "shop", USING)
    (folder / "procedures/cord.md").write_text(SHARED, "utf-8")
    (folder / "procedures/lamp.md").write_text(OTHER, "utf-8")
    monkeypatch.chdir(folder)
    commit(folder, "2026-11-02")
    return folder


def rewrite(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


def review(capsys: Captured, *arguments: str) -> list[str]:
    capsys.readouterr()
    assert main(["review", *arguments]) == CLEAN
    return capsys.readouterr().out.splitlines()


def test_the_longest_unreviewed_stands_first_and_an_unknown_past_is_not_taken_for_unchanged(kept: Path, capsys: Captured) -> None:
    assert review(capsys) == [
        "2026-10-01  procedures/lamp.md: what changed since is not known",
        "2026-11-02  procedures/switch.md: nothing it relies on has changed since",
    ]


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        ("cord.md", "Keep the plug in sight.", "Keep the plug in sight and in hand.", "changed since: the shared steps cord"),
        ("shop.yml", "points: [plug]", "points: [plug, breaker]", "changed since: the shop facts of kettle"),
        ("switch.md", "Boil once.", "Boil twice.", "changed since: its own text"),
        ("shop.yml", "555-0100", "555-0101", "nothing it relies on has changed since"),
        ("lamp.md", "Boil once.", "Boil twice.", "nothing it relies on has changed since"),
    ],
)
def test_a_change_is_told_on_the_pages_that_rely_on_it_and_on_no_other(
    kept: Path, capsys: Captured, file: str, old: str, new: str, said: str
) -> None:
    rewrite(kept / "procedures" / file, old, new)
    assert review(capsys)[1] == f"2026-11-02  procedures/switch.md: {said}"
    commit(kept, "2026-11-20")
    assert review(capsys)[1] == f"2026-11-02  procedures/switch.md: {said}"


def test_a_page_reviewed_again_relies_on_nothing_that_changed(kept: Path, capsys: Captured) -> None:
    rewrite(kept / "procedures/cord.md", "in sight", "in hand, in sight")
    rewrite(kept / "procedures/switch.md", "reviewed: 2026-11-02", "reviewed: 2026-11-20")
    commit(kept, "2026-11-20")
    assert review(capsys)[1] == "2026-11-20  procedures/switch.md: nothing it relies on has changed since"


def test_a_shop_without_facts_is_known_by_its_folder_too(kept: Path, capsys: Captured) -> None:
    (kept / "procedures/shop.yml").unlink()
    commit(kept, "2026-11-02")
    assert review(capsys, "procedures")[1] == "2026-11-02  procedures/switch.md: nothing it relies on has changed since"


def test_only_findings_that_a_revision_had_not_are_new(kept: Path, capsys: Captured) -> None:
    rewrite(kept / "procedures/lamp.md", shop.PROVED, shop.UNPROVED)
    rewrite(kept / "procedures/lamp.md", "- **Proved**", "- It looks dead")
    rewrite(kept / "procedures/lamp.md", "- **Not proved**", "- It does not")
    assert any("hands-on-live" in line for line in review(capsys, "--since", "HEAD"))
    commit(kept, "2026-11-20")
    said = review(capsys, "--since", "HEAD")
    assert "New since HEAD:" in said and not any("hands-on-live" in line for line in said)
    assert any("hands-on-live" in line for line in review(capsys, "--since", "HEAD~1"))


def test_without_git_or_without_the_revision_it_says_so(kept: Path, tmp_path: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch) -> None:
    assert main(["review", "--since", "nowhere"]) == COULD_NOT_RUN
    assert "there is no revision nowhere" in capsys.readouterr().err
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path))
    monkeypatch.chdir(shop.lay(tmp_path / "loose"))
    assert review(capsys) == ["2026-11-02  procedures/switch.md: what changed since is not known"]


def test_a_page_that_nobody_has_reviewed_yet_says_so(kept: Path, capsys: Captured) -> None:
    rewrite(kept / "procedures/lamp.md", "2026-10-01", "2000-01-01")
    assert review(capsys)[0] == "2000-01-01  procedures/lamp.md: never reviewed yet"
