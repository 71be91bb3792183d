"""The preview after any edits is the site that a full build makes."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from random import Random
from types import SimpleNamespace

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig

from hooks.build import StillbenchPlugin
from tests.build import edits, shop
from tests.build.test_build import listing

ADDRESS = "http://127.0.0.1:8000/"
DATED = {"sitemap.xml"}


class Preview:
    """What `mkdocs serve` does, without the server."""

    def __init__(self, folder: Path, site: Path) -> None:
        self.folder, self.site, self.full = folder, site, 0
        config = self._config()
        self.plugin: StillbenchPlugin = config.plugins["stillbench"]
        config.plugins.on_startup(command="serve", dirty=False)
        build(config, serve_url=ADDRESS)
        server = SimpleNamespace(builder=None)
        self.save: Callable[[], object] = config.plugins.on_serve(server, config=config, builder=self._all).builder

    def _config(self) -> MkDocsConfig:
        return load_config(str(self.folder / "mkdocs.yml"), site_dir=str(self.site), site_url=ADDRESS)

    def _all(self) -> None:
        self.full += 1
        config = self._config()
        config.plugins["stillbench"] = self.plugin  # the same object answers, as it does in a running server
        for name in ("config", "pre_build", "files", "nav", "env", "page_markdown", "page_content", "post_build"):
            config.plugins.events[name] = [getattr(self.plugin, f"on_{name}")]
        build(config, serve_url=ADDRESS)


@pytest.fixture
def preview(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Preview:
    folder = edits.lay(tmp_path / "shop", how="plugins: [stillbench]")
    monkeypatch.chdir(folder)
    return Preview(folder, tmp_path / "site")


def assert_as_built(preview: Preview) -> None:
    """A full build, with nothing kept, gives the same files."""
    shutil.rmtree(preview.folder / ".cache", ignore_errors=True)
    Preview(preview.folder, preview.site.parent / "full")
    ours, full = listing(preview.site), listing(preview.site.parent / "full")
    assert ours.keys() == full.keys()
    assert [path for path in ours if ours[path] != full[path] and path not in DATED] == []


@pytest.mark.parametrize("edit", ["say more", "take a proof out"])
def test_a_procedure_is_drawn_alone(preview: Preview, edit: str) -> None:
    edits.EDITS[edit](preview.folder, Random(3))
    preview.save()
    assert preview.full == 0
    assert_as_built(preview)


def test_a_mended_finding_is_gone(preview: Preview) -> None:
    page = preview.site / "switch.html"
    for edit, there in (("take a proof out", True), ("put it back", False)):
        edits.change(*PROOF[edit], "switch.md")(preview.folder, Random())
        preview.save()
        assert ("hands-on-live" in page.read_text("utf-8")) is there
    assert preview.full == 0
    assert_as_built(preview)


PROOF = {"take a proof out": (shop.PROVED, shop.UNPROVED), "put it back": (shop.UNPROVED, shop.PROVED)}


@pytest.mark.parametrize("seed", range(6))
def test_after_any_edits_the_preview_is_what_a_full_build_makes(preview: Preview, seed: int) -> None:
    chance = Random(seed)
    for _ in range(3):
        for edit in chance.sample(sorted(edits.EDITS), 4):
            edits.EDITS[edit](preview.folder, chance)
            preview.save()
        assert_as_built(preview)
