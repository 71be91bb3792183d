"""Operations of the rows on the flow out of an open end, and the bad texts of its form."""

from __future__ import annotations

from collections.abc import Callable

from calculators._lib import pipe, tubing
from tests.reference.ops.columns import Got, Robust, Row
from tests.reference.ops.pipes import LPM, line, pressure

REGIMES = {pipe.LAMINAR: "laminar", pipe.TRANSITION: "critical", pipe.TURBULENT: "turbulent"}
"""The words of the file."""


def _open_end_flow(row: Row) -> Got:
    tube = line(row)
    speed = pipe.speeds(tube, pressure(row)).value
    flow = speed * tube.area / LPM
    return {
        "exp_regime": REGIMES[pipe.regime(tube.reynolds(speed))],
        "exp_Q": flow,
        "exp_Q_L_min": flow,
        "exp_Q_epanet": flow,
        "exp_v_m_s": speed,
        "exp_Re": tube.reynolds(speed),
    }


OPERATIONS: dict[str, Callable[[Row], Got]] = {"open_end_flow": _open_end_flow}

ROBUST = Robust(
    "supply",
    columns={
        "p_static_psi": "static",
        "ID_mm": "bore",
        "roughness_mm": "roughness",
        "length_m": "length",
        "K_sum": "fittings",
        "T_degC": "temperature",
    },
    fields={
        "static": "4 bar",
        "tube": tubing.OPTIONS[-1].text,
        "bore": "4.318 mm",
        "roughness": "0.0015 mm",
        "length": "5",
        "measured": "2.6",
    },
)
