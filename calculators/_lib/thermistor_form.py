"""The fields that describe a thermistor, the same wherever one is read."""

from __future__ import annotations

from calculators._lib.amounts import Choice
from calculators._lib.declare import Input, Source
from calculators._lib.meter_form import PERCENT
from calculators._lib.sensing import COLDEST, LEAST, MOST, WARMEST
from calculators._lib.units import CELSIUS, OHM

PLAIN = (Choice(""),)
READINGS = Input(
    "readings",
    "Sensor reading",
    OHM,
    low=0.0,
    high=1e9,
    below="Less than nothing means voltage on the wires. Prove it dead and read again.",
    many=True,
    open_words=True,
    given=False,
    hint="All the digits that the meter shows. OL counts as open.",
)
NOMINAL = (
    Input(
        "r25",
        "Resistance at 25 °C",
        OHM,
        low=LEAST,
        high=MOST,
        required=False,
        hint="R25 on the maker's sheet, with the k: 10k.",
    ),
    Input(
        "b",
        "B of the sensor",
        (Choice("K", also=("k", "kelvin")),),
        low=500.0,
        high=20_000.0,
        required=False,
        hint="B25/50, B25/85 and B25/100 of one part differ by 1 to 2 %: take the pair nearest to your temperature.",
    ),
    Input("r25_pct", "R25 may differ by", PERCENT, low=0.0, high=50.0, default="5", hint="From the maker's sheet."),
    Input("b_pct", "B may differ by", PERCENT, low=0.0, high=20.0, default="2", hint="From the maker's sheet."),
)
"""The usual description, and how far a good one may lie from it."""
DESCRIBED = (
    Input(
        "sh_a",
        "Or: coefficient a",
        PLAIN,
        low=1e-6,
        high=0.02,
        required=False,
        hint="Of 1/T = a + b ln R + c (ln R)³, kelvin and ohm: about 0.001.",
    ),
    Input("sh_b", "Coefficient b", PLAIN, low=1e-6, high=0.02, required=False, hint="About 0.0002."),
    Input("sh_c", "Coefficient c", PLAIN, low=-1e-5, high=1e-5, required=False, hint="About 1e-7."),
    Input(
        "table_t",
        "Or: the maker's table, temperatures",
        CELSIUS,
        low=COLDEST,
        high=WARMEST,
        required=False,
        many=True,
        row="table",
        hint="Two or more, with ; between: 0; 25; 50.",
    ),
    Input(
        "table_r",
        "The maker's table, ohms",
        OHM,
        low=LEAST / 100,
        high=MOST * 10,
        required=False,
        many=True,
        row="table",
        hint="In the same order, with ; between: 32650; 10000; 3602.",
    ),
)
"""The other two."""
FORMULA = (
    "R = R25 × e^(B × (1/T − 1/298.15)), T in kelvin = °C + 273.15; and back: 1/T = 1/298.15 + ln(R ÷ R25) ÷ B",
    "or 1/T = a + b ln R + c (ln R)³; or, between two neighbours of a table, a B of their own; ln is the natural one",
)
SENSOR_SOURCES = (
    Source(1, "IEC 60539-1: what R25 and B mean", "from memory"),
    Source(2, "Steinhart and Hart, Deep-Sea Research 15 (1968) 497", "from memory, the inverse recomputed"),
    Source(3, "Salt: 1.86 °C for a mole of dissolved particles in a kilogram of water", "from memory"),
)
