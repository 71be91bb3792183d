"""What holds for every calculator, whatever is typed."""

from __future__ import annotations

from math import isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators._lib import shelf
from calculators._lib.declare import Calculator
from tests.calculators.asked import ask

CALCULATORS = [shelf.get(i) for i in shelf.ids()]
untimed = settings(deadline=None)
each = pytest.mark.parametrize("calculator", CALCULATORS, ids=lambda c: c.id)
typed = st.text(max_size=12) | st.text("0123456789.,-+−eEkMΩ/minsLgal ;%°F'\"１２", max_size=12)
json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | typed,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=6,
)


def limits(calculator: Calculator) -> dict[str, object]:
    example = calculator.example
    return {"low": example.low, "high": example.high, "unit": example.unit}


def is_answer_or_refusal(got: dict) -> bool:
    """Either every refusal names its field and says why and nothing is judged, or there is a number or a kind."""
    if got["refused"]:
        said = all(r["field"] and r["message"] and "failed" not in r["message"] for r in got["refused"])
        return said and (got["verdict"], got["value"], got["ways"], got["picture"]) == (None, None, [], "")
    if got["value"] is None:
        return bool(got["sentence"])
    return isfinite(got["value"]) and isfinite(got["uncertainty"] or 0.0)


@each
@untimed
@given(st.data())
def test_any_text_in_any_field_is_answered_or_refused(calculator: Calculator, data: st.DataObject) -> None:
    names = [i.name for i in calculator.inputs]
    name = data.draw(st.sampled_from([*names, "low", "high", "unit"]))
    text = data.draw(typed | st.lists(typed, max_size=4))
    fields, bounds = dict(calculator.example.fields), limits(calculator)
    (bounds if name in bounds else fields)[name] = text
    assert is_answer_or_refusal(ask(calculator.id, fields, bounds))


@each
@untimed
@given(st.data())
def test_any_texts_together_are_answered_or_refused(calculator: Calculator, data: st.DataObject) -> None:
    numbers = st.floats(0, 2000).map(lambda v: f"{v:.3g}") | typed
    fields = data.draw(st.dictionaries(st.sampled_from([i.name for i in calculator.inputs]), numbers))
    assert is_answer_or_refusal(ask(calculator.id, calculator.example.fields | fields, limits(calculator)))


@each
@untimed
@given(json_values)
def test_no_request_makes_it_fail(calculator: Calculator, anything: object) -> None:
    for fields, bounds in ((anything, {}), (calculator.example.fields, anything), (anything, anything)):
        got = ask(calculator.id, fields, bounds)
        assert all("failed" not in r["message"] for r in got["refused"])


@each
def test_an_empty_field_is_refused_by_its_name_or_the_same_as_left_out(calculator: Calculator) -> None:
    for one in calculator.inputs:
        rest = {name: text for name, text in calculator.example.fields.items() if name != one.name}
        empty = ask(calculator.id, rest | {one.name: ""}, limits(calculator))
        if one.required:
            assert [r["field"] for r in empty["refused"]] == [one.name]
        else:
            assert empty == ask(calculator.id, rest, limits(calculator))
