"""Boiling water up a mountain."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import boiling
from tests.reference.ops.columns import Got, Row, number


def _boiling_point(row: Row) -> Got:
    altitude = number(row, "altitude_m")
    return {"exp_p_Pa": boiling.pressure(altitude), "exp_T_degC": boiling.celsius(altitude)}


OPERATIONS: dict[str, Callable[[Row], Got]] = {"boiling_point": _boiling_point}
