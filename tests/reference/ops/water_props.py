"""Operations of the rows on water and ice."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import water
from tests.reference.ops.columns import Got, Row, number


def _water(row: Row) -> Got:
    t = number(row, "T_degC")
    return {
        "exp_rho_kg_m3": water.density(t),
        "exp_mu_Pa_s": water.viscosity(t),
        "exp_nu_m2_s": water.viscosity(t) / water.density(t),
        "exp_cp_J_kgK": water.heat_capacity(t),
        "exp_psat_Pa": water.vapour_pressure(t),
        "exp_sigma_N_m": water.surface_tension(t),
    }


def _ice(row: Row) -> Got:
    t = number(row, "T_degC")
    return {"exp_rho_kg_m3": water.ice_density(t), "exp_cp_J_kgK": water.ice_heat_capacity(t)}


def _latent_heat(_: Row) -> Got:
    return {"exp_L_J_kg": water.LATENT_HEAT}


OPERATIONS: dict[str, Callable[[Row], Got]] = {"water": _water, "ice": _ice, "latent_heat": _latent_heat}
