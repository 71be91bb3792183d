"""What docs/checking.md and the pre-commit hook tell people to run works as written."""

from __future__ import annotations

import json
import re
import shlex
from pathlib import Path

import pytest
import yaml

from hooks import cli
from hooks.report import text
from tests.build import shop
from tests.reports.findings import FINDINGS, SOURCE

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs/checking.md").read_text("utf-8")
(HOOK,) = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))
CI = next(one for one in map(yaml.safe_load, re.findall(r"```yaml\n(.*?)```", PAGE, re.S)) if "jobs" in one)
STEPS = CI["jobs"]["check"]["steps"]
RUN = [step["run"] for step in STEPS if step.get("run", "").startswith("stillbench")]


def exit_code(command: str) -> int:
    return cli.main(shlex.split(command.partition(">")[0])[1:])


@pytest.mark.parametrize("command", [HOOK["entry"], *RUN])
def test_a_command_passes_a_clean_shop_and_stops_a_broken_one(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(shop.lay(tmp_path / "shop"))
    assert exit_code(command) == cli.CLEAN
    Path("procedures/broken.md").write_text(shop.BROKEN.replace("id: switch", "id: broken"), "utf-8")
    assert exit_code(command) == cli.ERRORS


def test_the_file_that_is_uploaded_is_the_one_that_is_written() -> None:
    written = [command.partition("> ")[2] for command in RUN if ">" in command]
    assert written == [step["with"]["sarif_file"] for step in STEPS if "sarif_file" in step.get("with", {})]


def test_the_hook_looks_when_a_page_or_the_facts_of_a_shop_change_and_has_the_name_that_the_page_gives() -> None:
    assert [bool(re.search(HOOK["files"], name)) for name in ("a/b.md", "a/shop.yml", "a/b.png")] == [True, True, False]
    assert f"- id: {HOOK['id']}\n" in PAGE


def test_the_pattern_for_editors_finds_each_finding_and_nothing_else_in_a_report() -> None:
    tasks = json.loads(re.search(r"```json\n(.*?)```", PAGE, re.S)[1])
    pattern = tasks["tasks"][0]["problemMatcher"]["pattern"]
    lines = text.render(FINDINGS, {SOURCE.name: SOURCE}, 1).splitlines()
    found = [match for match in map(re.compile(pattern["regexp"]).match, lines) if match]
    said = sorted((m[pattern["file"]], int(m[pattern["line"]]), m[pattern["severity"]], m[pattern["code"]]) for m in found)
    assert said == sorted((f.file, f.span.line, f.level.value, f.rule) for f in FINDINGS)


def test_the_page_names_every_format() -> None:
    assert [form for form in ("text", *cli.REPORTS) if f"| `{form}` |" not in PAGE] == []
