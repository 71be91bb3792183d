"""Coils, windings, and what a meter says of them."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, isclose

from calculators import coil
from calculators._lib import conformity, ohmmeter, uncertainty, winding
from tests.reference.ops.columns import Got, Robust, Row, answer, limit, number

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


def _k(row: Row) -> float:
    return MATERIAL[row.get("material", "")]


def _temp_correct(row: Row) -> Got:
    r, t, t_ref = (number(row, c) for c in ("R_ohm", "T_coil_degC", "T_ref_degC"))
    return {"exp_R_ref_ohm": winding.at_temperature(r, t, t_ref, _k(row))}


def _winding_rise(row: Row) -> Got:
    r1, r2, t1, room = (number(row, c) for c in ("R1_ohm", "R2_ohm", "T1_degC", "T_amb2_degC"))
    rise = winding.rise(r1, r2, t1, room, _k(row))
    return {"exp_rise_K": rise, "exp_T_winding_degC": room + rise}


def _verdict(row: Row) -> Got:
    shown, low, high = number(row, "R_ohm"), limit(row, "spec_lo_ohm"), limit(row, "spec_hi_ohm")
    at = ohmmeter.Conditions(
        percent=number(row, "meter_pct"),
        counts=number(row, "meter_counts"),
        resolution=number(row, "resolution_ohm"),
        lead=number(row, "lead_ohm", 0.0),
        t=number(row, "T_coil_degC", 20.0),
        t_ref=number(row, "T_ref_degC", 20.0),
        u_t=number(row, "u_T_K", 0.0),
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
    got = answer("coil", fields, limits)
    if got["refused"]:
        raise ValueError(got["refused"][0]["message"])
    return {"exp_class": CLASSES.get((got["verdict"], got["kind"]), set())}


def _insulation(row: Row) -> Got:
    fields = {"reading": row["R_text"], "volts": row["V_test"], "error_pct": "0"}
    got = answer("frame", fields, {"low": row["limit_ohm"], "unit": "ohm"})
    if got["refused"]:
        raise ValueError(got["refused"][0]["message"])
    if got["verdict"] == conformity.IN:
        return {"exp_class": "pass_at_limit" if isclose(got["value"] or inf, number(row, "limit_ohm") / 1e6) else "pass"}
    return {"exp_class": "fail" if got["verdict"] == conformity.BELOW else got["kind"].replace(" ", "_")}


def _ac_impedance(row: Row) -> Got:
    r, henry, volts, hertz = (number(row, c) for c in ("R_ohm", "L_H", "V_rms", "f_Hz"))
    z = winding.impedance(r, henry, hertz)
    return {
        "exp_X_ohm": winding.reactance(henry, hertz),
        "exp_Z_ohm": z,
        "exp_I_A": volts / z,
        "exp_P_W": (volts / z) ** 2 * r,
    }


def _wire_ohm(row: Row) -> Got:
    awg = number(row, "AWG")
    ohm = winding.wire_ohm_per_metre(awg, number(row, "T_degC", 20.0))
    return {
        "exp_d_mm": winding.wire_diameter(awg) * 1e3,
        "exp_ohm_per_m": ohm,
        "exp_ohm_per_1000ft": ohm * winding.FOOT * 1e3,
    }


def _p_conform(row: Row) -> Got:
    y, u = number(row, "y"), number(row, "u")
    return {"exp_p_conform": conformity.p_conform(y, u, limit(row, "spec_lo"), limit(row, "spec_hi"))}


def _z_value(row: Row) -> Got:
    return {"exp_z": conformity.z_value(number(row, "p_conform"))}


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

ROBUST = Robust(
    "coil",
    columns={
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
    },
    fields={"readings": "312"},
    limits={"low": "1", "high": "500", "unit": "ohm"},
)
