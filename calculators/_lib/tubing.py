"""Tubing and fittings of the trade: bore and roughness in millimetres, loss factors K.

Bores are those of common walls, common practice, no source; a maker's sheet or a caliper goes before.
Roughness: drawn tube and plastic 0.0015 mm, rubber 0.01 mm, rusted steel 0.3 mm, from memory of handbooks.
Loss factors: for the speed in the line's bore, from memory; handbooks differ by a quarter, in small bores by more.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators._lib.declare import Option


@dataclass(frozen=True, slots=True)
class Tube:
    """One kind of tube, by the words that it is bought under."""

    words: str
    bore: float
    roughness: float


TUBES = (
    Tube("1/4 in plastic", 4.318, 0.0015),
    Tube("1/4 in copper", 4.826, 0.0015),
    Tube("1/4 in PEX", 4.0, 0.007),
    Tube("3/8 in plastic", 6.35, 0.0015),
    Tube("6 mm plastic", 4.0, 0.0015),
    Tube("8 mm plastic", 6.0, 0.0015),
    Tube("1/2 in hose", 12.7, 0.01),
    Tube("5/8 in hose", 15.875, 0.01),
    Tube("1/2 in rusted steel", 12.0, 0.3),
)
OTHER = -1.0
"""Picked where bore and roughness are typed by hand."""
OPTIONS = (*(Option(t.words, float(i)) for i, t in enumerate(TUBES)), Option("another", OTHER))
FITTINGS = {
    "way in": 0.5,
    "long bend": 0.25,
    "sharp elbow": 1.0,
    "tee into the side": 1.5,
    "open ball valve": 0.1,
    "angle valve": 1.5,
}
"""K of each; the way in is from a much wider pipe."""
