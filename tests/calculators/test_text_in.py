"""Numbers from a wet hand."""

from __future__ import annotations

from math import inf

import pytest

from calculators import coil
from calculators._lib.declare import Input, Refusal
from calculators._lib.text_in import pick, read
from calculators._lib.units import BORE, LENGTH

READING = coil.CALCULATOR.reading
PERCENT = coil.CALCULATOR.input("meter_pct")
TEMPERATURE = coil.CALCULATOR.input("coil_temperature")
BORE_FIELD = Input("bore", "Bore", BORE)
MATERIAL = coil.CALCULATOR.input("material")

UNDERSTOOD = {
    "312": (312.0, 1.0),
    " 312.40 ": (312.4, 0.01),
    "+312": (312.0, 1.0),
    "12,5": (12.5, 0.1),
    "12,50": (12.5, 0.01),
    "0,500": (0.5, 0.001),
    "1200,5": (1200.5, 0.1),
    "1.200": (1.2, 0.001),
    "1,200.5": (1200.5, 0.1),
    "1.200,5": (1200.5, 0.1),
    "1,234,567": (1234567.0, 1.0),
    "1'200": (1200.0, 1.0),
    ".5": (0.5, 0.1),
    "5.": (5.0, 1.0),
    "2.0k": (2000.0, 100.0),
    "2 kΩ": (2000.0, 1000.0),
    "1.2M": (1.2e6, 1e5),
    "1.2e3": (1200.0, 100.0),
    "312 ohm": (312.0, 1.0),
    "312\u2126": (312.0, 1.0),
    "３１２": (312.0, 1.0),
    "3１２．５": (312.5, 0.1),
    "312\u00a0Ω": (312.0, 1.0),
    "0": (0.0, 1.0),
}
OPEN = ("OL", "ol", "O.L", "0.L", "0L", ".OL", "O.L MΩ", "open", "Open", "inf", "∞", "+OL", "overload", "OFL")
REFUSED = {
    "": "nothing is typed yet",
    " \u00a0\t": "nothing is typed yet",
    "nan": "not a number",
    "abc": "not a number",
    "-inf": "not a number",
    "-OL": "not a number",
    "--5": "not a number",
    "3l2": "Did you mean 312",
    "O.5": "Did you mean 0.5",
    "1,200": "two ways",
    "-1,200": "two ways",
    "1,2,3": "not a number",
    "1,20,000": "not a number",
    "1.2.3": "not a number",
    "1,200.500.3": "not a number",
    "1 200": "without a space",
    "12.5 psi": "ohm, kohm or Mohm",
    "1.2m": "ohm, kohm or Mohm",
    "2k2": "ohm, kohm or Mohm",
    "1e300": "not a value that can be measured",
    "1e-300": "not a value that can be measured",
    "1e999": "not a value that can be measured",
    "-1": "voltage on the wires",
    "−1": "voltage on the wires",
    "2e9": "more than 1\u202f000\u202f000\u202f000 ohm",
    "٣١٢": "not a number",
    "9" * 41: "too long",
    "=312": "not a number",
    "312 ± 4": "not understood",
}


@pytest.mark.parametrize("text", UNDERSTOOD)
def test_a_number_is_understood_with_the_worth_of_its_last_digit(text: str) -> None:
    typed = read(text, READING)
    assert (typed.value, typed.digit) == pytest.approx(UNDERSTOOD[text], rel=1e-12)


@pytest.mark.parametrize("text", OPEN)
def test_the_words_of_a_meter_for_no_end_of_ohms_are_understood(text: str) -> None:
    assert read(text, READING).value == inf


@pytest.mark.parametrize("text", OPEN)
def test_open_is_understood_for_a_reading_alone(text: str) -> None:
    with pytest.raises(Refusal, match="^Meter, percent of reading: "):
        read(text, PERCENT)


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_not_understood_is_refused_and_the_message_names_the_field(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        read(text, READING)
    assert refused.value.field == "readings"
    assert refused.value.message.startswith("Coil reading: ")
    assert REFUSED[text] in refused.value.message


def test_a_temperature_may_be_typed_in_another_scale() -> None:
    assert read("212 °F", TEMPERATURE).value == pytest.approx(100.0)
    assert read("-4F", TEMPERATURE).value == pytest.approx(-20.0)
    assert read("−5", TEMPERATURE).value == -5.0


@pytest.mark.parametrize(
    ("text", "millimetres", "digit"),
    [
        ("3/8 in", 9.525, 3.175),
        ('3/8"', 9.525, 3.175),
        ("3⁄8 ″", 9.525, 3.175),
        ("1 1/2 in", 38.1, 12.7),
        ("1-1/2 inch", 38.1, 12.7),
        ("½ in", 12.7, 12.7),
        ("1½”", 38.1, 12.7),
        ("5/64''", 1.984375, 25.4 / 64),
        ("0,25 in", 6.35, 0.254),
        ("6.35", 6.35, 0.01),
    ],
)
def test_a_bore_may_be_typed_as_it_is_stamped(text: str, millimetres: float, digit: float) -> None:
    typed = read(text, BORE_FIELD)
    assert (typed.value, typed.digit) == pytest.approx((millimetres, digit))


@pytest.mark.parametrize(
    ("text", "to", "hint"),
    [
        ("3/8", BORE_FIELD, "Type “3/8 in” if that is meant."),
        ("½", BORE_FIELD, "Type “1/2 in” if that is meant."),
        ("3/8 mm", BORE_FIELD, "Type a decimal number."),
        ("9/8 in", BORE_FIELD, "Type a decimal number."),
        ("3/8 psi", BORE_FIELD, "Type a decimal number."),
        ("3/8", READING, "Type a decimal number."),
        ("1/2 k", READING, "Type a decimal number."),
        ("1/2", PERCENT, "Type a decimal number."),
        ("1/7 in", BORE_FIELD, "mm, in"),
        ("3/0 in", BORE_FIELD, "mm, in"),
        ("1/21 in", BORE_FIELD, "mm, in"),
        ("1/2/3 in", BORE_FIELD, "Type a decimal number."),
        ("120/240", READING, "not understood"),
    ],
)
def test_a_fraction_belongs_to_an_inch_and_its_like_alone(text: str, to: Input, hint: str) -> None:
    with pytest.raises(Refusal) as refused:
        read(text, to)
    assert hint in refused.value.message


@pytest.mark.parametrize("text", ["5'", "5 ft", "5 feet", "60 in", '60"'])
def test_marks_for_feet_and_inches_are_units(text: str) -> None:
    assert read(text, Input("height", "Height", LENGTH)).value == pytest.approx(1.524)


def test_a_bare_number_is_in_the_unit_asked_for() -> None:
    kohm = READING.units[1]
    assert read("1.20", READING, kohm).value == 1200.0
    assert read("312 ohm", READING, kohm).value == 312.0


def test_a_word_is_picked_or_refused() -> None:
    assert pick("Copper ", MATERIAL) == 234.5
    with pytest.raises(Refusal, match="^Wire of the winding: pick copper or aluminium.$"):
        pick("silver", MATERIAL)
