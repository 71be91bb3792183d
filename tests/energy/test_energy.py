"""What each act of a step does to what is known, state by state."""

from __future__ import annotations

import pytest

from hooks.check.analysis import State
from hooks.check.energy import EFFECTS, Machine, Situation, Word, acts, failed, machine, proved, renewed, start
from hooks.model import Shop, Step
from hooks.parse import page
from hooks.source import from_text

ON, OFF, RELEASED, PROVED = State

HEAD = """---
title: A page
page: procedure
id: page
revision: 1
reviewed: 2026-11-02
appliance: Test machine
models: {A1: []}
energies:
  electricity: {points: [plug, breaker]}
  water: {points: [tap], trapped: true}
  heat: {points: [], charged-by: electricity}
  steam: {points: [], charged-by: heat}
people: {number: 1, skill: basic}
time: 30 min
protect: none
tools: none
supplies: none
parts: none
before: none
after: none
---
!!! warning electricity water heat steam "Harm"
    All of them can hurt you badly. Prove first.

"""


def step(words: str) -> tuple[Step, Machine, Situation]:
    text = f"{HEAD}### A step {{#a {words}}}\nDo it.\n- **Not proved**: [A step](#a)\n"
    made = page(from_text(text, "page.md"), Shop(None)).page
    assert made is not None
    fitted = machine(made, made.models)
    return made.steps[0], fitted, start(fitted, made)


def after(words: str, states: tuple[State, ...], outcome: bool = True, **known: object) -> Situation:
    """What is known after a step with these words, entered in these states."""
    what, fitted, now = step(words)
    now = now._replace(states=states, **known)
    for act in acts(what, fitted):
        if act.word is Word.VERIFY:
            now = (proved if outcome else failed)(act, now, fitted)
        elif act.word in EFFECTS:
            now = EFFECTS[act.word](act, now, fitted)
    return now


SHUT = frozenset({(0, "plug"), (0, "breaker")})
PLUG = frozenset({(0, "plug")})
STATES = {
    "isolating cuts a supply": ('isolate="electricity"', (ON, ON, ON, ON), (OFF, ON, ON, ON)),
    "isolating never lowers": ('isolate="electricity water"', (PROVED, RELEASED, ON, ON), (PROVED, RELEASED, ON, ON)),
    "what is stored has no supply to cut": ('isolate="heat"', (OFF, ON, ON, ON), (OFF, ON, ON, ON)),
    "a supply that is off can be let out": ('release="water"', (ON, OFF, ON, ON), (ON, RELEASED, ON, ON)),
    "a supply that is on cannot": ('release="water"', (ON, ON, ON, ON), (ON, ON, ON, ON)),
    "heat is let out once its power is off": ('release="heat"', (OFF, ON, ON, ON), (OFF, ON, RELEASED, ON)),
    "heat is not let out while it is made": ('release="heat"', (ON, ON, ON, ON), (ON, ON, ON, ON)),
    "steam needs the heat out, not the power": ('release="steam"', (PROVED, ON, ON, ON), (PROVED, ON, ON, ON)),
    "letting out never lowers": ('release="water"', (ON, PROVED, ON, ON), (ON, PROVED, ON, ON)),
    "power is proved once off": ('verify="electricity"', (OFF, ON, ON, ON), (PROVED, ON, ON, ON)),
    "power that is on is not proved": ('verify="electricity"', (ON, ON, ON, ON), (ON, ON, ON, ON)),
    "water is not proved before it is let out": ('verify="water"', (ON, OFF, ON, ON), (ON, OFF, ON, ON)),
    "heat is proved once let out": ('verify="heat"', (OFF, ON, RELEASED, ON), (OFF, ON, PROVED, ON)),
    "three in one step apply in their order": (
        'verify="water" release="water" isolate="water"', (ON, ON, ON, ON), (ON, PROVED, ON, ON)),
    "turning on recharges all that it feeds": (
        'restore="electricity"', (PROVED, PROVED, PROVED, PROVED), (ON, PROVED, ON, ON)),
}  # fmt: skip


@pytest.mark.parametrize(("words", "before", "then"), STATES.values(), ids=STATES)
def test_the_states_after_a_step(words: str, before: tuple, then: tuple) -> None:
    assert after(words, before).states == then


def test_a_failed_proof_turns_on_what_it_names_and_all_that_this_feeds() -> None:
    now = after('verify="electricity"', (OFF, PROVED, PROVED, PROVED), outcome=False)
    assert now.states == (ON, PROVED, ON, ON)
    assert now.warned == {0, 1, 2, 3}


def test_turning_on_at_one_of_two_shut_points_leaves_it_off_and_takes_the_proof_away() -> None:
    now = after('restore="electricity" at="plug"', (PROVED, PROVED, PROVED, ON), shut=SHUT)
    assert now.states == (OFF, PROVED, PROVED, ON)
    assert now.shut == {(0, "breaker")}


def test_turning_on_at_one_point_does_not_make_a_failed_proof_good() -> None:
    assert after('restore="electricity" at="plug"', (ON, ON, ON, ON), shut=SHUT).states[0] is ON


def test_turning_on_at_the_last_shut_point_turns_on() -> None:
    assert after('restore="electricity"', (PROVED, PROVED, PROVED, ON), shut=PLUG).states[0] is ON


def test_without_at_the_usual_point_is_meant() -> None:
    assert after('isolate="electricity"', (ON, ON, ON, ON)).shut == PLUG


def test_turning_on_spends_the_messages_of_the_energy_and_of_what_it_feeds() -> None:
    assert after('restore="electricity"', (OFF, ON, ON, ON)).warned == {1}


@pytest.mark.parametrize(
    ("words", "again"),
    [
        ('isolate="electricity"', {0, 2, 3}),
        ('restore="electricity"', {0, 2, 3}),
        ('restore="heat"', {2, 3}),
        ('isolate="heat"', set()),
        ('release="heat"', set()),
        ('verify="electricity"', set()),
    ],
)
def test_isolating_and_turning_on_make_what_was_told_worth_telling_again(words: str, again: set) -> None:
    what, fitted, _ = step(words)
    assert {e for act in acts(what, fitted) for e in renewed(act, fitted)} == again


@pytest.mark.parametrize(
    ("words", "clear"),
    [("work", False), ('opens="lid" work', False), ("", False), ("check", True), ('isolate="water"', True)],
)
def test_hands_at_the_machine_undo_the_clearing(words: str, clear: bool) -> None:
    assert after(words, (PROVED,) * 4).clear is clear


def test_clearing_comes_before_turning_on_in_the_same_step() -> None:
    what, fitted, _ = step('restore="electricity" clear')
    assert [a.word for a in acts(what, fitted)] == [Word.CLEAR, Word.RESTORE]


def test_opening_and_closing_are_remembered_by_name() -> None:
    assert after('work opens="lid, back"', (PROVED,) * 4).open == {"lid", "back"}
    assert after('work closes="lid"', (PROVED,) * 4, open=frozenset({"lid", "back"})).open == {"back"}
