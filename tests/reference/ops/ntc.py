"""Thermistors and platinum sensors, and the ice bath."""

from __future__ import annotations

from collections.abc import Callable

from calculators import thermistor
from calculators._lib import conformity, ntc
from calculators._lib.ohmmeter import Conditions
from calculators._lib.sensing import Sensor
from tests.reference.ops.columns import Got, Robust, Row, answer, number

CLASSES = {"open": {"open"}, "short": {"short"}, None: {"ok", "normal", "in", "in_band", "in_range", "good"}}
"""The kind that the calculator says, and the words of the file that it answers."""
GOOD: dict[str, object] = {"readings": "33900", "r25": "10000", "b": "3977"}


def _beta(row: Row) -> ntc.Curve:
    return ntc.beta_curve(number(row, "R25_ohm"), number(row, "B_K"))


def _coefficients(row: Row) -> ntc.Curve:
    return (ntc.Piece(*(number(row, c) for c in "ABC")),)


def _ohm(curve: Callable[[Row], ntc.Curve]) -> Callable[[Row], Got]:
    return lambda row: {"exp_R_ohm": ntc.ohm(number(row, "T_degC"), curve(row))}


def _celsius(curve: Callable[[Row], ntc.Curve]) -> Callable[[Row], Got]:
    return lambda row: {"exp_T_degC": ntc.celsius(number(row, "R_ohm"), curve(row))}


def _b_from_points(row: Row) -> Got:
    return {"exp_B_K": ntc.b_between(*(number(row, c) for c in ("T1_degC", "R1_ohm", "T2_degC", "R2_ohm")))}


def _fit(row: Row) -> Got:
    piece = ntc.fit([tuple(map(float, point.split(":"))) for point in row["points"].split(";")])
    return {"exp_A": piece.a, "exp_B": piece.b, "exp_C": piece.c}


def _ice_bath(row: Row) -> Got:
    shown, tolerance = number(row, "R_ohm"), (number(row, "tol_R25_pct"), number(row, "tol_B_pct"))
    sensor = Sensor(_beta(row), *tolerance)
    held = thermistor.Held(sensor, 0.0, number(row, "bath_tol_K"), Conditions(number(row, "meter_pct"), 0.0, 1.0))
    low, high = sensor.band(0.0)
    verdict, _ = thermistor.sort_out(shown, held.expanded(shown), low, high)
    return {
        "exp_R0_ohm": ntc.ohm(0.0, sensor.curve),
        "exp_band_lo_ohm": low,
        "exp_band_hi_ohm": high,
        "exp_T_indicated_degC": ntc.celsius(shown, sensor.curve),
        "exp_verdict": _word(verdict, low <= shown <= high),
    }


def _word(verdict: str, inside: bool) -> str:
    """The file accepts inside the band at once and is unsure only outside it; the project is unsure on both sides."""
    if verdict == conformity.CLOSE:
        return "pass" if inside else "uncertain"
    return "pass" if verdict == conformity.IN else "fail"


def _salt_bath(row: Row) -> Got:
    return {"exp_T_degC": ntc.salt_bath(number(row, "molality"), number(row, "ions"))}


def _self_heating(row: Row) -> Got:
    r, ampere, dissipation = (number(row, c) for c in ("R_ohm", "I_test_A", "dissipation_W_K"))
    warmer = ntc.self_heating(r, ampere, dissipation)
    return {"exp_P_W": warmer * dissipation, "exp_dT_K": warmer}


def _classify(row: Row) -> Got:
    got = answer("thermistor", GOOD | {"readings": row["R_text"], "r25": row["R25_ohm"], "meter_counts": "0"}, {})
    if got["refused"]:
        raise ValueError(got["refused"][0]["message"])
    return {"exp_class": CLASSES.get(got["kind"], set())}


def _platinum(row: Row) -> Got:
    return {"exp_R_ohm": ntc.platinum_ohm(number(row, "T_degC"), number(row, "R0_ohm"))}


OPERATIONS: dict[str, Callable[[Row], Got]] = {
    "beta_R": _ohm(_beta),
    "beta_T": _celsius(_beta),
    "sh_R": _ohm(_coefficients),
    "sh_T": _celsius(_coefficients),
    "sh_fit": _fit,
    "B_from_points": _b_from_points,
    "ice_bath": _ice_bath,
    "salt_bath": _salt_bath,
    "self_heating": _self_heating,
    "classify": _classify,
    "pt_R": _platinum,
}

ROBUST = Robust(
    "thermistor",
    columns={
        "R_ohm": "readings",
        "R25_ohm": "r25",
        "B_K": "b",
        "T_degC": "bath",
        "tol_R25_pct": "r25_pct",
        "tol_B_pct": "b_pct",
        "bath_tol_K": "bath_error",
        "meter_pct": "meter_pct",
    },
    fields=GOOD,
)
