"""One row of reference values, run: the same file works in CPython and in the browser.

Only the standard library and `calculators` are used. `run_row` takes a row as `csv.DictReader`
gives it and says whether it passed, and why not.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from math import inf, isfinite

from calculators import coil
from calculators._lib import conformity, ohmmeter, uncertainty, winding
from calculators._lib.declare import Refusal
from calculators._lib.entry import answer
from calculators._lib.text_in import read

Row = dict[str, str]
Got = dict[str, object]

REJECT = "reject"
MATERIAL = {"copper": winding.COPPER, "aluminium": winding.ALUMINIUM, "": winding.COPPER}
CLASSES = {
    (conformity.ABOVE, "open"): {"open"},
    (conformity.BELOW, "short"): {"short"},
    (conformity.BELOW, "shorted turns"): {"short_or_shorted_turns", "shorted_turns"},
    (conformity.ABOVE, None): {"high", "above"},
    (conformity.BELOW, None): {"low", "below"},
    (conformity.IN, None): {"in", "in_band", "in_limits", "in_range", "within", "ok", "pass", "normal", "good"},
}
"""Verdict and kind, and the words of the files that they answer."""


def applies(row: Row) -> bool:
    """Whether there is a calculator for this row."""
    return calculator_of(row) == "coil"


def calculator_of(row: Row) -> str:
    """The calculator a row is about: said in a column, or the beginning of its case id."""
    return row.get("calculator") or row.get("case_id", "").rpartition("-")[0]


def name_of(row: Row) -> str:
    """What to call the row in a report."""
    return row.get("case_id") or f"{row['field']} {row['class']}"


def run_row(row: Row) -> tuple[bool, str]:
    """Whether the calculator does what the row says, and what differs."""
    if "input_text" in row:
        return _robust(row)
    expected = {k: v for k, v in row.items() if k.startswith("exp_") and v not in ("", None)}
    try:
        got = OPERATIONS[row["op"]](row)
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
    target = float(expected)
    return isfinite(value) and abs(value - target) <= max(relative * abs(target), absolute)


def _number(row: Row, column: str, empty: float | None = None) -> float:
    text = row.get(column) or ""
    if not text and empty is not None:
        return empty
    value = float(text)
    if not isfinite(value):
        raise ValueError(f"{column} is not a number")
    return value


def _limit(row: Row, column: str) -> float | None:
    return _number(row, column) if row.get(column) else None


def _k(row: Row) -> float:
    return MATERIAL[row.get("material", "")]


def _temp_correct(row: Row) -> Got:
    r, t, t_ref = (_number(row, c) for c in ("R_ohm", "T_coil_degC", "T_ref_degC"))
    return {"exp_R_ref_ohm": winding.at_temperature(r, t, t_ref, _k(row))}


def _winding_rise(row: Row) -> Got:
    r1, r2, t1, room = (_number(row, c) for c in ("R1_ohm", "R2_ohm", "T1_degC", "T_amb2_degC"))
    rise = winding.rise(r1, r2, t1, room, _k(row))
    return {"exp_rise_K": rise, "exp_T_winding_degC": room + rise}


def _verdict(row: Row) -> Got:
    shown, low, high = _number(row, "R_ohm"), _limit(row, "spec_lo_ohm"), _limit(row, "spec_hi_ohm")
    at = ohmmeter.Conditions(
        percent=_number(row, "meter_pct"),
        counts=_number(row, "meter_counts"),
        resolution=_number(row, "resolution_ohm"),
        lead=_number(row, "lead_ohm", 0.0),
        t=_number(row, "T_coil_degC", 20.0),
        t_ref=_number(row, "T_ref_degC", 20.0),
        u_t=_number(row, "u_T_K", 0.0),
        k=_k(row),
    )
    value, u = ohmmeter.resistance(shown, at), ohmmeter.standard_uncertainty(shown, at)
    verdict, _ = coil.sort_out(value, uncertainty.K * u, low, high)
    inside = conformity.judge(value, 0.0, low, high) == conformity.IN
    return {
        "exp_R_ref_ohm": value,
        "exp_a_meter_ohm": ohmmeter.meter_error(shown, at),
        "exp_u_ohm": u,
        "exp_U_k2_ohm": uncertainty.K * u,
        "exp_verdict_simple": "pass" if inside else "fail",
        "exp_verdict_guarded": _guarded(verdict, inside),
        "exp_p_conform": conformity.p_conform(value, u, low, high),
    }


def _guarded(verdict: str, inside: bool) -> str:
    if verdict == conformity.CLOSE:
        return "conditional_pass" if inside else "conditional_fail"
    return "pass" if verdict == conformity.IN else "fail"


def _repeat(row: Row) -> Got:
    values = [float(v) for v in row["readings_ohm"].split(";")]
    return {
        "exp_mean_ohm": uncertainty.mean(values),
        "exp_s_ohm": uncertainty.scatter(values),
        "exp_uA_ohm": uncertainty.of_the_mean(values),
    }


def _classify(row: Row) -> Got:
    limits = {"low": row["spec_lo_ohm"] or None, "high": row["spec_hi_ohm"] or None, "unit": "ohm"}
    fields = {"readings": row["R_text"], "meter_pct": "0", "meter_counts": "0"}
    got = _answer(fields, limits)
    if got["refused"]:
        raise ValueError(got["refused"][0]["message"])
    return {"exp_class": CLASSES.get((got["verdict"], got["kind"]), set())}


def _insulation(row: Row) -> Got:
    r = read(row["R_text"], coil.CALCULATOR.reading).value
    said = winding.insulation(r, _number(row, "V_test"), _number(row, "limit_ohm"))
    return {"exp_class": said.replace(" ", "_")}


def _ac_impedance(row: Row) -> Got:
    r, henry, volts, hertz = (_number(row, c) for c in ("R_ohm", "L_H", "V_rms", "f_Hz"))
    z = winding.impedance(r, henry, hertz)
    return {
        "exp_X_ohm": winding.reactance(henry, hertz),
        "exp_Z_ohm": z,
        "exp_I_A": volts / z,
        "exp_P_W": (volts / z) ** 2 * r,
    }


def _wire_ohm(row: Row) -> Got:
    awg = _number(row, "AWG")
    ohm = winding.wire_ohm_per_metre(awg, _number(row, "T_degC", 20.0))
    return {
        "exp_d_mm": winding.wire_diameter(awg) * 1e3,
        "exp_ohm_per_m": ohm,
        "exp_ohm_per_1000ft": ohm * winding.FOOT * 1e3,
    }


def _p_conform(row: Row) -> Got:
    y, u = _number(row, "y"), _number(row, "u")
    return {"exp_p_conform": conformity.p_conform(y, u, _limit(row, "spec_lo"), _limit(row, "spec_hi"))}


def _z_value(row: Row) -> Got:
    return {"exp_z": conformity.z_value(_number(row, "p_conform"))}


OPERATIONS: dict[str, Callable[[Row], Got]] = {
    "temp_correct": _temp_correct,
    "winding_rise": _winding_rise,
    "verdict": _verdict,
    "repeat": _repeat,
    "classify": _classify,
    "insulation": _insulation,
    "ac_impedance": _ac_impedance,
    "wire_ohm": _wire_ohm,
    "p_conform": _p_conform,
    "z_value": _z_value,
}

FIELDS = {
    "R_ohm": "readings",
    "readings_ohm": "readings",
    "T_coil_degC": "coil_temperature",
    "T_ref_degC": "reference_temperature",
    "meter_pct": "meter_pct",
    "meter_counts": "meter_counts",
    "resolution_ohm": "resolution",
    "lead_ohm": "lead",
    "u_T_K": "temperature_uncertainty",
    "spec_lo_ohm": "low",
    "spec_hi_ohm": "high",
}
"""Columns of the robust rows, and the field each is typed into."""


def _answer(fields: dict[str, str], limits: dict[str, object]) -> dict:
    return json.loads(answer("coil", json.dumps({"fields": fields, "limits": limits, "label": "Coil"})))


def _typed(field: str, text: str) -> dict:
    fields, limits = {"readings": "312"}, {"low": "1", "high": "500", "unit": "ohm"}
    (limits if field in limits else fields)[field] = text
    return _answer(fields, limits)


def _robust(row: Row) -> tuple[bool, str]:
    """The expected behaviour is a sentence: it says what may be understood, and whether refusing will do."""
    field, rule = FIELDS[row["field"]], row["expected_behaviour"]
    got = _typed(field, row["input_text"])
    refused = [r for r in got["refused"] if r["field"] == field and r["message"]]
    if got["refused"]:
        judged = got["verdict"] is None and got["value"] is None
        return bool(refused) and judged and "refuse" in rule, json.dumps(got["refused"])
    return _understood(field, rule, got), f"understood: {got['sentence']}"


def _understood(field: str, rule: str, got: dict) -> bool:
    if rule == "open":
        return got["kind"] == "open"
    if rule.startswith("ok"):
        return isfinite(got["value"])
    if rule.startswith(("12.5", "12 ")):
        return got == _typed(field, rule.split()[0])
    return "finite" in rule and isfinite(got["value"]) and got["uncertainty"] < inf
