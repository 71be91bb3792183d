"""Freezing, its heat, and the ice that comes of it."""

from __future__ import annotations

from collections.abc import Callable
from math import inf

from calculators._lib import freezing
from tests.reference.ops.columns import Got, Robust, Row, number

SHAPES = {
    "slab": freezing.TWO_FACES,
    "slab_one_side": freezing.ONE_FACE,
    "cylinder": freezing.CYLINDER,
    "sphere": freezing.SPHERE,
}


def _time(row: Row, size: float, shape: freezing.Shape) -> float:
    return freezing.plank(
        size,
        shape,
        number(row, "Ta_degC"),
        number(row, "h_W_m2K") if row["h_W_m2K"] else inf,
        number(row, "k_ice_W_mK"),
        number(row, "L_J_kg"),
        number(row, "rho_kg_m3"),
        number(row, "Tf_degC"),
    )


def _plank(row: Row) -> Got:
    return {"exp_t_s": _time(row, number(row, "d_m"), SHAPES[row["shape"]])}


def _stefan(row: Row) -> Got:
    """The exact time must lie as near to Plank's as the row allows."""
    time = _time(row, number(row, "d_m"), SHAPES[row["shape"]])
    return {"exp_t_s": time, "exp_plank_t_s": time}


def _brick(row: Row) -> Got:
    sides = sorted(float(side) for side in row["dims_m"].split(";"))
    shape = freezing.block(*sides)
    return {"exp_t_s": _time(row, sides[0], shape), "exp_P": shape.p, "exp_R": shape.r}


def _heat(row: Row) -> float:
    return freezing.heat_given_off(number(row, "T_water_degC"), number(row, "T_ice_degC"))


def _energy(row: Row) -> Got:
    return {"exp_q_J": number(row, "mass_kg") * _heat(row)}


def _by_power(row: Row) -> Got:
    return {"exp_kg_day": freezing.a_day_by_power(number(row, "P_cooling_W"), _heat(row))}


def _by_cycle(row: Row) -> Got:
    mass = number(row, "pieces") * number(row, "mass_piece_kg")
    return {"exp_kg_day": freezing.a_day_by_batches(mass, number(row, "cycle_min"))}


def _volume(row: Row) -> Got:
    return {"exp_V_ice_mL": freezing.grown(number(row, "V_water_mL"), number(row, "T_water_degC"))}


def _first(row: Row) -> Got:
    pulldown = freezing.cooled_down(
        *(number(row, c) for c in ("T_start_degC", "T_final_degC", "T_release_degC", "tau_h"))
    )
    return {
        "exp_pulldown_h": pulldown,
        "exp_first_ice_h": pulldown + number(row, "freeze_h") + number(row, "harvest_h"),
    }


OPERATIONS: dict[str, Callable[[Row], Got]] = {
    "plank": _plank,
    "stefan_exact": _stefan,
    "plank_brick": _brick,
    "freeze_energy": _energy,
    "ice_per_day_power": _by_power,
    "ice_per_day_cycle": _by_cycle,
    "ice_volume": _volume,
    "first_ice": _first,
}

ROBUST = Robust(
    "ice",
    columns={"Ta_degC": "air", "d_m": "thickness", "h_W_m2K": "film", "k_ice_W_mK": "conductivity"},
    fields={"air": "-18"},
)
