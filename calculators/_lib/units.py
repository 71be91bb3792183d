"""Units that more than one calculator takes; the first of each is the base unit.

Factors are exact by definition: inch 25.4 mm, pound 0.45359237 kg, US gallon 231 cubic inches, UK gallon
4.54609 L, standard gravity 9.80665 m/s2, British thermal unit of the International Table 1055.05585262 J
(NIST SP 811, appendix B, from memory; compared with the package pint in the tests).

Pressures are gauge pressures, over that of the air, as a gauge on a pipe reads them; only
`ABSOLUTE` counts from the vacuum. A temperature and a step between two temperatures are
kinds of their own, because only the first has another zero in another scale.
"""

from __future__ import annotations

from calculators._lib.amounts import METRIC, US, Choice

INCH, FOOT = 0.0254, 0.3048
POUND, OUNCE = 453.59237, 28.349523125
GALLON, UK_GALLON = 3.785411784, 4.54609
FLUID_OUNCE = 1000 * GALLON / 128
PSI = POUND * 9.80665 / INCH**2 / 1e6
"""One pound-force a square inch, in kPa."""
ATMOSPHERE = 101.325
"""The standard atmosphere, in kPa."""
BTU = 1055.05585262
DAY = 1440.0
"""Minutes."""

OHM = (
    Choice("ohm", also=("ohms", "Ohm", "Ohms", "OHM", "Ω", "R")),
    Choice("kohm", 1e3, also=("k", "K", "kΩ", "KΩ", "kOhm", "kohms", "kilohm", "kilohms")),
    Choice("Mohm", 1e6, also=("M", "MΩ", "MOhm", "Mohms", "megohm", "megohms")),
)
VOLT = (Choice("V", also=("v", "volt", "volts", "Volt")), Choice("mV", 1e-3), Choice("kV", 1e3))
AMPERE = (Choice("A", also=("a", "amp", "amps", "Amp", "ampere")), Choice("mA", 1e-3, also=("ma",)))
POWER = (
    Choice("W", also=("w", "watt", "watts", "Watt")),
    Choice("kW", 1e3, also=("kw", "KW")),
    Choice("BTU/h", BTU / 3600, also=("Btu/h", "btu/h", "BTU/hr", "BTUH")),
)
ENERGY = (
    Choice("kJ", also=("kj", "KJ")),
    Choice("J", 1e-3),
    Choice("Wh", 3.6, also=("wh",)),
    Choice("kWh", 3600.0, also=("kwh", "KWh")),
    Choice("BTU", BTU / 1e3, also=("Btu", "btu")),
)
CELSIUS = (
    Choice("°C", also=("C", "degC", "ºC", "deg C", "celsius"), system=METRIC),
    Choice("°F", 5 / 9, -160 / 9, also=("F", "degF", "ºF", "deg F", "fahrenheit"), system=US),
)
KELVIN_STEP = (
    Choice("°C", also=("K", "C", "degC", "ºC"), system=METRIC),
    Choice("°F", 5 / 9, also=("F", "degF", "ºF"), system=US),
)
"""A step or a tolerance, never a temperature: 18 °F are 10 °C of it."""
LITRES_A_MINUTE = (
    Choice("L/min", also=("l/min", "L/MIN", "lpm", "LPM", "l/m", "L/m", "litres/min", "liters/min"), system=METRIC),
    Choice(
        "gal/min", GALLON, also=("gpm", "GPM", "Gpm", "US gal/min", "US gpm", "gallon/min", "gallons/min"), system=US
    ),
    Choice("mL/s", 0.06, also=("ml/s", "cc/s")),
    Choice("mL/min", 1e-3, also=("ml/min", "cc/min")),
    Choice("L/h", 1 / 60, also=("l/h", "L/hr", "l/hr")),
    Choice("L/day", 1 / DAY, also=("l/day", "L/d", "l/d")),
    Choice("m³/h", 1000 / 60, also=("m3/h", "m^3/h", "cbm/h")),
    Choice("UK gal/min", UK_GALLON, also=("UK gpm", "imp gal/min", "Imp gpm")),
)
LITRES_A_DAY = (
    Choice("L/day", also=("l/day", "L/d", "l/d"), system=METRIC),
    Choice("gal/day", GALLON, also=("gpd", "GPD", "US gal/day"), system=US),
)
MILLILITRE = (
    Choice("mL", also=("ml", "cc", "cm³", "cm3"), system=METRIC),
    Choice("US fl oz", FLUID_OUNCE, also=("fl oz", "floz", "fl. oz", "oz"), system=US),
    Choice("L", 1e3, also=("l", "litre", "liter", "litres", "liters")),
    Choice("US qt", 250 * GALLON, also=("qt", "quart", "quarts")),
    Choice("US gal", 1e3 * GALLON, also=("gal", "gallon", "gallons")),
    Choice("UK gal", 1e3 * UK_GALLON, also=("imp gal", "Imp gal", "UK gallon", "UK gallons")),
)
SECOND = (
    Choice("s", also=("sec", "secs", "S", "second", "seconds")),
    Choice("min", 60.0, also=("mins", "minute", "minutes")),
    Choice("h", 3600.0, also=("hr", "hrs", "hour", "hours")),
)
HOUR = (Choice("h", also=SECOND[2].also), Choice("min", 1 / 60, also=SECOND[1].also))
MINUTE = (Choice("min", also=SECOND[1].also), Choice("h", 60.0, also=SECOND[2].also))
PRESSURE = (
    Choice("kPa", also=("kpa", "KPA", "KPa", "Kpa")),
    Choice("bar", 100.0, also=("Bar", "BAR", "bars", "barg", "bar g"), system=METRIC),
    Choice("psi", PSI, also=("PSI", "Psi", "psig", "PSIG", "psi g", "lb/in²", "lb/in2"), system=US),
    Choice("MPa", 1e3, also=("mpa", "MPA")),
    Choice("mbar", 0.1, also=("millibar", "hPa")),
    Choice("atm", ATMOSPHERE),
    Choice("m water", 9.80665, also=("mH2O", "m H2O", "mWC")),
    Choice("ft water", 9.80665 * FOOT, also=("ftH2O", "ft H2O", "ft head")),
)
ABSOLUTE = (
    Choice("kPa abs", also=("kPa a", "kPaa", "kPa absolute")),
    Choice("bar abs", 100.0, also=("bar a", "bara", "bar absolute"), system=METRIC),
    Choice("psi abs", PSI, also=("psi a", "psia", "PSIA", "psi absolute"), system=US),
)
"""Counted from the vacuum: gauge pressure and one atmosphere."""
INCHES = ("in.", "inch", "inches", "Inch", "IN", '"', "″", "”", "''")
LENGTH = (
    Choice("m", also=("metre", "meter", "metres", "meters"), system=METRIC),
    Choice("ft", FOOT, also=("foot", "feet", "FT", "'", "′"), system=US),
    Choice("cm", 0.01, also=("CM",)),
    Choice("mm", 1e-3, also=("MM",)),
    Choice("in", INCH, also=INCHES, system=US),
)
BORE = (
    Choice("mm", also=("MM",), system=METRIC),
    Choice("in", 1e3 * INCH, also=INCHES, system=US),
    Choice("cm", 10.0, also=("CM",)),
    Choice("m", 1e3),
    Choice("mil", INCH, also=("mils", "thou")),
)
ALTITUDE = LENGTH[:2]
GRAM = (
    Choice("g", also=("G", "gram", "grams"), system=METRIC),
    Choice("oz", OUNCE, also=("OZ", "ounce", "ounces"), system=US),
    Choice("kg", 1e3, also=("KG", "Kg", "kilo", "kilos")),
    Choice("lb", POUND, also=("lbs", "LB", "LBS", "pound", "pounds"), system=US),
)
KILOGRAM = (
    Choice("kg", also=GRAM[2].also, system=METRIC),
    Choice("lb", POUND / 1e3, also=GRAM[3].also, system=US),
    Choice("g", 1e-3, also=GRAM[0].also),
    Choice("oz", OUNCE / 1e3, also=GRAM[1].also),
)
KILOGRAMS_A_DAY = (
    Choice("kg/day", also=("kg/d",), system=METRIC),
    Choice("lb/day", POUND / 1e3, also=("lbs/day", "lb/d"), system=US),
)
HEAT_TRANSFER = (
    Choice("W/m²K", also=("W/m2K", "W/(m²K)", "W/(m2K)", "W/m²·K")),
    Choice("BTU/h ft² °F", BTU / 3600 / FOOT**2 * 1.8, also=("BTU/(h ft2 F)", "BTU/h ft2 F"), system=US),
)
CONDUCTIVITY = (
    Choice("W/mK", also=("W/(mK)", "W/m K", "W/m·K")),
    Choice("BTU/h ft °F", BTU / 3600 / FOOT * 1.8, also=("BTU/(h ft F)", "BTU/h ft F"), system=US),
)
PERCENT = (Choice("%", also=("percent", "pct", "per cent")),)


def absolute(gauge: float) -> float:
    """The absolute pressure, in kPa, that a gauge in standard air shows as so many kPa.

    >>> absolute(0.0)
    101.325
    """
    return gauge + ATMOSPHERE
