"""The documents say all that the program knows, and name only what is there."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path
from textwrap import dedent

import pytest

from hooks.check.rules import calculator_unfit
from hooks.model import Shop
from hooks.page.theme import JOB_SCHEMA
from hooks.parse import ParsedShop, page
from hooks.parse.fields import APPLIANCE, CONDITION, ENERGY, PAGE, READING, SHOP
from hooks.parse.words import ENDS, OUTCOMES, SIGNAL_WORDS, STEP_LINE
from hooks.source import from_text
from tests.pictures import FOLDER, OF_THE_PREVIEW, OF_THE_SITE

ROOT = Path(__file__).parents[1]
FORMAT = (ROOT / "docs/format.md").read_text("utf-8")
KEYS = sorted(
    {field.name for field in PAGE}
    | {field.name for shape in (APPLIANCE, CONDITION, ENERGY, READING, SHOP) for field in shape.fields}
)
WORDS = sorted(
    {word.name for word in STEP_LINE}
    | {end for ends in ENDS.values() for end in ends}
    | set(OUTCOMES)
    | set(SIGNAL_WORDS)
)


@pytest.mark.parametrize("word", WORDS)
def test_the_format_page_explains_every_word_of_the_body(word: str) -> None:
    assert re.search(rf"[`\"]{re.escape(word)}[`\"= ]", FORMAT)


@pytest.mark.parametrize("key", KEYS)
def test_the_format_page_explains_every_key(key: str) -> None:
    assert re.search(rf"(^|[`{{ ,]){re.escape(key)}[`:]", FORMAT, re.MULTILINE)


def test_the_reading_of_the_format_page_is_one_that_its_calculator_takes() -> None:
    block = dedent(re.search(r"^ *```reading\n.*?```$", FORMAT, re.MULTILINE | re.DOTALL)[0])
    text = f"---\ntitle: A page\npage: self-check\nappliance: Lamp\nrevision: 1\nreviewed: 2026-11-02\n---\n### Read it {{#a check reads=\"coil\"}}\n{block}\n"
    read = page(from_text(text, "page.md"), Shop(None))
    assert read.page and read.page.steps[0].readings[0].given
    assert (read.findings, list(calculator_unfit.on_page(read.page, ParsedShop(Shop(None), (), ())))) == ((), [])


@pytest.mark.parametrize(
    "document",
    ["README.md", "DEVELOPERS.md", *(f"docs/{name}.md" for name in ("format", "publishing", "calculators-elsewhere", "job-sheet", "editors", "checking"))],
)
def test_a_document_names_only_files_that_are_there(document: str) -> None:
    text = (ROOT / document).read_text("utf-8")
    shown = re.sub(r"^```.*?^```$|`[^`\n]*`", "", text, flags=re.MULTILINE | re.DOTALL)
    links = [link for link in re.findall(r"\]\(([^)#]+)\)", shown) if "://" not in link]
    named = re.findall(r"`((?:hooks|tests|calculators|docs)/[\w/.]*)`", text)
    places = [(ROOT / document).parent / link for link in links] + [ROOT / name for name in named]
    assert [str(place) for place in places if not place.exists()] == []


def test_the_page_about_jobs_explains_every_key_and_kind_of_a_file_and_every_column_of_the_table() -> None:
    told = set(re.findall(r"`([\w-]+)`", (ROOT / "docs/job-sheet.md").read_text("utf-8")))
    schema = json.loads(JOB_SCHEMA.read_text("utf-8"))
    parts = [schema, *schema["$defs"].values()]
    keys = {key for part in parts for key in part.get("properties", {})}
    kinds = schema["$defs"]["event"]["properties"]["kind"]["enum"]
    table = (ROOT / "hooks/device/job/table.js").read_text("utf-8")
    columns = re.findall(r'"(\w+)"', table[table.index("const FACTS") : table.index("const cell")])
    assert {"reading", "meter", "serial"} <= set(columns)
    assert sorted({*keys, *kinds, *columns} - told) == []


def test_every_picture_in_the_documents_can_be_taken_anew() -> None:
    assert {picture.name for picture in (*OF_THE_SITE, OF_THE_PREVIEW)} == {file.stem for file in FOLDER.iterdir()}


def test_the_readme_names_the_two_commands_and_the_makefile_has_them() -> None:
    made = (ROOT / "Makefile").read_text("utf-8")
    readme = (ROOT / "README.md").read_text("utf-8")
    for command in ("site", "test"):
        assert f"\nmake {command} " in readme
        assert re.search(rf"^{command}:", made, re.MULTILINE)


def test_the_repository_names_no_machine_and_no_registry() -> None:
    pattern = r"(/home/|/root/|/work/|extra-index-url|\"resolved\": \"http)"
    command = ["git", "grep", "-nIE", pattern, "--", ".", ":!tests/test_docs.py"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    assert (done.returncode, done.stdout) == (1, "")
