"""Flow by catching: volumes and times, or weights."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import catching, conformity, student, uncertainty
from tests.reference.ops.columns import Got, Robust, Row, answer, number

GOOD: dict[str, object] = {"volumes": "500", "times": "30"}
LIMITS: dict[str, object] = {"low": "0.6", "high": None, "unit": "L/min"}


def _test(row: Row) -> Got:
    volumes, times = ([float(v) for v in row[c].split(";")] for c in ("volumes_mL", "times_s"))
    low = number(row, "min_flow_L_min")
    found = catching.caught(volumes, times, number(row, "a_volume_mL"), number(row, "a_time_s"))
    dof = student.freedom(found.u, found.scatter, len(volumes))
    inside = found.mean >= low
    return {
        "exp_Q_mean_L_min": found.mean,
        "exp_Q_total_L_min": found.total,
        "exp_uA_L_min": found.scatter,
        "exp_uB_L_min": found.shared,
        "exp_u_L_min": found.u,
        "exp_U_k2_L_min": uncertainty.K * found.u,
        "exp_dof": dof if found.scatter else "inf",
        "exp_U_k95_L_min": student.coverage(dof) * found.u,
        "exp_verdict_simple": "pass" if inside else "fail",
        "exp_verdict_guarded": _guarded(conformity.judge(found.mean, uncertainty.K * found.u, low, None), inside),
    }


def _guarded(verdict: str, inside: bool) -> str:
    if verdict == conformity.CLOSE:
        return "conditional_pass" if inside else "conditional_fail"
    return "pass" if verdict == conformity.IN else "fail"


def _weighed(row: Row) -> Got:
    volume = catching.weighed(*(number(row, c) for c in ("gross_g", "tare_g", "T_degC")))
    return {"exp_V_mL": volume, "exp_Q_L_min": catching.flow(volume, number(row, "time_s"))}


def _input(row: Row) -> Got:
    """What the page gets for these texts."""
    got = answer("flow", {"volumes": row["volumes_mL"], "times": row["times_s"]}, LIMITS)
    if got["refused"]:
        raise ValueError(got["refused"][0]["message"])
    return {"exp_result": got["value"]}


OPERATIONS: dict[str, Callable[[Row], Got]] = {"catch_test": _test, "weighed_catch": _weighed, "catch_input": _input}

ROBUST = Robust(
    "flow",
    columns={
        "volume_mL": "volumes",
        "volumes_mL": "volumes",
        "time_s": "times",
        "times_s": "times",
        "min_flow_L_min": "low",
        "a_volume_mL": "a_volume",
        "a_time_s": "a_time",
        "T_degC": "water_temperature",
    },
    fields=GOOD,
    limits=LIMITS,
)
