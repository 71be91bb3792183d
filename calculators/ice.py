"""When does the first ice come, and how much a day? From the cold of the air and the size of a piece."""

from __future__ import annotations

from dataclasses import dataclass

from calculators._lib import conformity, freezing
from calculators._lib.amounts import Amount, Choice, Words
from calculators._lib.chart import Axis, Chart, Curve
from calculators._lib.declare import (
    Calculator, Example, Grid, Limits, Output, Quantity, Refusal, Result, Series, Source,
)  # fmt: skip
from calculators._lib.freezing import Shape
from calculators._lib.ice_form import INPUTS, SHAPES
from calculators._lib.sentence import limit_words
from calculators._lib.units import CELSIUS, ENERGY, HOUR, KILOGRAMS_A_DAY

TOO_LONG = 1.06
"""So many times as long as an exact solution is the time worked out here, at the most (source 3)."""
MELTING = -0.05
"""Air warmer than this is taken as air of 0 °C."""
WARMEST, COLDEST, STEPS = -2.0, -30.0, 28
"""The air between which the chart is drawn, and in how many steps."""
SHORT = 2.0
"""Hours under which a time is said in minutes."""
TALL = 2.0
"""The chart is so many times as high as the longest time that is likely."""

WIDE, HELD = "cannot tell", "never let go"
UNSURE = "How well the cold gets in is not known well enough to say."
MEANING = "It freezes, but such air never cools the ice to where it is let go."

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Batch:
    """One batch of pieces: metres, W/(m K), J/kg, and the least and the most of the film, W/(m2 K)."""

    size: float
    shape: Shape
    conductivity: float
    heat: float
    films: Span

    def span(self, air: float) -> Span:
        """The shortest and the longest time to freeze that is likely, in hours."""
        slow, fast = (
            freezing.plank(self.size, self.shape, air, film, self.conductivity, self.heat) / 3600
            for film in self.films
        )
        return fast / TOO_LONG, slow


def work(
    air: float,
    cycle: float | None,
    shape: float,
    thickness: float,
    width: float,
    length: float,
    film: float,
    film_pct: float,
    conductivity: float,
    water: float,
    release: float,
    harvest: float,
    now: float | None,
    ready: float,
    two_thirds: float,
    pieces: float,
    piece: float,
    power: float | None,
    limits: Limits,
) -> Result:
    """Say when the first ice comes. Raises Refusal where it never does."""
    if air > MELTING:
        raise Refusal("air", "Air round the ice: at 0 °C, or next to it, it never freezes.")
    held = release <= air
    if held and not _unlimited(limits):
        return Result(None, None, conformity.ABOVE, HELD)
    heat = freezing.heat_given_off(water, air / 2 if held else release)
    films = (film * (1 - film_pct / 100), film * (1 + film_pct / 100))
    batch = Batch(*_sized(int(shape), thickness, width, length), conductivity, heat, films)
    harvest /= 60
    lost = harvest + _wait(now, air, ready, two_thirds)
    span = batch.span(air)
    first = (span[0] + lost, span[1] + lost)
    value, half = sum(first) / 2, (first[1] - first[0]) / 2
    verdict, kind = _verdict(value, half, limits, held)
    mass = pieces * piece / 1e3
    turn = (span[0] + harvest, span[1] + harvest) if cycle is None else (cycle, cycle)
    daily = tuple(freezing.a_day_by_batches(mass, 60 * hours) for hours in reversed(turn))
    return Result(
        value,
        half,
        verdict,
        kind,
        sentence=_sentence(span, first, kind, limits),
        outputs=(
            *(() if held else (("first", _time(first, limits)), ("daily", _between(daily, KILOGRAMS_A_DAY)))),
            ("freezing", _time(span, limits)),
            ("energy", (Amount(mass * heat / 1e3, ENERGY),)),
            *(() if power is None else (("by_power", _by_power(power, heat)),)),
        ),
        notes=_notes(span, cycle, harvest),
        picture=_picture(batch, air, lost, limits, (value, half)),
    )


def _unlimited(limits: Limits) -> bool:
    return limits.low is None and limits.high is None


def _sized(shape: int, thickness: float, width: float, length: float) -> tuple[float, Shape]:
    """The size that counts, in metres, and the shape."""
    sides = sorted(side / 1e3 for side in (thickness, width, length))
    known = SHAPES[shape][1]
    return (sides[0], freezing.block(*sides)) if known is None else (thickness / 1e3, known)


def _wait(now: float | None, air: float, ready: float, two_thirds: float) -> float:
    try:
        return 0.0 if now is None else freezing.cooled_down(now, air, ready, two_thirds)
    except ValueError:
        raise Refusal("ready", "It fills from this air on: the air never gets so cold.") from None


def _verdict(value: float, half: float, limits: Limits, held: bool) -> tuple[str | None, str | None]:
    if _unlimited(limits):
        return None, HELD if held else None
    verdict = conformity.judge(value, half, limits.low, limits.high)
    return verdict, WIDE if verdict == conformity.CLOSE else None


def _between(span: Span, units: tuple[Choice, ...]) -> tuple[str | Amount, ...]:
    bare = tuple(Choice("", u.factor, u.offset, system=u.system) for u in units)
    least, most = Amount(span[0], bare, digits=2), Amount(span[1], units, digits=2)
    return (most,) if least.said() == Amount(span[1], bare, digits=2).said() else (least, " to ", most)


def _time(span: Span, limits: Limits) -> tuple[str | Amount, ...]:
    """In the unit of the limits, if there are any."""
    handy = HOUR if span[1] >= SHORT else HOUR[1:]
    return _between(span, handy if _unlimited(limits) else (limits.unit,))


def _sentence(span: Span, first: Span, kind: str | None, limits: Limits) -> Words:
    if kind == HELD:
        return ("It freezes in ", *_time(span, limits), ", but such air never cools the ice to where it is let go.")
    wanted = "" if _unlimited(limits) else f"; {limit_words(limits)} is wanted"
    return ("The first ice comes in ", *_time(first, limits), wanted, f". {UNSURE}" if kind == WIDE else ".")


def _by_power(power: float, heat: float) -> Words:
    return (Amount(freezing.a_day_by_power(power, heat), KILOGRAMS_A_DAY, digits=2),)


def _notes(span: Span, cycle: float | None, harvest: float) -> tuple[Words, ...]:
    if cycle is None or span[0] <= cycle - harvest <= span[1]:
        return ()
    when = "sooner" if cycle - harvest < span[0] else "later"
    look = "the air, the size of a piece, how well the cold gets in, or whether the pieces are hollow"
    return (f"The batches come {when} than such pieces freeze in such air. Look again at {look}.",)


def _picture(batch: Batch, air: float, lost: float, limits: Limits, point: Span) -> Chart:
    coldest, warmest = min(COLDEST, air), max(WARMEST, air)
    airs = [coldest + (warmest - coldest) * i / STEPS for i in range(STEPS + 1)]
    spans = [(a, *(t + lost for t in batch.span(a))) for a in airs]
    edges = [Curve(tuple((s[0], s[i]) for s in spans), "shortest and longest likely", "edge") for i in (1, 2)]
    tall = TALL * max(sum(point), limits.high or 0.0)
    first = _time((point[0] - point[1], point[0] + point[1]), limits)
    say: Words = (
        *("First ice against the air round it. At ", Amount(air, CELSIUS), " it takes "),
        *first,
        "; in warmer air longer, at the freezing point for ever.",
    )
    band = None if _unlimited(limits) else (limits.low, limits.high)
    words: Words = ("at ", Amount(air, CELSIUS), ": ", *first)
    x, y = Axis("Air", CELSIUS, coldest, warmest), Axis("First ice in", HOUR, 0.0, tall)
    return Chart(x, y, tuple(edges), say, band, (air, *point), words)


CALCULATOR = Calculator(
    id="ice",
    title="First ice",
    summary="Type how cold the air is where the ice is made. The answer: when the first ice comes, and how much a day.",
    judged=Quantity("First ice", HOUR, low=0.0, high=500.0),
    typed=("air", "now"),
    table=Grid(
        "first",
        Series("air", ("-12 °C", "-15 °C", "-18 °C", "-24 °C")),
        Series("thickness", ("15 mm", "20 mm", "30 mm")),
    ),
    inputs=INPUTS,
    outputs=(
        Output("first", "First ice"),
        Output("daily", "Ice a day, once it runs"),
        Output("freezing", "To freeze one batch"),
        Output("energy", "Heat out of one batch"),
        Output("by_power", "Ice a day that this cooling can make"),
    ),
    kinds=(
        (WIDE, UNSURE),
        (HELD, MEANING),
    ),
    formula=(
        "time to freeze = density × heat ÷ (0 °C − air) × (P × size ÷ film + R × size² ÷ conductivity)",
        "P and R: sheet cold on both faces 1/2 and 1/8; on one face 1 and 1/2; stick 1/4 and 1/16; ball 1/6 and 1/24",
        "heat = water cooled to 0 °C + freezing, 333.4 kJ/kg + ice cooled to where it is let go",
        "first ice = cooling of the air, two thirds of the way in each stretch + freezing + letting go",
        "ice a day = pieces × weight × 24 h ÷ (freezing + letting go); or cooling ÷ heat",
        "range: from the best film and 6 % less, to the poorest film",
    ),
    validity=(
        "Plank's formula with all of the heat in place of the freezing alone: 0 to 6 % longer than exact solutions.",
        "With the freezing alone, as it is mostly printed, it lies 1 to 7 % under the exact time for a sheet.",
        "Pieces that freeze through in air below 0 °C. Clear ice made under running water: only roughly.",
        "The tray's own heat, food put in warm, frost, and doors that open are not counted: all make it longer.",
    ),
    sources=(
        Source(1, "R. Plank 1913, 1941: time to freeze; P and R of sheet, stick and ball", "an encyclopaedia's text"),
        Source(2, "P and R of a block, as in refrigeration handbooks", "from memory; meets cube and sheet"),
        Source(3, "Solutions ring by ring of the heat equation with freezing", "worked out in the tests"),
        Source(4, "IAPWS-95 and R10-06: heat and density of water and ice", "computed with the package iapws"),
    ),
    example=Example({"air": "-18 °C"}, None, 6.0, "h", "The first ice comes in 0.87 to 1.9 h; at most 6 is wanted."),
    cautions=(
        "Throw the first batches away after a repair: they carry what was in the new parts.",
        "Fill a mould to nine tenths at most: water grows by an eleventh when it freezes.",
        "Good cold and still no ice: look at the fill, the fill tube and the thermostat before you wait longer.",
    ),
    version="1",
    work=work,
)
