"""What the rows of all files on pipes share."""

from __future__ import annotations

from calculators._lib import pipe, water
from calculators._lib.units import PSI
from tests.reference.ops.columns import Row, number

PSI_PA = 1e3 * PSI
LPM = 1 / 6e4


def line(row: Row) -> pipe.Line:
    """The line of a row."""
    return pipe.Line(
        number(row, "ID_mm") / 1e3,
        number(row, "length_m"),
        number(row, "roughness_mm") / 1e3,
        number(row, "K_sum", 0.0),
        number(row, "dz_m", 0.0),
        water.at(number(row, "T_degC")),
    )


def pressure(row: Row) -> float:
    """The static pressure of a row, Pa."""
    return number(row, "p_static_psi") * PSI_PA
