"""The tables of words and fields agree with the model."""

from __future__ import annotations

from dataclasses import fields

import pytest

from hooks.model import Front, Kind, Step
from hooks.parse.fields import PAGE, front_matter_of
from hooks.parse.words import BY_NAME, EFFECTS, ENDS, STEP_LINE


def test_every_word_of_the_step_line_fills_a_field_of_a_step() -> None:
    assert {word.field for word in STEP_LINE} <= {field.name for field in fields(Step)}
    assert len(BY_NAME) == len(STEP_LINE) and all(word.says for word in STEP_LINE)


def test_a_word_marks_a_step_exactly_where_the_model_says_so() -> None:
    blank = {"number": 1, "id": "a", "id_written": True, "title": "A", "stage": None, "spans": ()}
    for word in STEP_LINE:
        step = Step(**blank, span=None, **{word.field: "x"})
        assert step.marked is (word.name in EFFECTS), word.name


def test_what_the_front_matter_holds_is_in_the_table() -> None:
    known = {row.name for row in PAGE}
    assert {field.name for field in fields(Front)} - {"spans", "condition"} <= known


@pytest.mark.parametrize("kind", list(Kind))
def test_what_a_page_must_say_it_may_say(kind: Kind) -> None:
    must = {row.name for row in PAGE if kind in row.must}
    assert must == {field.name for field in front_matter_of(kind).fields if field.must}


def test_every_kind_of_page_with_steps_has_its_ends() -> None:
    assert set(ENDS) == set(Kind) - {Kind.TEXT}
