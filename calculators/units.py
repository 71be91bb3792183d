"""A value in one unit, in all the others of its kind."""

from __future__ import annotations

from calculators._lib import kinds, units
from calculators._lib.amounts import Amount, Choice, Words
from calculators._lib.declare import (
    NOTHING, Calculator, Example, Grid, Input, Limits, Option, Output, Result, Series, Source,
)  # fmt: skip
from calculators._lib.kinds import Kind

DIGITS = 4
"""So many digits of a converted value are shown."""
AS_TYPED = "as typed"


def work(value: str, unit: float, limits: Limits) -> Result:
    """Say the value in its other units. Raises Refusal where its unit is not known, or can mean two things."""
    if unit < 0:
        kind, found = kinds.recognised(value)
    else:
        kind, picked = kinds.UNITS[int(unit)]
        found = kinds.value_of(value, kind, picked)
    answer = _answer(found, kind)
    outputs: list[tuple[str, Words]] = [
        ("answer", answer),
        ("all", _joined([_in(found, u) for u in kind.units], "; ")),
        ("kind", kind.name),
    ]
    if kind is kinds.PRESSURE:
        outputs.append(("absolute", _answer(units.absolute(found), kinds.ABSOLUTE)))
    sentence = (f"{kind.name[0].upper()}{kind.name[1:]}: ", *answer, ".")
    return Result(found, None, None, sentence=sentence, outputs=tuple(outputs), notes=_notes(kind, unit))


def _in(value: float, unit: Choice) -> Amount:
    return Amount(value, (unit,), digits=DIGITS)


def _answer(value: float, kind: Kind) -> tuple[str | Amount, ...]:
    return _joined([_in(value, u) for u in kind.told(value)], " = ")


def _joined(amounts: list[Amount], by: str) -> tuple[str | Amount, ...]:
    return tuple(piece for amount in amounts for piece in (by, amount))[1:]


def _notes(kind: Kind, unit: float) -> tuple[Words, ...]:
    if kind is kinds.PRESSURE:
        return ("Taken as a gauge shows it, over the air's own pressure.",)
    if kind is not kinds.TEMPERATURE or unit >= 0:
        return ()
    return ("Taken as a temperature. A difference has no other zero: pick °C difference or °F difference.",)


CALCULATOR = Calculator(
    id="units",
    title="Convert units",
    summary="Type a value with its unit: 12.5 psi, 3/8 in, 2.0k. The answer: the same in the other units.",
    judged=NOTHING,
    typed=("value", "unit"),
    table=Grid(
        "answer",
        Series(
            "value",
            (
                *("1 psi", "20 psi", "60 psi", "1 bar", "1 US gal", "1 UK gal", "1 gal/min", "1 L/min", "1 US fl oz"),
                *("1/4 in", "3/8 in", "1/2 in", "1 ft", "1 lb", "0 °F", "32 °F", "100 °F"),
            ),
        ),
    ),
    inputs=(
        Input("value", "Value", as_typed=True, given=False, hint="With its unit, or pick the unit below."),
        Input(
            "unit",
            "Its unit",
            options=(
                Option(AS_TYPED, -1.0),
                *(Option(f"{u.text}{kind.suffix}", float(i)) for i, (kind, u) in enumerate(kinds.UNITS)),
            ),
            default=AS_TYPED,
            given=False,
        ),
    ),
    outputs=(
        Output("answer", "Metric and US"),
        Output("all", "In every unit"),
        Output("kind", "Taken as"),
        Output("absolute", "Over a vacuum"),
    ),
    kinds=(),
    formula=(
        "value in the other unit = (value × factor − other zero) ÷ other factor",
        "1 in = 25.4 mm, 1 lb = 453.59237 g, 1 US gal = 3.785411784 L, 1 UK gal = 4.54609 L, all exact",
        "1 psi = 6.894757 kPa; absolute pressure = gauge pressure + 101.325 kPa",
        "°F = °C × 1.8 + 32 for a temperature; °F = °C × 1.8 for a difference",
    ),
    validity=(
        "gal, fl oz and qt alone are the US ones; the UK gallon is a fifth larger and has to be said.",
        "Pressures are gauge pressures unless abs is said; absolute ones are for air of 101.325 kPa.",
        "oz alone can be weight or volume, and K a kilohm or a kelvin: then you are asked.",
    ),
    sources=(Source(1, "NIST SP 811, appendix B: factors of units", "from memory; compared with the package pint"),),
    example=Example({"value": "12,5 psi"}, None, None, "", "Pressure: 0.8618 bar = 12.5 psi."),
    cautions=("A limit counts in the unit that the maker wrote it in: convert what you read, not the limit.",),
    version="1",
    work=work,
)
