"""Operations of the rows on pressure under flow and on valves, and the bad texts of both forms."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import filling, pipe, tubing, valve, water
from calculators._lib.water import at
from tests.reference.ops.columns import Got, Robust, Row, number
from tests.reference.ops.pipes import PSI_PA

BAR = 1e5
LPM = 1000 / 60
HYDRANT = 1 / 0.54
"""The exponent of NFPA 291, from memory."""
STEEL = 0.0457e-3
"""Roughness of clean steel pipe, for which the factor of fully turbulent flow is tabulated."""


def _kv_flow(row: Row) -> Got:
    density = water.density(number(row, "T_degC"))
    return {"exp_Q_L_min": valve.flow_of(number(row, "Kv_m3_h"), number(row, "dp_bar") * BAR, density) * LPM}


def _kv_to_cv(row: Row) -> Got:
    return {"exp_Cv": number(row, "Kv_m3_h") / valve.KV_OF_CV}


def _cv_to_kv(row: Row) -> Got:
    return {"exp_Kv_m3_h": number(row, "Cv") * valve.KV_OF_CV}


def _kv_to_k(row: Row) -> Got:
    return {"exp_K": valve.loss_factor(number(row, "Kv_m3_h"), number(row, "ID_mm") / 1e3)}


def _k_to_kv(row: Row) -> Got:
    return {"exp_Kv_m3_h": valve.kv_of_loss(number(row, "K"), number(row, "ID_mm") / 1e3)}


def _needed(flow: float, before: float, after: float, vapour: float, recovery: float, density: float) -> Got:
    most = valve.choked_drop(before, vapour, recovery)
    drop = min(before - after, most)
    return {
        "exp_Kv_m3_h": valve.kv_of(flow, drop, density),
        "exp_choked": "true" if before - after >= most else "false",
    }


def _valve_needed(row: Row) -> Got:
    t = number(row, "T_degC")
    before, after = (number(row, c) * BAR for c in ("P1_bar_abs", "P2_bar_abs"))
    flow = number(row, "Q_L_min") / LPM
    return _needed(flow, before, after, water.vapour_pressure(t), number(row, "FL"), water.density(t))


def _valve_published(row: Row) -> Got:
    before, after, vapour = (number(row, c) * 1e3 for c in ("P1_kPa", "P2_kPa", "Psat_kPa"))
    return _needed(number(row, "Q_m3_h"), before, after, vapour, number(row, "FL"), number(row, "rho_kg_m3"))


def _available_flow(row: Row) -> Got:
    static, dynamic, residual = (number(row, c) for c in ("P_static_psi", "P_dynamic_psi", "P_residual_psi"))
    flow, drop = number(row, "Q_L_min"), static - dynamic
    return {
        "exp_Q_square_L_min": valve.flow_at(flow, drop, static - residual),
        "exp_Q_nfpa_L_min": valve.flow_at(flow, drop, static - residual, HYDRANT),
        "exp_drop_psi": drop,
        "exp_drop_pct": 100 * drop / static,
    }


def _filter_drop(row: Row) -> Got:
    drop = number(row, "P_in_psi") - number(row, "P_out_psi")
    then = valve.drop_at(drop, number(row, "Q_L_min"), number(row, "Q2_L_min"), number(row, "exponent"))
    return {"exp_dp_psi": drop, "exp_dp_at_Q2_psi": then}


def _hydrostatic(row: Row) -> Got:
    pascal = pipe.hydrostatic(number(row, "dz_m"), at(number(row, "T_degC")))
    return {"exp_dp_psi": pascal / PSI_PA, "exp_dp_bar": pascal / BAR}


def _recovery(row: Row) -> Got:
    return {"exp_t_s": filling.seconds_for(1000 * number(row, "drawdown_L"), number(row, "Q_L_min"))}


def _minor_loss(row: Row) -> Got:
    line = pipe.Line(bore=0.01, length=0.0, water=at(number(row, "T_degC")))
    return {"exp_dp_Pa": number(row, "K") * line.head(number(row, "v_m_s"))}


def _water_hammer(row: Row) -> Got:
    pascal = pipe.surge(number(row, "dv_m_s"), number(row, "wave_m_s"), at(number(row, "T_degC")))
    return {"exp_dp_bar": pascal / BAR}


FITTINGS = {
    "bend90_rc1.5D_Re1e5_smooth": "long bend",
    "miter90": "sharp elbow",
    "contraction_12.7_to_4.318": "way in",
    "ball_valve_full_bore_Crane_12.7": "open ball valve",
    "angle_valve_Crane_12.7": "angle valve",
}
"""The words of the file for what the form's hint names."""


def _fitting_k(row: Row) -> Got:
    name = row["fitting"]
    if name == "fT_Crane_0.0127":
        return {"exp_K": pipe.colebrook(1e9, STEEL / 0.0127)}
    return {"exp_K": tubing.FITTINGS[FITTINGS[name]]}


OPERATIONS: dict[str, Callable[[Row], Got]] = {
    "Kv_flow": _kv_flow,
    "Kv_to_Cv": _kv_to_cv,
    "Cv_to_Kv": _cv_to_kv,
    "Kv_to_K": _kv_to_k,
    "K_to_Kv": _k_to_kv,
    "valve_Kv_needed": _valve_needed,
    "valve_Kv_published": _valve_published,
    "available_flow": _available_flow,
    "filter_drop": _filter_drop,
    "hydrostatic": _hydrostatic,
    "recovery_time_tank": _recovery,
    "minor_loss": _minor_loss,
    "water_hammer": _water_hammer,
    "fitting_K": _fitting_k,
}


class _Two:
    """The file asks of two forms: what is typed into a valve's goes there, all else to the other."""

    valve = Robust("valve", {"Kv_m3_h": "rated"}, {"before": "3 bar"})
    pressure = Robust(
        "pressure",
        {"P_static_psi": "static", "P_dynamic_psi": "flowing", "Q_L_min": "flow"},
        {"static": "4 bar", "flowing": "0", "flow": "3"},
    )
    columns = valve.columns | pressure.columns

    def typed(self, column: str, text: str) -> dict:
        """The answer of the form that has the column."""
        return (self.valve if column in self.valve.columns else self.pressure).typed(column, text)


ROBUST = _Two()
