"""Heating elements."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import conformity, heating
from tests.reference.ops.columns import Got, Robust, Row, answer, number

CLASSES = {
    (conformity.ABOVE, "open"): {"open"},
    (conformity.BELOW, "short"): {"short"},
    (conformity.BELOW, "shorted turns"): {"short_or_shorted_turns", "shorted_turns", "short"},
    (conformity.ABOVE, None): {"high", "above"},
    (conformity.BELOW, None): {"low", "below"},
    (conformity.IN, None): {"in", "in_band", "in_limits", "in_range", "ok", "pass", "normal", "good"},
}
"""Verdict and kind, and the words of the file that they answer."""
WORDS = {conformity.IN: "in_band", conformity.BELOW: "low", conformity.ABOVE: "high"}


def _label(row: Row) -> tuple[float, float, float, float]:
    volts, watts, plus, minus = (number(row, c) for c in ("V_rated", "P_rated_W", "tol_plus_pct", "tol_minus_pct"))
    return volts, watts, plus, minus


def _band(row: Row) -> Got:
    volts, watts, *tolerance = _label(row)
    r, (low, high) = heating.ohm(volts, watts), heating.band(volts, watts, *tolerance)
    return {"exp_R_ohm": r, "exp_R_lo_ohm": low, "exp_R_hi_ohm": high, "exp_I_A": watts / volts}


def _check(row: Row) -> Got:
    """The file's verdict is that of a meter without error."""
    volts, watts, *tolerance = _label(row)
    ratio, cold = number(row, "hot_cold_ratio", 1.0), number(row, "R_measured_ohm")
    low, high = heating.band(volts, watts, *tolerance)
    verdict = conformity.judge(cold, 0.0, low / ratio, high / ratio)
    return {"exp_P_at_rated_V_W": heating.watts(volts, cold * ratio), "exp_verdict": WORDS[verdict]}


def _other_voltage(row: Row) -> Got:
    volts = number(row, "V_actual")
    watts = heating.watts(volts, heating.ohm(number(row, "V_rated"), number(row, "P_rated_W")))
    return {"exp_I_A": watts / volts, "exp_P_W": watts}


def _hot_to_cold(row: Row) -> Got:
    hot = heating.ohm(number(row, "V_rated"), number(row, "P_rated_W"))
    return {"exp_R_hot_ohm": hot, "exp_R_cold_ohm": heating.cold(hot, number(row, "hot_cold_ratio"))}


def _two_elements(row: Row) -> Got:
    ohms = [float(r) for r in row["R_list"].split(";")]
    r = {"series": heating.series, "parallel": heating.parallel}[row["config"]](ohms)
    return {"exp_R_ohm": r, "exp_P_W": heating.watts(number(row, "V_actual"), r)}


def _heat_time(row: Row) -> Got:
    columns = ("mass_kg", "T1_degC", "T2_degC", "P_W", "efficiency")
    return {"exp_t_s": heating.heating_seconds(*(number(row, c) for c in columns))}


def _asked(row: Row, **more: str) -> dict:
    return answer("heater", {"readings": row["R_text"], "volts": "230", "watts": "2000", "meter_pct": "0"} | more, {})


def _classify(row: Row) -> Got:
    got = _asked(row, volts=row["V_rated"], watts=row["P_rated_W"])
    if got["refused"]:
        raise ValueError(got["refused"][0]["message"])
    return {"exp_class": CLASSES.get((got["verdict"], got["kind"]), set())}


def _ptc(row: Row) -> Got:
    refused = [r["field"] for r in _asked(row, material="ptc")["refused"]]
    return {"exp_class": "not_applicable" if refused == ["material"] else refused}


OPERATIONS: dict[str, Callable[[Row], Got]] = {
    "band": _band,
    "check": _check,
    "other_voltage": _other_voltage,
    "hot_to_cold": _hot_to_cold,
    "two_elements": _two_elements,
    "heat_time": _heat_time,
    "classify": _classify,
    "ptc": _ptc,
}

ROBUST = Robust(
    "heater",
    columns={
        "R_ohm": "readings",
        "R_measured_ohm": "readings",
        "V_rated": "volts",
        "P_rated_W": "watts",
        "tol_plus_pct": "plus",
        "tol_minus_pct": "minus",
        "hot_cold_ratio": "ratio",
        "V_actual": "other_volts",
        "T1_degC": "cold",
        "T2_degC": "hot",
    },
    fields={"readings": "26.4", "volts": "230", "watts": "2000"},
)
