"""DEVELOPERS.md walks through adding a calculator: here the walk is done, in a copy, as it is written."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

ROOT = Path(__file__).parents[1]
WALK = (ROOT / "DEVELOPERS.md").read_text("utf-8").partition("## A new calculator\n")[2].partition("\n## ")[0]
FILE = re.compile(r"Into \*\*([\w/]+\.(?:py|json))\*\*:\n\n```\w+\n(.*?)```", re.DOTALL)
LINE = re.compile(r"in `([\w/]+\.py)`\..*?\n```python\n(from calculators import \w+\n)```", re.DOTALL)
COMMAND = re.compile(r"^\.venv/bin/python -m pytest (.*)$", re.MULTILINE)
COPIED = ("calculators", "hooks", "tests", "docs", "pyproject.toml")
LEFT_OUT = shutil.ignore_patterns("__pycache__", "*.csv", "browser", "real")
DRAW = """
import sys
from pathlib import Path
from tests.site.drawn import generated
made = generated(Path(sys.argv[1]))
print(made["calculators/head.md"].html)
"""


def run(where: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-B", *arguments]
    return subprocess.run(command, cwd=where, capture_output=True, text=True, env={"PYTHONPATH": str(where)})


@pytest.fixture(scope="module")
def walked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy in which the walk was done: its files written, its line put among the others."""
    copy = tmp_path_factory.mktemp("walk")
    for name in COPIED:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, copy / name, ignore=LEFT_OUT)
        else:
            shutil.copyfile(source, copy / name)
    files = FILE.findall(WALK)
    assert [name for name, _ in files] == ["calculators/head.py", "tests/calculators/head.json"]
    for name, content in files:
        assert not (copy / name).exists()
        (copy / name).write_text(content, "utf-8")
    [(shelf, line)] = LINE.findall(WALK)
    text = (copy / shelf).read_text("utf-8")
    first = text.index("from calculators import ")
    (copy / shelf).write_text(text[:first] + line + text[first:], "utf-8")
    return copy


def test_the_tests_that_the_walk_names_pass_for_the_new_one(walked: Path) -> None:
    [folders] = COMMAND.findall(WALK)
    named = [path for folder in folders.split() for path in (walked / folder).rglob("test_*.py")]
    assert named
    done = run(walked, "-m", "pytest", "-v", "-p", "no:cacheprovider", "-k", "head or every_calculator_has", *folders.split())
    assert done.returncode == 0, done.stdout[-3000:] + done.stderr[-1000:]
    for case in ("ten metres are not quite a bar", "below its outlet", "worked_example_comes_out_as_written[head]"):
        assert case in done.stdout


def test_its_page_is_drawn_with_its_form_its_table_and_its_picture(walked: Path, tmp_path: Path) -> None:
    done = run(walked, "-c", DRAW, str(tmp_path))
    assert done.returncode == 0, done.stderr[-3000:]
    page = BeautifulSoup(done.stdout, "html.parser")
    assert page.find("h1").get_text() == "Header tank"
    assert [field["name"] for field in page.select("form input[name]")] == ["height", "error"]
    assert "0.588 ± 0.006 bar is at least 0.5." in page.get_text()
    assert page.select_one(".picture svg")
    assert len(page.select("tbody tr")) == 3


def test_without_its_cases_the_new_one_is_not_let_pass(walked: Path, tmp_path: Path) -> None:
    for name in ("calculators", "hooks", "tests"):
        shutil.copytree(walked / name, tmp_path / name)
    (tmp_path / "tests/calculators/head.json").unlink()
    done = run(tmp_path, "-m", "pytest", "-q", "-p", "no:cacheprovider", "tests/calculators/test_cases.py")
    assert done.returncode == 1
    assert "test_every_calculator_has_its_cases" in done.stdout
