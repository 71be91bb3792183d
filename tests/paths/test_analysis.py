"""What the page is told about its steps: the worst on arriving and leaving, the proofs, the edges."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from hooks.check import examine
from hooks.check.analysis import Analysis, State
from hooks.diagnostics import Finding
from hooks.model import Shop
from hooks.parse import folder, page
from hooks.parse.result import ParsedShop
from hooks.source import from_text

from .shapes import Action, Bullet, Job, Source, markdown

ON, OFF, RELEASED, PROVED = State
TESTS = Path(__file__).parents[1]
POWER = Source("electricity", ("plug",))
HOT = Source("hot-water", ("tap",), only="hot")


def analysed(*actions: Action) -> Analysis:
    job = Job((("A1", ()), ("A2", ("hot",))), (POWER, HOT), ("electricity", "hot-water"), actions)
    parsed = page(from_text(markdown(job), "job.md"), Shop(None))
    return examine(ParsedShop(Shop(None), (parsed,), ())).analyses["job"]


def does(word: str, *names: str, **more: object) -> Action:
    return Action(((word, names),), **more)


def proof(*names: str, failed: int, held: int | None = None, **more: object) -> Action:
    bullets = (Bullet("", failed, False), *((Bullet("", held, True),) if held is not None else ()))
    return Action((("verify", names),), bullets=bullets, **more)


WORK = Action(flags=frozenset({"work"}))
END = Action(end="stopped")


def test_two_proofs_that_lead_to_one_step_both_cover_it() -> None:
    ask = Action(flags=frozenset({"decide"}), bullets=(Bullet("One", 2), Bullet("Other", 3)))
    found = analysed(
        does("isolate", "electricity"),
        ask,
        proof("electricity", failed=0, held=4),
        proof("electricity", failed=0, held=4),
        WORK,
        END,
    )
    assert found.at(5).proofs == (("electricity", (3, 4)),)


def test_a_later_proof_takes_the_place_of_an_earlier_one() -> None:
    found = analysed(
        does("isolate", "electricity"),
        proof("electricity", failed=0),
        proof("electricity", failed=0),
        WORK,
        END,
    )
    assert found.at(4).proofs == (("electricity", (3,)),)


def test_a_step_shows_the_worst_of_the_paths_that_lead_to_it() -> None:
    skippable = replace(does("isolate", "electricity"), flags=frozenset({"optional"}))
    found = analysed(skippable, WORK, END)
    assert dict(found.at(2).arriving)["electricity"] is ON
    assert dict(found.at(1).leaving)["electricity"] is OFF
    assert found.at(2).proofs == ()


def test_leaving_a_proof_it_is_taken_as_held() -> None:
    found = analysed(does("isolate", "electricity"), proof("electricity", failed=0), END)
    assert dict(found.at(2).arriving)["electricity"] is OFF
    assert dict(found.at(2).leaving)["electricity"] is PROVED


def test_an_energy_is_shown_on_the_models_that_have_it() -> None:
    found = analysed(does("isolate", "hot-water", only="hot"), Action(flags=frozenset({"check"})), END)
    assert found.at(1).models == ("A2",)
    assert found.at(2).models == ("A1", "A2")
    assert dict(found.at(2).arriving) == {"electricity": ON, "hot-water": OFF}


def test_the_edges_are_those_that_some_path_takes_with_their_words_and_models() -> None:
    found = analysed(
        does("isolate", "hot-water", only="hot"),
        Action(flags=frozenset({"decide", "optional"}), bullets=(Bullet("Yes", 3), Bullet("No", 0))),
        Action(flags=frozenset({"check"})),
        END,
    )
    both = ("A1", "A2")
    assert [(e.source, e.target, e.words, e.models) for e in found.edges] == [
        (0, 1, "", both),
        (1, 2, "not on A1", ("A1",)),
        (1, 2, "", ("A2",)),
        (2, 3, "skipped", both),
        (2, 4, "Yes", both),
        (2, 1, "No", both),
        (3, 4, "", both),
    ]


def test_a_step_that_no_path_reaches_is_outside_the_graph() -> None:
    found = analysed(Action(flags=frozenset({"check"}), next=2), WORK, END)
    assert found.at(2) is None


def test_a_page_that_could_not_be_read_soundly_is_not_analysed() -> None:
    job = Job((("A1", ()),), (POWER,), ("electricity",), (WORK, END))
    parsed = page(from_text(markdown(job).replace("{#s0 work}", "{#s0 wrok}"), "job.md"), Shop(None))
    report = examine(ParsedShop(Shop(None), (parsed,), ()))
    assert not parsed.sound and not report.analyses
    assert report.findings == parsed.findings


def finding(name: str, rule: str) -> Finding:
    report = examine(folder(TESTS / "cases"))
    return next(f for f in report.findings if f.file.endswith(name) and f.rule == rule)


def test_a_path_marks_where_the_state_was_set_and_where_it_hurts() -> None:
    found = finding("O5-second-lap.md", "hands-on-live")
    assert found.message == 'hands-on step "Swap the part" can be reached with electricity ON'
    assert found.help == (
        'Send line 44 to a step that isolates and proves electricity, such as "Unplug" (line 24).'
    )
    notes = [(step.line, step.note) for step in found.path if step.note]
    assert notes == [(35, "turned on here"), (33, "hands-on here")]


def test_a_path_tells_each_state_on_leaving_a_step_and_at_its_last_on_reaching_it() -> None:
    path = finding("O5-second-lap.md", "hands-on-live").path
    assert path[0].energies == (("electricity", "OFF, not proved"), ("water", "ON"))
    assert path[2].energies == (("electricity", "PROVED off"), ("water", "PROVED off"))
    assert path[-1].energies == (("electricity", "ON"), ("water", "PROVED off"))


def test_the_same_shop_gives_the_same_report() -> None:
    parsed = folder(TESTS / "cases")
    assert examine(parsed) == examine(parsed)


def test_pages_that_share_an_id_have_no_analysis_that_could_be_taken_for_the_other() -> None:
    job = "---\ntitle: A\npage: procedure\nid: job\nappliance: M\nmodels: {A1: []}\nenergies: none\n---\n"
    one = page(from_text(f"{job}### Look {{#look check}}\n", "one.md"), Shop(None))
    two = page(from_text(f"{job}### Open {{#open work}}\n", "two.md"), Shop(None))
    assert set(examine(ParsedShop(Shop(None), (one,), ())).analyses) == {"job"}
    assert not examine(ParsedShop(Shop(None), (one, two), ())).analyses
