"""`stillbench new` and `stillbench schema`: what they write stands at once, and nothing is written over."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hooks.check import findings
from hooks.cli import CLEAN, COULD_NOT_RUN, main
from hooks.export import editor
from hooks.kept import Kept
from hooks.new import KINDS, HERE, CannotMake, checkout, pages, shop
from hooks.parse import contents

ROOT = Path(__file__).parents[2]
Captured = pytest.CaptureFixture[str]
Made = Callable[[dict[str, object]], Path]


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured) -> Path:
    """A new shop, and a reader standing in it."""
    folder = tmp_path / "hill-workshop"
    assert main(["new", "shop", str(folder)]) == CLEAN
    monkeypatch.chdir(folder)
    capsys.readouterr()
    return folder


def run(where: Path, *command: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-B", *command], cwd=where, capture_output=True, text=True, env=environment)


def demo_words() -> set[str]:
    """What only the demo says: its shop, its machines' models and titles, its pages' titles."""
    facts = yaml.safe_load((ROOT / "procedures/shop.yml").read_text("utf-8"))
    machines = facts["appliances"].values()
    titles = [re.search(r"^title: (.*)$", p.read_text("utf-8"), re.M)[1] for p in (ROOT / "procedures").rglob("*.md")]
    models = [model for machine in machines for model in machine["models"]]
    who = [facts["shop"][key] for key in ("name", "phone", "mail", "about")]
    titles = [title for title in titles if len(title.split()) > 2]  # "No ice" anyone may say
    return {"orsel", *(str(w).strip('"').lower() for w in (*who, *models, *titles, *(m["title"] for m in machines)) if len(str(w)) > 3)}


def test_a_new_shop_is_checked_and_built_by_the_installed_program_and_knows_nothing_of_the_demo(tmp_path: Path) -> None:
    folder = tmp_path / "hill-workshop"
    shop.make(folder)
    assert ROOT not in folder.parents
    checked = run(folder, "-m", "hooks", "check")
    assert (checked.returncode, checked.stdout.splitlines()[-1][:25]) == (0, "2 pages checked: 2 notes."), checked.stdout + checked.stderr
    built = run(folder, "-m", "mkdocs", "build", "-d", "site", NO_MKDOCS_2_WARNING="1")
    assert built.returncode == 0, built.stderr[-3000:]
    assert set(re.findall(r"^WARNING.*? (note [a-z-]+)|^WARNING.*", built.stderr, re.M)) == {"note left-to-fill-in"}, built.stderr
    assert (folder / "site/first-procedure.html").is_file() and (folder / "site/first-self-check.html").is_file()
    texts = [p for p in folder.rglob("*") if p.suffix in (".html", ".md", ".yml", ".json", ".js", ".webmanifest", ".xml", ".css")]
    assert len(texts) > 20 and len(demo_words()) > 15
    said = {path.relative_to(folder).as_posix(): path.read_text("utf-8").lower() for path in texts}
    assert {(name, word) for name, text in said.items() for word in demo_words() if re.search(rf"\b{re.escape(word)}\b", text)} == set()


def test_the_facts_of_a_new_shop_lead_an_editor_to_their_schema(own: Path) -> None:
    first = (own / "procedures/shop.yml").read_text("utf-8").partition("\n")[0]
    led = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)
    assert led
    assert json.loads((own / "procedures" / led[1]).read_text("utf-8"))["title"] == "Shop facts"


def test_a_new_page_of_each_kind_is_clean_and_shows_what_to_fill_in(own: Path, capsys: Captured) -> None:
    assert main(["new", "procedure", "procedures/pumps/pump-out.md"]) == CLEAN
    assert main(["new", "self-check", "procedures/no-water", "--appliance", "MACHINE"]) == CLEAN
    assert capsys.readouterr().out == "wrote procedures/pumps/pump-out.md\nwrote procedures/no-water.md\n"
    assert main(["check"]) == CLEAN
    assert capsys.readouterr().out.splitlines()[-1].startswith("4 pages checked: 4 notes.")
    for name in ("pumps/pump-out.md", "no-water.md"):
        assert (own / "procedures" / name).read_text("utf-8").count("To be filled in") > 4


def test_new_shared_steps_fit_a_new_procedure_in_the_place_of_its_own(own: Path, capsys: Captured) -> None:
    assert main(["new", "shared-steps", "procedures/shared/cord-and-tap"]) == CLEAN
    page = own / "procedures/first-procedure.md"
    before, _, rest = page.read_text("utf-8").partition("### Cut the electricity")
    used = '### Make it safe {#cut-electricity uses="cord-and-tap"}\n\n- It is safe: [Open the cover](#open)\n- It is not safe: [Stop](#stop)\n\n'
    page.write_text(before + used + "## Mend it" + rest.partition("## Mend it")[2], "utf-8")
    capsys.readouterr()
    assert main(["check"]) == CLEAN
    assert capsys.readouterr().out.splitlines()[-1].startswith("3 pages checked: 3 notes.")


def test_a_shop_is_checked_by_its_own_folder_from_anywhere(own: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(own.parent)
    assert main(["check", own.name]) == CLEAN
    assert capsys.readouterr().out.splitlines()[-1].startswith("2 pages checked: 2 notes.")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["procedure", "procedures/a b"], "`a b` is not one word"),
        (["procedure", "procedures/no-ice.de.md"], "is not one word"),
        (["procedure", "procedures/x", "--appliance", "machin"], "there is no appliance machin; did you mean machine?"),
        (["self-check", "procedures/x", "--appliance", "zzz"], "there is no appliance zzz; there are: machine"),
        (["procedure", "procedures/first-procedure.md"], "there is a page with the id `first-procedure`"),
        (["procedure", "procedures/parts/first-procedure"], "there is a page with the id `first-procedure`"),
        (["procedure", "loose"], "is not in a shop"),
        (["shop", "."], "is not an empty folder"),
        (["shop", "mkdocs.yml"], "is not an empty folder"),
        (["rule", "Jump"], "is no name for a rule"),
        (["rule", "jump-lost"], "there is a rule `jump-lost` already"),
        (["calculator", "my-head"], "is no name for a calculator"),
        (["calculator", "class"], "is no name for a calculator"),
        (["calculator", "coil"], "there is a calculator `coil` already"),
    ],
)
def test_what_cannot_be_made_is_said_in_a_line_and_nothing_is_written(own: Path, capsys: Captured, arguments: list[str], words: str) -> None:
    before = {path: path.read_bytes() for path in own.rglob("*") if path.is_file()}
    assert main(["new", *arguments]) == COULD_NOT_RUN
    said = capsys.readouterr().err
    assert words in said and said.count("\n") == 1 and said.startswith("stillbench: ")
    assert {path: path.read_bytes() for path in own.rglob("*") if path.is_file()} == before


def test_of_several_machines_one_must_be_named_and_broken_facts_are_mended_first(own: Path, capsys: Captured) -> None:
    facts = own / "procedures/shop.yml"
    text = facts.read_text("utf-8")
    facts.write_text(text + "  other: {title: Other, models: {O1: []}, energies: none}\n", "utf-8")
    assert main(["new", "procedure", "procedures/x"]) == COULD_NOT_RUN
    assert "--appliance and one of: machine, other" in capsys.readouterr().err
    facts.write_text(text.replace("trapped", "traped"), "utf-8")
    assert main(["new", "procedure", "procedures/x"]) == COULD_NOT_RUN
    assert "the shop facts have errors" in capsys.readouterr().err


def test_nothing_is_written_over_and_where_one_file_is_there_none_is_written(own: Path) -> None:
    (own / "procedures/pump.md").write_text("mine", "utf-8")
    with pytest.raises(CannotMake, match="is there already"):
        pages.make("procedure", own / "procedures/pump", None)
    assert (own / "procedures/pump.md").read_text("utf-8") == "mine"


def test_schema_renews_its_own_files_and_touches_no_other(own: Path) -> None:
    (own / ".vscode/settings.json").write_text("{}", "utf-8")
    (own / ".vscode/shop.schema.json").write_text("old", "utf-8")
    assert main(["schema"]) == CLEAN
    written = {path.name: path.read_text("utf-8") for path in (own / ".vscode").iterdir()}
    assert written == {**editor.files(), "settings.json": "{}"}


NAMES = st.lists(st.sampled_from(("electricity", "water", "hot-water", "gas", "spring", "heat", "charge")), unique=True, min_size=0, max_size=5)


@st.composite
def machines(draw: st.DrawFn) -> dict[str, object]:
    """A machine of any energies: cut, trapped, stored after one another, on some models only."""
    energies: dict[str, object] = {}
    guarded: dict[str, str] = {}
    for name in draw(NAMES):
        feeder = draw(st.sampled_from([None, *energies])) if energies else None
        only = guarded.get(feeder, "") if feeder else draw(st.sampled_from(("", "", "extra", "not extra")))
        guarded[name] = only
        facts: dict[str, object] = {"points": []} if feeder else {"points": draw(st.sampled_from((["plug"], ["tap", "stop valve"])))}
        facts |= {"charged-by": feeder} if feeder else {"trapped": draw(st.booleans())}
        energies[name] = facts | ({"only": only} if only else {})
    return {"title": "It", "models": {"A1": [], "A2": ["extra"]}, "energies": energies or "none"}


@given(machine=machines())
@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_pages_are_clean_for_any_machine_that_the_shop_facts_can_hold(machine: dict[str, object], tmp_path_factory: pytest.TempPathFactory) -> None:
    folder = tmp_path_factory.mktemp("any")
    (folder / "shop.yml").write_text(yaml.safe_dump({"appliances": {"it": machine}}), "utf-8")
    for kind in ("procedure", "self-check"):
        pages.make(kind, folder / f"the-{kind}", "it")
    assert {f.rule for f in findings(contents(folder), Kept())} == {"left-to-fill-in"}


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A checkout in which a developer made a calculator and a rule."""
    made = tmp_path_factory.mktemp("checkout")
    left_out = shutil.ignore_patterns("__pycache__", "*.csv", "browser", "real")
    for name in ("calculators", "hooks", "tests", "docs"):
        shutil.copytree(ROOT / name, made / name, ignore=left_out)
    shutil.copyfile(ROOT / "pyproject.toml", made / "pyproject.toml")
    for kind, name in (("calculator", "head"), ("rule", "title-unwritten")):
        done = run(made, "-m", "hooks", "new", kind, name, PYTHONPATH=str(made))
        assert done.returncode == 0, done.stderr
    return made


def test_a_new_calculator_and_its_cases_pass_what_every_calculator_must(copy: Path) -> None:
    told = ("-m", "pytest", "-v", "-p", "no:cacheprovider", "-k", "head or every_calculator_has", "tests/calculators", "tests/test_layers.py")
    done = run(copy, *told, PYTHONPATH=str(copy))
    assert done.returncode == 0, done.stdout[-3000:]
    assert "two pieces are as long as both" in done.stdout and "worked_example_comes_out_as_written[head]" in done.stdout


def test_a_new_rule_and_its_cases_pass_what_every_rule_must(copy: Path) -> None:
    done = run(copy, "-m", "pytest", "-v", "-p", "no:cacheprovider", "-k", "title or every", "tests/rules", "tests/test_layers.py", PYTHONPATH=str(copy))
    assert done.returncode == 0, done.stdout[-3000:]
    assert "test_what_the_example_shows_is_reported[title-unwritten]" in done.stdout
    assert "title-unwritten: Reported: the title of a template" in done.stdout


def test_an_installed_program_is_no_checkout(tmp_path: Path) -> None:
    for make in (checkout.calculator, checkout.rule):
        with pytest.raises(CannotMake, match="not a checkout"):
            make("some-thing", tmp_path)


def test_every_folder_of_templates_is_a_kind_that_can_be_made() -> None:
    assert KINDS == ("calculator", "procedure", "rule", "self-check", "shared-steps", "shop")
    assert all(file.suffix == ".jinja" for file in HERE.rglob("*") if file.is_file())


def test_the_commands_that_the_readme_names_for_a_new_shop_do_what_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured) -> None:
    [block] = re.findall(r"^## A shop of your own\n.*?^```\n(.*?)^```", (ROOT / "README.md").read_text("utf-8"), re.M | re.S)
    told = [line.partition("#")[0].split() for line in block.splitlines() if "stillbench " in line]
    assert len(told) == 3
    (tmp_path / "checkout").mkdir()
    monkeypatch.chdir(tmp_path / "checkout")
    for command in told:
        assert main(command[1:]) == CLEAN
        monkeypatch.chdir(tmp_path / "my-shop")
    assert capsys.readouterr().out.splitlines()[-1].startswith("3 pages checked: 3 notes.")
