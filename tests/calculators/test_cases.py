"""Each calculator answers its cases."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from calculators._lib import shelf
from calculators._lib.entry import answer
from tests.calculators.cases import differences

HERE = Path(__file__).parent
FILES = {p.stem: json.loads(p.read_text("utf-8")) for p in sorted(HERE.glob("*.json"))}
CASES = [(f["calculator"], case) for f in FILES.values() for case in f["cases"]]


def test_every_calculator_has_its_cases() -> None:
    assert set(FILES) == set(shelf.ids())


@pytest.mark.parametrize(("calculator", "case"), CASES, ids=lambda v: v["name"] if isinstance(v, dict) else v)
def test_the_answer_is_as_the_case_says(calculator: str, case: dict) -> None:
    request = {k: case[k] for k in ("fields", "limits", "label", "units") if k in case}
    assert differences(case["answer"], json.loads(answer(calculator, json.dumps(request)))) == []


def test_a_case_that_says_otherwise_is_noticed() -> None:
    assert differences({"a": 1.0, "b": ["x"]}, {"a": 1.0005, "b": ["x"], "c": 2}) == []
    assert differences({"a": 1.0, "b": ["x"], "d": 0}, {"a": 1.1, "b": ["y"]}) == [
        "answer: no d",
        "answer.a: 1.1, not 1.0",
        "answer.b[0]: 'y', not 'x'",
    ]
