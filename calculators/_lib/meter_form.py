"""The fields of an ohmmeter, which are entered once a device and are the same wherever ohms are read."""

from __future__ import annotations

from calculators._lib.amounts import Choice
from calculators._lib.declare import MY_METER, Input
from calculators._lib.units import OHM

PERCENT = (Choice("%", also=("percent",)),)
RESOLUTION = Input(
    "resolution",
    "Smallest step shown",
    OHM,
    low=1e-6,
    high=1e6,
    required=False,
    keep=MY_METER,
    hint="Left empty: the last digit that you typed.",
)
METER = (
    Input(
        "meter_pct",
        "Meter, percent of reading",
        PERCENT,
        low=0.0,
        high=20.0,
        default="0.8",
        keep=MY_METER,
        hint="From the meter's booklet, ohm range. A plain meter: 0.8.",
    ),
    Input(
        "meter_counts",
        "Meter, digits",
        (Choice("digits", also=("digit", "counts", "count", "dgt")),),
        low=0.0,
        high=1000.0,
        default="1",
        keep=MY_METER,
        hint="The booklet says ± (% of reading + digits).",
    ),
    RESOLUTION,
)
