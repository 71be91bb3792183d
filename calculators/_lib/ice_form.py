"""What is asked about a batch of ice, and what is usual.

Usual values without another source are common practice; the films are ranges as handbooks of heat transfer give
them for air, from memory.
"""

from __future__ import annotations

from calculators._lib.amounts import Choice
from calculators._lib.declare import Input, Option
from calculators._lib.freezing import CYLINDER, ONE_FACE, SPHERE, TWO_FACES, Shape
from calculators._lib.units import BORE, CELSIUS, CONDUCTIVITY, GRAM, HEAT_TRANSFER, HOUR, MINUTE, PERCENT, POWER

SHAPES: tuple[tuple[str, Shape | None], ...] = (
    ("block, cold all round", None),
    ("sheet, cold on both faces", TWO_FACES),
    ("sheet, cold on one face", ONE_FACE),
    ("stick, cold all round", CYLINDER),
    ("ball", SPHERE),
)
"""The words to pick from; a block's shape is worked out from its sides."""
COUNT = (Choice("", also=("pieces", "piece")),)

INPUTS = (
    Input(
        "air",
        "Air round the ice",
        CELSIUS,
        low=-60.0,
        high=60.0,
        below="No freezer is so cold.",
        given=False,
        hint="Where the ice is made, after the doors were shut for an hour.",
    ),
    Input(
        "cycle",
        "From one batch to the next",
        HOUR,
        low=0.01,
        high=48.0,
        required=False,
        given=False,
        hint="If you watched it. Left empty: it is worked out.",
    ),
    Input(
        "shape",
        "Shape of a piece",
        options=tuple(Option(words, float(i)) for i, (words, _) in enumerate(SHAPES)),
        default=SHAPES[0][0],
    ),
    Input(
        "thickness",
        "Thickness",
        BORE,
        low=1.0,
        high=300.0,
        default="20",
        hint="Of a sheet all of it, also where one face alone is cold; of a stick or ball the diameter.",
    ),
    Input("width", "Second side of a block", BORE, low=1.0, high=1000.0, default="25", hint="Only for a block."),
    Input("length", "Longest side of a block", BORE, low=1.0, high=5000.0, default="50", hint="Only for a block."),
    Input(
        "film",
        "How well the cold gets in",
        HEAT_TRANSFER,
        low=1.0,
        high=10000.0,
        default="25",
        hint="Still air 5 to 10, air moved by a fan 15 to 40, a cold metal plate 100 to 500: handbook ranges.",
    ),
    Input(
        "film_pct",
        "How well that is known, ±",
        PERCENT,
        low=0.0,
        high=90.0,
        default="40",
        hint="Seldom better than 40 %. It makes most of the range of the answer.",
    ),
    Input(
        "conductivity",
        "Conductivity of the ice",
        CONDUCTIVITY,
        low=0.1,
        high=5.0,
        default="2.2",
        hint="Clear ice near 0 °C: 2.2. White ice full of air: less.",
    ),
    Input("water", "Water that comes in", CELSIUS, low=0.0, high=95.0, default="15"),
    Input(
        "release",
        "Ice is let go at",
        CELSIUS,
        low=-40.0,
        high=0.0,
        default="-10",
        hint="Of the ice itself. Usual: -8 to -13 °C.",
    ),
    Input("harvest", "To let go and fill again", MINUTE, low=0.0, high=300.0, default="5"),
    Input(
        "now",
        "Air now, if still warm",
        CELSIUS,
        low=-60.0,
        high=60.0,
        required=False,
        given=False,
        hint="Left empty: it is as cold already as typed above.",
    ),
    Input("ready", "It fills from this air on", CELSIUS, low=-40.0, high=0.0, default="-10"),
    Input(
        "two_thirds",
        "To get two thirds of the way down",
        HOUR,
        low=0.05,
        high=48.0,
        default="2",
        hint="Exactly 63 %. Of this cabinet, with its doors shut.",
    ),
    Input("pieces", "Pieces in a batch", COUNT, low=1.0, high=1000.0, default="8"),
    Input("piece", "One piece weighs", GRAM, low=0.1, high=10000.0, default="23"),
    Input(
        "power",
        "Cooling at the ice",
        POWER,
        low=0.1,
        high=1e5,
        required=False,
        hint="What is taken out of the ice, not what the compressor draws.",
    ),
)
