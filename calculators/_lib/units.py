"""Units that more than one calculator takes; the first of each is the base unit."""

from __future__ import annotations

from calculators._lib.amounts import Choice

OHM = (
    Choice("ohm", also=("ohms", "Ohm", "Ohms", "OHM", "Ω", "R")),
    Choice("kohm", 1e3, also=("k", "K", "kΩ", "KΩ", "kOhm", "kohms", "kilohm", "kilohms")),
    Choice("Mohm", 1e6, also=("M", "MΩ", "MOhm", "Mohms", "megohm", "megohms")),
)
CELSIUS = (
    Choice("°C", also=("C", "degC", "ºC")),
    Choice("°F", 5 / 9, -160 / 9, also=("F", "degF", "ºF")),
)
