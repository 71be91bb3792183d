"""Filling by time: volume, seconds, too little and too much, the flow washer."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import conformity, filling, uncertainty
from tests.reference.ops.columns import Got, Robust, Row, number

WORDS = {
    conformity.ABOVE: {"overfill"},
    conformity.BELOW: {"underfill"},
    conformity.CLOSE: {"uncertain"},
    conformity.IN: {"ok", "in", "in_limits", "pass", "good", "in_band"},
}
"""Verdicts, and the words of the files that they answer."""


def _volume(row: Row) -> Got:
    flow, seconds = number(row, "Q_L_min"), number(row, "fill_s")
    return {"exp_V_mL": filling.volume(flow, seconds, number(row, "dead_time_s", 0.0))}


def _seconds(row: Row) -> Got:
    dead = number(row, "dead_time_s", 0.0)
    return {"exp_fill_s": filling.seconds_for(number(row, "V_target_mL"), number(row, "Q_L_min"), dead)}


def _check(row: Row) -> Got:
    flow, seconds, dead = number(row, "Q_L_min"), number(row, "fill_s"), number(row, "dead_time_s", 0.0)
    volume = filling.volume(flow, seconds, dead)
    u = filling.standard_uncertainty(flow, seconds, dead, number(row, "u_Q_L_min"), number(row, "u_t_s"))
    low, high = number(row, "V_lo_mL"), number(row, "V_hi_mL")
    verdict = conformity.judge(volume, uncertainty.K * u, low, high)
    return {"exp_V_mL": volume, "exp_u_mL": u, "exp_verdict": WORDS[verdict]}


def _washer(row: Row) -> Got:
    return {"exp_Q_L_min": filling.washer_flow(*(number(row, c) for c in ("dp_psi", "Q_nominal_L_min", "dp_min_psi")))}


OPERATIONS: dict[str, Callable[[Row], Got]] = {
    "fill_volume": _volume,
    "fill_seconds": _seconds,
    "fill_check": _check,
    "flow_washer": _washer,
}

ROBUST = Robust(
    "fill",
    columns={
        "Q_L_min": "flow",
        "fill_s": "seconds",
        "dead_time_s": "dead",
        "V_target_mL": "wanted",
        "V_lo_mL": "low",
        "V_hi_mL": "high",
    },
    fields={"seconds": "7", "flow": "1.0", "flow_give": "0.05"},
    limits={"low": "1", "high": "140", "unit": "mL"},
)
