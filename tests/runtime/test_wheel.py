"""The wheel of the calculators: the same bytes from the same files, and pip takes it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

from calculators import VERSION
from calculators._lib import shelf
from hooks.runtime import OFFERED, offer

ROOT = Path(__file__).parents[2]
CALCULATORS = ROOT / "calculators"
ASK = "import calculators, sys; from calculators._lib import entry, shelf; print(calculators.__file__, *shelf.ids())"


def test_the_same_calculators_give_the_same_bytes_at_another_time(tmp_path: Path) -> None:
    copied = tmp_path / "copy/calculators"
    for path in CALCULATORS.rglob("*.py"):
        target = copied / path.relative_to(CALCULATORS)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(path.read_bytes())
        os.utime(target, (1e9, 1e9))
    assert offer(tmp_path / "one", CALCULATORS).read_bytes() == offer(tmp_path / "other", copied).read_bytes()


def test_it_holds_every_file_of_the_calculators_and_nothing_else(tmp_path: Path) -> None:
    with zipfile.ZipFile(offer(tmp_path, CALCULATORS)) as wheel:
        own = {name for name in wheel.namelist() if ".dist-info/" not in name}
        assert own == {p.relative_to(ROOT).as_posix() for p in CALCULATORS.rglob("*.py")}
        assert all((ROOT / name).read_bytes() == wheel.read(name) for name in own)


def test_the_configuration_beside_it_names_it(tmp_path: Path) -> None:
    wheel = offer(tmp_path, CALCULATORS)
    asked = json.loads((tmp_path / OFFERED / "pyscript.json").read_text("utf-8"))
    assert asked["files"] == {f"./{wheel.name}": "./*"}


def test_its_version_is_that_of_the_project_and_of_the_document(tmp_path: Path) -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert project["version"] == VERSION
    document = (ROOT / "docs/calculators-elsewhere.md").read_text("utf-8")
    assert document.count(offer(tmp_path, CALCULATORS).name) == 2


def test_pip_installs_it_into_an_empty_environment_without_a_network(tmp_path: Path) -> None:
    wheel = offer(tmp_path, CALCULATORS)
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", tmp_path / "venv"], check=True)
    python = next((tmp_path / "venv").glob("[bS]*/python*"))
    pip = [sys.executable, "-m", "pip", "--python", python, "--disable-pip-version-check", "--isolated"]
    subprocess.run([*pip, "install", "-q", "--no-index", "--no-deps", wheel], check=True)
    subprocess.run([*pip, "check"], check=True, capture_output=True)
    told = subprocess.run([python, "-c", ASK], cwd=tmp_path, check=True, capture_output=True, text=True).stdout.split()
    assert told[0].startswith(str(tmp_path / "venv"))
    assert told[1:] == list(shelf.ids())
