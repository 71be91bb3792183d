"""The reader's own pressure gauge: entered once a device, in all forms that ask for a pressure. kPa."""

from __future__ import annotations

from calculators._lib.declare import MY_GAUGE, Input
from calculators._lib.units import PRESSURE, PSI
from calculators._lib.words import number

BAR = 100.0
USUAL = 20.0
"""What a plain gauge can be off by (common practice, no source)."""
INPUT = Input(
    "gauge",
    "Gauge, can be off by",
    PRESSURE,
    low=0.0,
    high=500.0,
    required=False,
    keep=MY_GAUGE,
    hint="Class 2.5 of 10 bar: 0.25 bar. Left empty: 0.2 bar, 3 psi.",
)


def off_by(typed: float | None) -> float:
    """What the gauge can be off by: the usual where nobody has said.

    >>> off_by(None), off_by(0.0)
    (20.0, 0.0)
    """
    return USUAL if typed is None else typed


def words(off: float) -> str:
    """The gauge that was counted with, for readers of both units.

    >>> words(20.0)
    'gauge ± 0.2 bar (2.9 psi)'
    """
    return f"gauge ± {number(off / BAR)} bar ({number(float(f'{off / PSI:.2g}'))} psi)"
