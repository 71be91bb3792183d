"""One row of reference values, run: the same files work in CPython and in the browser.

Only the standard library and `calculators` are used. `run_row` takes a row as `csv.DictReader`
gives it and says whether it passed, and why not. What a file's operations are stands in `ops/`,
in the module of the file's name.
"""

from __future__ import annotations

import json
from importlib import import_module
from math import isfinite
from types import ModuleType

from calculators._lib.conformity import IN
from calculators._lib.declare import Refusal
from tests.reference.ops.columns import Got, Robust, Row

REJECT = "reject"
UNSAID = 1e-3
"""The relative tolerance of a value where its row says none, nor an interval."""

EXCEPTIONS: dict[str, str] = {
    "freeze Ta_degC spaces": "air of 12.5 °C never freezes: the text is understood and the value refused",
    "ntc B_K spaces": "no thermistor has a B of 12.5 K: the text is understood and the value refused",
    "supply_flow roughness_mm spaces": "no pipe is rough by 12.5 mm: the text is understood and the value refused",
    "fill_timing V_target_mL empty": "a volume need not be wanted: left empty it asks for nothing and counts for nothing",
}
"""Rows that something better contradicts: the name of the row, and why."""


def is_case(row: Row) -> bool:
    """Whether something is expected of a calculator; other files are lists of facts."""
    return "op" in row or "input_text" in row


def file_of(row: Row) -> str:
    """The file whose operations a row needs: said in a column, or the beginning of its case id."""
    return row.get("calculator") or row.get("case_id", "").rpartition("-")[0]


def _ops(row: Row) -> ModuleType | None:
    name = f"tests.reference.ops.{file_of(row)}"
    try:
        return import_module(name)
    except ModuleNotFoundError as missing:
        if missing.name != name:
            raise
        return None


def name_of(row: Row) -> str:
    """What to call the row in a report."""
    return row.get("case_id") or f"{row['calculator']} {row['field']} {row['class']}"


def run_row(row: Row) -> tuple[bool, str]:
    """Whether the calculator does what the row says, and what differs."""
    ops = _ops(row)
    if ops is None:
        return False, f"there are no operations for “{file_of(row)}”"
    if "input_text" in row:
        return _robust(row, ops.ROBUST)
    expected = {k: v for k, v in row.items() if k.startswith("exp_") and v not in ("", None)}
    if not expected:
        return False, "nothing is expected"
    try:
        got = ops.OPERATIONS[row["op"]](row)
    except (ValueError, Refusal) as refusal:
        passed = set(expected.values()) == {REJECT}
        return passed, "" if passed else f"refused: {refusal}"
    wrong = [f"{k}: {got.get(k)!r}, not {v}" for k, v in expected.items() if not _agrees(k, v, got, row)]
    return not wrong, "; ".join(wrong)


def _agrees(column: str, expected: str, got: Got, row: Row) -> bool:
    if column.endswith(("_lo", "_hi")):
        value = got.get(column[:-3])
        edge = float(expected)
        return isinstance(value, float) and (edge <= value if column.endswith("_lo") else value <= edge)
    value = got.get(column)
    if isinstance(value, set):
        return expected in value
    if not isinstance(value, float) or expected == REJECT:
        return value == expected
    relative, absolute = (float(row.get(k) or 0) for k in ("tol_rel", "tol_abs"))
    if not (row.get("tol_rel") or row.get("tol_abs")):
        if any(k.startswith("exp_") and k.endswith("_lo") and v for k, v in row.items()):
            return isfinite(value)
        relative = UNSAID
    target = float(expected)
    return isfinite(value) and abs(value - target) <= max(relative * abs(target), absolute)


def _robust(row: Row, robust: Robust) -> tuple[bool, str]:
    """The expected behaviour is a sentence: it says what may be understood, and whether refusing will do."""
    column, rule = row["field"], row["expected_behaviour"]
    got = robust.typed(column, row["input_text"])
    refused = [r for r in got["refused"] if r["field"] == robust.columns[column] and r["message"]]
    if got["refused"]:
        judged = got["verdict"] is None and got["value"] is None
        return bool(refused) and judged and "refuse" in rule, json.dumps(got["refused"])
    return _understood(column, row["input_text"], got, rule, robust), f"understood: {got['sentence']}"


def _understood(column: str, text: str, got: dict, rule: str, robust: Robust) -> bool:
    if rule in ("open", "short"):
        return got["kind"] == rule
    if rule.startswith("ok"):
        return isfinite(got["value"])
    if rule.startswith(("flow 0", "volume 0")):
        return not got["value"] and got["verdict"] != IN
    if rule.startswith("convert"):
        return got["value"] != robust.typed(column, text.split()[0])["value"]
    if rule.startswith(("12.5", "12 ")):
        return got == robust.typed(column, rule.split()[0])
    return "finite" in rule and isfinite(got["value"]) and isfinite(got["uncertainty"] or 0.0)
