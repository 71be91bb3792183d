"""Drips and leaks that are caught."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import dripping
from tests.reference.ops.columns import Got, Robust, Row, number

GALLON_ML = 3785.411784


def _drip(row: Row) -> Got:
    a_day = dripping.litres_a_day(number(row, "drips_per_min"), number(row, "drop_mL"))
    return {
        "exp_L_day": a_day,
        "exp_gal_day": a_day * 1e3 / GALLON_ML,
        "exp_m3_year": a_day * dripping.DAYS / 1e3,
    }


def _in_a_gallon(row: Row) -> Got:
    """A gallon a day, by so many drips a minute, is so many drips in all."""
    of_one = dripping.litres_a_day(1.0, number(row, "drop_mL"))
    return {"exp_drips": GALLON_ML / 1e3 / of_one * dripping.LITRES_A_DAY * 1e3}


def _counted(row: Row) -> Got:
    drips, seconds = number(row, "drips"), number(row, "seconds")
    rate = drips * dripping.MINUTE / seconds
    return {
        "exp_drips_per_min": rate,
        "exp_L_day": dripping.litres_a_day(rate, number(row, "drop_mL")),
        "exp_rel_count_uncertainty": dripping.share_of_count(drips),
    }


def _caught(row: Row) -> Got:
    a_day = dripping.caught_a_day(number(row, "V_mL"), number(row, "seconds"))
    return {"exp_L_day": a_day, "exp_mL_min": a_day / dripping.LITRES_A_DAY}


def _drop(row: Row) -> Got:
    most = dripping.tate_drop(number(row, "tip_radius_m"), number(row, "T_degC"))
    return {"exp_V_ideal_mL": most, "exp_V_lo_mL": dripping.REAL_SHARE * most, "exp_V_hi_mL": most}


OPERATIONS: dict[str, Callable[[Row], Got]] = {
    "drip": _drip,
    "drips_per_gallon": _in_a_gallon,
    "drip_counted": _counted,
    "caught_leak": _caught,
    "drop_size": _drop,
}

ROBUST = Robust(
    "drip",
    columns={
        "drips_per_min": "drips",
        "drips": "drips",
        "seconds": "seconds",
        "drop_mL": "drop",
        "V_mL": "caught",
    },
    fields={"drips": "30", "drop": "0.25", "drop_give": "0.05"},
    limits={"low": None, "high": "8", "unit": "L/day"},
)
