"""The calculators against values made apart from them."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from tests.reference import rows


def cases(folder: Path) -> list[object]:
    found = []
    for path in sorted(folder.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as text:
            known = [row for row in csv.DictReader(text) if rows.is_case(row)]
        found += [pytest.param(path.name, row, id=f"{path.stem}: {rows.name_of(row)}") for row in known]
    return found


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "file" in metafunc.fixturenames:
        given = metafunc.config.getoption("--values", default=None)
        found = cases(given or Path(__file__).parent)
        if not found:
            raise pytest.UsageError(f"no rows in {given}")
        metafunc.parametrize(("file", "row"), found)


def test_the_calculator_does_what_the_row_says(file: str, row: rows.Row, record_property: object) -> None:
    record_property("values", file)
    passed, detail = rows.run_row(row)
    if rows.name_of(row) in rows.EXCEPTIONS:
        assert not passed, "an exception that is none any more"
        pytest.xfail(rows.EXCEPTIONS[rows.name_of(row)])
    assert passed, detail


def test_a_row_with_a_wrong_value_does_not_pass() -> None:
    right = {"case_id": "coil-0", "op": "z_value", "p_conform": "0.95", "exp_z": "1.6449", "tol_abs": "0.0005"}
    assert rows.run_row(right) == (True, "")
    assert not rows.run_row(right | {"exp_z": "1.6455"})[0]
    assert not rows.run_row(right | {"exp_z": "reject"})[0]


@pytest.mark.parametrize(
    "row",
    [
        {"case_id": "kettle-0", "op": "boil", "exp_t_s": "180"},
        {"case_id": "", "op": "z_value", "exp_z": "1.6449"},
        {"case_id": "coil-0", "op": "z_value", "p_conform": "0.95", "exp_z": ""},
        {"calculator": "kettle", "field": "t_s", "class": "empty", "input_text": "", "expected_behaviour": "refuse"},
    ],
)
def test_a_row_that_no_calculator_answers_is_not_passed_over(row: rows.Row) -> None:
    assert rows.is_case(row)
    assert not rows.run_row(row)[0]
