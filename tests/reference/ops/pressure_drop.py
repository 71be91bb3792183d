"""Operations of the rows on the loss of straight pipe."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import pipe
from tests.reference.ops.columns import Got, Row, number
from tests.reference.ops.pipes import LPM, PSI_PA, line


def _dp_straight(row: Row) -> Got:
    tube = line(row)
    speed = number(row, "Q_L_min") * LPM / tube.area
    loss = pipe.straight(tube, speed) * tube.head(speed)
    return {
        "exp_v_m_s": speed,
        "exp_Re": tube.reynolds(speed),
        "exp_dp_Pa": loss,
        "exp_dp_psi": loss / PSI_PA,
    }


OPERATIONS: dict[str, Callable[[Row], Got]] = {"dp_straight": _dp_straight}
