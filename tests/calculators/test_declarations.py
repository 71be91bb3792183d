"""What a calculator says of itself is true."""

from __future__ import annotations

import ast
import doctest
import importlib
import inspect
import json
from pathlib import Path

import pytest

from calculators._lib import shelf
from calculators._lib.conformity import WAYS
from calculators._lib.declare import KEPT, Calculator, Grid, Sweep
from calculators._lib.entry import answer
from calculators._lib.fields import problems, read_request

ROOT = Path(__file__).parents[2]
MODULES = sorted((ROOT / "calculators").rglob("*.py"))
NAMES = [".".join(p.relative_to(ROOT).with_suffix("").parts) for p in MODULES]
LIGHT = {"__future__", "calculators", "collections.abc", "dataclasses", "functools", "json", "math", "re"}
"""What the browser has to load; each one more costs time at the machine."""
CORE = (
    "catching", "conformity", "dripping", "filling", "ohmmeter", "pipe", "student", "supply_line", "uncertainty",
    "valve", "water", "winding",
)  # fmt: skip
LIMITS = {"low": 100, "high": 500, "unit": "ohm"}
CALCULATORS = [shelf.get(i) for i in shelf.ids()]

each = pytest.mark.parametrize("calculator", CALCULATORS, ids=lambda c: c.id)


@each
def test_the_work_takes_what_is_declared(calculator: Calculator) -> None:
    assert list(inspect.signature(calculator.work).parameters) == [*(i.name for i in calculator.inputs), "limits"]


@each
def test_every_default_is_understood_and_only_what_has_none_must_be_typed(calculator: Calculator) -> None:
    request = read_request(calculator, {}, {})
    wanted = [i.name for i in calculator.inputs if i.required and i.default is None]
    assert [r.field for r in request.refused] == wanted


@each
def test_what_is_typed_at_the_machine_is_an_input_that_the_example_types(calculator: Calculator) -> None:
    names = {i.name for i in calculator.inputs}
    wanted = {i.name for i in calculator.inputs if i.required and i.default is None}
    assert set(calculator.typed) <= names
    assert wanted <= set(calculator.example.fields) <= names


@each
def test_the_printed_table_is_over_inputs_and_outputs_that_there_are(calculator: Calculator) -> None:
    match calculator.table:
        case Sweep(input, _, step):
            assert {input} <= {i.name for i in calculator.inputs} >= {step} - {""}
        case Grid(shows, rows, columns):
            assert shows in {o.name for o in calculator.outputs}
            swept = [calculator.input(s.input) for s in (rows, columns) if s]
            assert all(swept) and all(s.texts for s in (rows, columns) if s)


@each
def test_the_worked_example_comes_out_as_written(calculator: Calculator) -> None:
    example = calculator.example
    limits = {"low": example.low, "high": example.high, "unit": example.unit}
    got = json.loads(answer(calculator.id, json.dumps({"fields": example.fields, "limits": limits})))
    assert got["sentence"] == example.sentence


@each
def test_all_that_a_page_about_it_needs_is_there(calculator: Calculator) -> None:
    words = (calculator.title, calculator.summary, *calculator.formula, *calculator.validity, *calculator.cautions)
    assert all(words)
    assert calculator.cautions
    assert [s.number for s in calculator.sources] == list(range(1, len(calculator.sources) + 1))
    assert all(s.text and s.seen for s in calculator.sources)
    assert all(i.label and i.keep in ("", *KEPT) for i in calculator.inputs)


@each
def test_every_output_that_is_given_is_declared_and_the_reverse(calculator: Calculator) -> None:
    cases = json.loads((Path(__file__).parent / f"{calculator.id}.json").read_text("utf-8"))["cases"]
    asked = [{k: c[k] for k in ("fields", "limits") if k in c} for c in cases]
    answers = [json.loads(answer(calculator.id, json.dumps(one))) for one in asked]
    assert {o["name"] for a in answers for o in a["outputs"]} == {o.name for o in calculator.outputs}
    assert {a["kind"] for a in answers if a["kind"]} == {name for name, _ in calculator.kinds}


def test_a_calculator_that_does_not_exist_is_said_so() -> None:
    got = json.loads(answer("no-such", "{}"))
    assert got["refused"] == [{"field": "", "message": "There is no calculator “no-such”.", "row": 0}]
    assert got["verdict"] is None


@pytest.mark.parametrize(
    ("given", "limits", "fields"),
    [
        ({}, LIMITS, []),
        ({"coil_temperature": "10 °C"}, LIMITS, []),
        ({"coil_temperature": "10 ohm", "coil": "1"}, LIMITS, ["coil", "coil_temperature"]),
        ({"readings": "312"}, LIMITS, ["readings"]),
        ({}, LIMITS | {"unit": "V"}, ["limits"]),
    ],
)
def test_what_a_page_gives_wrongly_is_found_without_a_reading(given: dict, limits: dict, fields: list[str]) -> None:
    assert [r.field for r in problems(shelf.get("coil"), given, limits)] == fields


def test_the_verdicts_are_those_that_a_page_may_write() -> None:
    written = {"in limits", "out of limits", "below limits", "above limits", "too close to call"}
    assert {way for ways in WAYS.values() for way in ways} == written


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.stem)
def test_only_light_modules_are_imported(path: Path) -> None:
    found = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name.split(".")[0] for alias in node.names}
        if isinstance(node, ast.ImportFrom):
            found.add("calculators" if node.module.startswith("calculators") else node.module)
    assert found <= LIGHT


@pytest.mark.parametrize("name", [n for n in NAMES if not n.endswith("__init__")])
def test_the_examples_in_the_docstrings_hold(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def test_every_function_of_the_core_has_an_example() -> None:
    for name in CORE:
        module = importlib.import_module(f"calculators._lib.{name}")
        own = [f for f in vars(module).values() if inspect.isfunction(f) and f.__module__ == module.__name__]
        own = [f for f in own if not f.__name__.startswith("_")]
        assert [f.__name__ for f in own if ">>>" not in (f.__doc__ or "")] == []
