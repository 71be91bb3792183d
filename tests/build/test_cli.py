"""`stillbench check`: what it prints and how it exits."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from calculators._lib import shelf
from hooks.check.explained import EXPLAINED
from hooks.cli import CLEAN, COULD_NOT_RUN, ERRORS, main
from tests.build import shop

Captured = pytest.CaptureFixture[str]


@pytest.fixture
def clean(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = shop.lay(tmp_path / "shop")
    monkeypatch.chdir(folder)
    return folder


@pytest.fixture
def broken(clean: Path) -> Path:
    (clean / "procedures/broken.md").write_text(shop.BROKEN.replace("id: switch", "id: broken"), "utf-8")
    return clean


def test_a_clean_shop_exits_0(clean: Path, capsys: Captured) -> None:
    assert main(["check"]) == CLEAN
    assert capsys.readouterr().out.startswith("1 page checked, nothing found.")


def test_an_error_exits_1_with_place_line_caret_path_and_mend(broken: Path, capsys: Captured) -> None:
    assert main(["check", "procedures"]) == ERRORS
    said = capsys.readouterr().out
    assert "procedures/broken.md:33:28: error hands-on-live:" in said
    assert "  33 | ### Swap the switch {#swap work}\n     |                            ^^^^" in said
    assert "-> It looks dead" in said
    assert "  Fix: " in said


def test_one_page_can_be_asked_for_alone(broken: Path, capsys: Captured) -> None:
    assert main(["check", "procedures/switch.md"]) == CLEAN
    assert "1 page checked" in capsys.readouterr().out
    assert main(["check", "procedures/broken.md"]) == ERRORS


def test_a_part_of_a_shop_is_checked_with_the_facts_above_it(broken: Path, capsys: Captured) -> None:
    part = broken / "procedures/kettles"
    part.mkdir()
    (broken / "procedures/switch.md").rename(part / "switch.md")
    assert main(["check", "procedures/kettles"]) == CLEAN
    assert "1 page checked, nothing found" in capsys.readouterr().out
    assert main(["check", "procedures/kettles", "procedures"]) == ERRORS
    assert "2 pages checked" in capsys.readouterr().out


def test_an_error_in_the_shop_facts_counts_for_each_page_of_the_shop(clean: Path) -> None:
    facts = clean / "procedures/shop.yml"
    facts.write_text(facts.read_text("utf-8").replace("title: Kettle", "tittle: Kettle"), "utf-8")
    assert main(["check", "procedures/switch.md"]) == ERRORS


def test_json_names_the_schema_and_counts_the_pages(broken: Path, capsys: Captured) -> None:
    assert main(["check", "--format", "json"]) == ERRORS
    said = json.loads(capsys.readouterr().out)
    assert (said["schema"], said["pages"]) == (1, 2)
    live = next(f for f in said["findings"] if f["rule"] == "hands-on-live")
    assert (live["file"], live["line"], live["energy"]) == ("procedures/broken.md", 33, "electricity")
    assert [p["line"] for p in live["path"]] == [22, 26, 33]


@pytest.mark.parametrize("path", ["nowhere", "empty"])
def test_what_cannot_be_checked_exits_2_and_says_why(clean: Path, path: str, capsys: Captured) -> None:
    (clean / "empty").mkdir()
    assert main(["check", path]) == COULD_NOT_RUN
    assert path in capsys.readouterr().err


def test_a_settings_file_that_cannot_be_read_exits_2(clean: Path, capsys: Captured) -> None:
    (clean / "mkdocs.yml").write_text("docs_dir: [", "utf-8")
    assert main(["check"]) == COULD_NOT_RUN
    assert "mkdocs.yml cannot be read" in capsys.readouterr().err


def test_the_module_is_the_command(broken: Path) -> None:
    done = shop.run(shop.ROOT, "hooks", "check", str(broken / "procedures"))
    assert done.returncode == ERRORS
    assert "hands-on-live" in done.stdout


@pytest.mark.parametrize("rule", ["hands-on-live", "step-line"])
def test_a_rule_is_explained_with_its_reason_and_examples(rule: str, capsys: Captured) -> None:
    assert main(["explain", rule]) == CLEAN
    said = capsys.readouterr().out
    assert all(part in said for part in ("Why:", "Example reported:", "Example mended:"))


def test_a_rule_that_both_parsing_and_checking_have_is_explained_twice(capsys: Captured) -> None:
    assert main(["explain", "reading-incomplete"]) == CLEAN
    assert capsys.readouterr().out.count("Why:") == 2


def test_explain_alone_lists_every_rule_and_calculator(capsys: Captured) -> None:
    assert main(["explain"]) == CLEAN
    listed = {line.split()[0] for line in capsys.readouterr().out.splitlines() if line.startswith("    ")}
    assert listed == {*EXPLAINED, *shelf.ids()}


@pytest.mark.parametrize("calculator", shelf.ids())
def test_what_a_page_may_give_to_a_calculator_is_explained_and_nothing_else(calculator: str, capsys: Captured) -> None:
    assert main(["explain", calculator]) == CLEAN
    said = capsys.readouterr().out.partition("under `given`")[2].splitlines()[1:]
    declared = shelf.get(calculator)
    assert declared and [line.split()[0] for line in said] == [one.name for one in declared.inputs if one.given]


def test_an_unknown_rule_exits_2_and_names_the_nearest(capsys: Captured) -> None:
    assert main(["explain", "hand-on-live"]) == COULD_NOT_RUN
    assert "did you mean hands-on-live?" in capsys.readouterr().err


@pytest.mark.parametrize("form", ["sarif", "annotations", "json"])
def test_the_same_shop_gives_the_same_bytes_whatever_is_known_from_before(broken: Path, form: str, capsys: Captured) -> None:
    said = set()
    for more in (["--fresh"], [], []):
        assert main(["check", "--format", form, *more]) == ERRORS
        said.add(capsys.readouterr().out)
    assert len(said) == 1


def test_reports_for_hosts_name_files_from_the_root_of_the_repository(
    broken: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    (broken / ".git").mkdir()
    monkeypatch.chdir(broken / "procedures")
    assert main(["check", ".", "--format", "annotations"]) == ERRORS
    assert "::error file=procedures/broken.md,line=33," in capsys.readouterr().out
    assert main(["check", ".", "--format", "sarif"]) == ERRORS
    results = json.loads(capsys.readouterr().out)["runs"][0]["results"]
    files = {r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for r in results}
    assert files == {"procedures/broken.md"}
