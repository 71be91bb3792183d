"""A build upon the site that was built before is the build from nothing."""

from __future__ import annotations

import gc
import shutil
from pathlib import Path
from random import Random

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from hooks.build import StillbenchPlugin
from tests.build import edits
from tests.build.test_build import listing

DATED = {"sitemap.xml"}


def built(folder: Path) -> StillbenchPlugin:
    """The plugin after its build of the shop into `site` beside its settings."""
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"), site_url="https://example.test/")
    plugin: StillbenchPlugin = config.plugins["stillbench"]
    plugin.kept = None  # MkDocs hands out the same plugin again within a process
    config.plugins.on_startup(command="build", dirty=False)
    try:
        build(config)
    finally:
        gc.enable()
    return plugin


def assert_as_from_nothing(folder: Path) -> None:
    fresh = folder.with_name("fresh")
    shutil.copytree(folder, fresh, ignore=shutil.ignore_patterns(".cache", "site"))
    built(fresh)
    ours, theirs = listing(folder / "site"), listing(fresh / "site")
    shutil.rmtree(fresh)
    assert ours.keys() == theirs.keys()
    assert [path for path in ours if ours[path] != theirs[path] and path not in DATED] == []


@pytest.fixture
def laid(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = edits.lay(tmp_path / "shop", how="plugins: [stillbench]")
    monkeypatch.chdir(folder)
    built(folder)
    return folder


def taken(folder: Path) -> set[str]:
    last = built(folder).last
    assert last
    return set(last.taken)


def test_pages_that_are_the_same_stand_and_the_site_is_as_from_nothing(laid: Path) -> None:
    assert taken(laid) == {"switch.html", "lamp.html", "cord.html"}
    edits.change("One wire at a time.", "Slowly.", "cord.md")(laid, Random())
    assert taken(laid) == {"switch.html", "lamp.html"}
    assert_as_from_nothing(laid)


@pytest.mark.parametrize("what", [b"", b"another"])
def test_a_page_that_is_not_as_it_was_built_is_drawn_again(laid: Path, what: bytes) -> None:
    (laid / "site/lamp.html").write_bytes(what)
    assert taken(laid) == {"switch.html", "cord.html"}
    assert_as_from_nothing(laid)


def test_what_every_page_shows_makes_all_of_them_new(laid: Path) -> None:
    settings = laid / "mkdocs.yml"
    settings.write_text(settings.read_text("utf-8").replace("Test shop", "Another shop"), "utf-8")
    assert taken(laid) == set()
    assert "Another shop" in (laid / "site/lamp.html").read_text("utf-8")


def test_beside_another_plugin_nothing_is_taken(laid: Path) -> None:
    settings = laid / "mkdocs.yml"
    settings.write_text(settings.read_text("utf-8").replace("[stillbench]", "[stillbench, search]"), "utf-8")
    assert built(laid).last is None


@pytest.mark.parametrize("seed", range(3))
def test_after_any_edits_a_build_is_the_build_from_nothing(laid: Path, seed: int) -> None:
    chance, pages, before = Random(seed), laid / "procedures", laid.with_name("before")
    for edit in chance.sample(sorted(edits.EDITS), 8):
        shutil.copytree(pages, before)
        edits.EDITS[edit](laid, chance)
        try:
            built(laid)
        except Abort:  # what is wrong is not built, and is mended
            shutil.rmtree(pages)
            before.rename(pages)
        else:
            shutil.rmtree(before)
    assert_as_from_nothing(laid)
