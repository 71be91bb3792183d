"""Operations of the rows on what a restriction takes."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import pipe, supply_line
from calculators._lib.supply_line import Known
from tests.reference.ops.columns import Got, Row, number
from tests.reference.ops.pipes import LPM, PSI_PA, line, pressure


def _blockage(row: Row) -> Got:
    """A restriction that is shut has no factor, and takes all the pressure there is."""
    tube, measured = line(row), number(row, "Q_measured_L_min") * LPM
    expected = pipe.speeds(tube, pressure(row)).value * tube.area
    loss = supply_line.loss(tube, pressure(row), measured, Known())
    return {
        "exp_Q_expected_L_min": expected / LPM,
        "exp_ratio": measured / expected,
        "exp_K_extra": loss and loss.factor,
        "exp_dp_extra_psi": (loss.pressure if loss else pressure(row) - tube.lift) / PSI_PA,
    }


OPERATIONS: dict[str, Callable[[Row], Got]] = {"blockage": _blockage}
