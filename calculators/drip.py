"""How much water does a leak lose in a day? From drips counted, or from what was caught in a time."""

from __future__ import annotations

from calculators._lib import conformity, dripping, uncertainty
from calculators._lib.amounts import Amount, Choice, Words
from calculators._lib.declare import (
    Calculator, Example, Grid, Input, Limits, Output, Quantity, Refusal, Result, Series, Source,
)  # fmt: skip
from calculators._lib.units import BORE, LITRES_A_DAY, MILLILITRE, SECOND
from calculators._lib.words import number

FEW = 20.0
"""Fewer drips than this say little: count longer (common practice, no source)."""
TAP_CELSIUS = 15.0
"""A drop of cold water; a hot one is a tenth smaller."""
CUBIC_METRES = (Choice("m³ a year"),)
DROP = (Choice("mL", also=("ml", "cc")),)
"""What a drop is said in by every reader: there is no US word for it."""


def work(
    drips: float | None,
    seconds: float,
    drop: float,
    drop_give: float,
    caught: float | None,
    caught_time: float | None,
    outlet: float | None,
    a_volume: float,
    a_time: float,
    limits: Limits,
) -> Result:
    """Judge the litres a day. Raises Refusal where neither drips nor a catch are typed, or half a catch."""
    found = _caught(caught, caught_time, a_volume, a_time)
    value, u = found or _counted(drips, seconds, drop, drop_give)
    rate = (drips or 0.0) * dripping.MINUTE / seconds
    ends = _ends(rate, drop, drop_give) if rate and not found else None
    verdict, kind = _verdict(value, uncertainty.K * u, limits)
    return Result(
        value,
        uncertainty.K * u,
        verdict,
        kind,
        sentence="" if verdict else _sentence(value, uncertainty.K * u, ends),
        outputs=_outputs(value, rate, ends, outlet),
        notes=() if found else _notes(drips, drop, drop_give),
        meter=_with(drop, drop_give) if found is None else f"jug ± {number(a_volume)} mL, watch ± {number(a_time)} s",
    )


def _ends(rate: float, drop: float, give: float) -> tuple[Amount, Amount]:
    least, most = (dripping.litres_a_day(rate, d) for d in (max(drop - give, 0.0), drop + give))
    return Amount(least, LITRES_A_DAY, digits=2), Amount(most, LITRES_A_DAY, digits=2)


def _caught(volume: float | None, seconds: float | None, a_volume: float, a_time: float) -> tuple[float, float] | None:
    """Litres a day of a leak that was caught, and their standard uncertainty."""
    if volume is None and seconds is None:
        return None
    if volume is None or seconds is None:
        name, label = ("caught", "Water caught") if volume is None else ("caught_time", "Caught for")
        raise Refusal(name, f"{label}: nothing is typed yet. A catch needs volume and time.")
    value = dripping.caught_a_day(volume, seconds)
    by_volume = dripping.caught_a_day(uncertainty.rectangular(a_volume), seconds)
    return value, uncertainty.combined(by_volume, value * uncertainty.rectangular(a_time) / seconds)


def _counted(drips: float | None, seconds: float, drop: float, give: float) -> tuple[float, float]:
    """Litres a day by the count, and their standard uncertainty."""
    if drips is None:
        raise Refusal("drips", "Leak counted: nothing is typed yet. Count its drips, or catch it.")
    one = dripping.litres_a_day(dripping.MINUTE / seconds, drop)
    by_count = one * max(drips, 1.0) * dripping.share_of_count(drips)
    return one * drips, uncertainty.combined(by_count, one * drips * uncertainty.rectangular(give / drop))


def _verdict(value: float, expanded: float, limits: Limits) -> tuple[str | None, str | None]:
    if limits.low is None and limits.high is None:
        return None, None
    verdict = conformity.judge(value, expanded, limits.low or None, limits.high)
    return verdict, "cannot tell" if verdict == conformity.CLOSE else None


def _sentence(value: float, expanded: float, ends: tuple[Amount, Amount] | None) -> Words:
    if ends is None:
        return (Amount(value, LITRES_A_DAY, expanded), " is lost.")
    return ("About ", Amount(value, LITRES_A_DAY, digits=2), ": ", ends[0], " to ", ends[1], " by the size of a drop.")


def _outputs(
    value: float, rate: float, ends: tuple[Amount, Amount] | None, outlet: float | None
) -> tuple[tuple[str, Words], ...]:
    out: list[tuple[str, Words]] = [("day", (Amount(value, LITRES_A_DAY),))]
    out.append(("year", (Amount(value * dripping.DAYS / 1e3, CUBIC_METRES),)))
    if ends:
        out.append(("spread", (ends[0], " to ", ends[1])))
    if rate and not ends:
        out.append(("drop", (Amount(dripping.drop_of(value, rate), DROP, digits=2),)))
    if outlet is not None:
        most = dripping.tate_drop(outlet / 2e3, TAP_CELSIUS)
        least = Amount(dripping.REAL_SHARE * most, DROP, digits=2)
        out.append(("hanging", (least, " to ", Amount(most, DROP, digits=2))))
    return tuple(out)


def _notes(drips: float, drop: float, give: float) -> tuple[Words, ...]:
    said = []
    if drips < FEW:
        said.append("So few drips say little: count for longer.")
    if give >= drop:
        said.append("The drop is not known at all: count 20 drops into a small measure, or catch the leak.")
    return tuple(said)


def _with(drop: float, give: float) -> str:
    """What was counted with, as it is said.

    >>> _with(0.19, 0.14)
    'a drop of 0.19 ± 0.14 mL'
    """
    return f"a drop of {number(drop)} ± {number(give)} mL"


CALCULATOR = Calculator(
    id="drip",
    title="Drips to litres a day",
    summary="Count the drips, or catch the leak for a while. The answer: how much is lost in a day.",
    judged=Quantity("Leak", LITRES_A_DAY, low=0.0, high=1e6),
    typed=("drips",),
    table=Grid(
        "day",
        Series("drips", ("1", "5", "10", "30", "60", "120")),
        Series("drop", ("0.05 mL", "0.1 mL", "0.25 mL", "0.33 mL")),
    ),
    inputs=(
        Input(
            "drips",
            "Leak counted",
            (Choice("drips", also=("drip", "drops", "drop")),),
            low=0.0,
            high=10_000.0,
            below="Count what falls.",
            required=False,
            given=False,
            hint="Until it is a stream: then catch it.",
        ),
        Input(
            "seconds",
            "Counted for",
            SECOND,
            low=1.0,
            high=86_400.0,
            default="60",
            hint="A minute; longer where less than twenty fall.",
        ),
        Input(
            "drop",
            "Volume of a drop",
            DROP,
            low=0.001,
            high=5.0,
            below="No drop of water is so small.",
            default="0.19",
            hint="Published: 0.05 to 0.33 mL, six times apart; it depends on the outlet. Count 20 into a small measure.",
        ),
        Input(
            "drop_give",
            "Drop, give or take",
            DROP,
            low=0.0,
            high=5.0,
            default="0.14",
            hint="As it stands, it spans what is published. Measured: what the measure can be off by, over 20.",
        ),
        Input(
            "caught",
            "Water caught",
            MILLILITRE,
            low=0.0,
            high=1e6,
            required=False,
            given=False,
            hint="Better than counting: a cup under it for an hour. It counts in place of the drips.",
        ),
        Input(
            "caught_time",
            "Caught for",
            SECOND,
            low=1.0,
            high=604_800.0,
            below="Catch it for longer.",
            required=False,
            given=False,
            hint="An hour: 1 h.",
        ),
        Input(
            "outlet",
            "Outlet it hangs on, across",
            BORE,
            low=0.1,
            high=10.0,
            required=False,
            hint="Outside, where the drop hangs, to 10 mm. Says how large a drop of cold water can be.",
        ),
        Input(
            "a_volume",
            "Measure, can be off by",
            MILLILITRE,
            low=0.0,
            high=1e5,
            default="10",
            hint="Only counts where the leak is caught. A plain litre jug: 10 mL (common practice).",
        ),
        Input(
            "a_time",
            "Watch and hand, off by",
            SECOND,
            low=0.0,
            high=60.0,
            default="0.3",
            hint="Only counts where the leak is caught. One pair of hands: 0.3 s (common practice).",
        ),
    ),
    outputs=(
        Output("day", "Water lost"),
        Output("year", "In a year"),
        Output("spread", "By the size of a drop"),
        Output("drop", "A drop of this leak"),
        Output("hanging", "A drop of such an outlet"),
    ),
    kinds=(("cannot tell", "Drips cannot tell: catch the leak in a measure, and time it."),),
    formula=(
        "litres a day = 1.44 × drips a minute × volume of a drop (mL)",
        "caught: litres a day = 86.4 × volume ÷ time (mL, s)",
        "relative u² = 1 ÷ drips + (give or take ÷ (√3 × drop))²; caught: off by ÷ √3 of jug and watch",
        "U = 2 u. In limits only if all of it ± U is inside; out only if all of it is outside.",
        "largest drop = 2 π × radius × surface tension ÷ (density × g); what falls is 0.55 to 1 of it",
    ),
    validity=(
        "Drips that fall one by one; a stream is caught.",
        "Drips that come unevenly scatter by the root of their number; even ones scatter less than is counted here.",
        "A drop is 0.05 mL to 0.33 mL in what is published; without a measure, the answer spans a factor of six.",
        "The largest drop: cold clean water on an outlet up to 10 mm across that it wets to its edge.",
    ),
    sources=(
        Source(1, "20 drops a millilitre: pharmacy", "from memory"),
        Source(2, "US Geological Survey: 4000 drips a litre; an older page: 3000", "quoted; a stored copy"),
        Source(3, "Tate's law with the share that falls after Harkins and Brown", "from memory"),
        Source(4, "IAPWS-95 and IAPWS R1-76: density and surface tension of water", "a published library's values"),
        Source(5, "JCGM 100 (GUM), 4.3.7, 5.1.2: uncertainty", "from memory, recomputed"),
    ),
    example=Example(
        {"drips": "30"},
        None,
        None,
        "L/day",
        "About 8.2 L/day: 2.2 L/day to 14 L/day by the size of a drop.",
    ),
    cautions=(
        "Look only: where water drips on or near wires, plugs or outlets, stay away and cut the power at the breaker.",
        "A drip does not stay a drip: a joint that drips is mended, however little it is.",
        "Put the cup where it cannot tip over, and look when it will be full.",
        "Somebody who draws water changes the drip: count while nobody does.",
    ),
    version="1",
    work=work,
)
