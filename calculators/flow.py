"""How much water comes out of a line? Caught in a jug or bucket by the watch, or weighed."""

from __future__ import annotations

from collections.abc import Sequence

from calculators._lib import catching, conformity, student, uncertainty
from calculators._lib.amounts import Amount, Words
from calculators._lib.catching import Caught
from calculators._lib.declare import (
    MY_CATCH, Calculator, Example, Input, Limits, Output, Quantity, Refusal, Result, Source, Sweep, Typed,
)  # fmt: skip
from calculators._lib.units import CELSIUS, GRAM, LITRES_A_MINUTE, MILLILITRE, SECOND
from calculators._lib.words import number, percent

LITRE = 1000.0
UNEQUAL = 1.5
"""Catches whose volumes differ by more than this are said to be unequal."""
WIDENED = 1.25
"""From so much more than k = 2 on, it is said how wide few catches make the uncertainty."""


def work(
    volumes: Sequence[Typed] | None,
    times: Sequence[Typed],
    gross: Sequence[Typed] | None,
    tare: float | None,
    water_temperature: float,
    a_volume: float,
    a_time: float,
    a_mass: float,
    limits: Limits,
) -> Result:
    """Judge the flow of the catches. Raises Refusal where they lack volumes or times, or have two volumes."""
    millilitres = _volumes(volumes, gross, tare, water_temperature)
    seconds = [t.value for t in times]
    if len(millilitres) != len(seconds):
        raise Refusal("times", f"Time: {len(seconds)} typed for {len(millilitres)} catches. Each needs its own.")
    a = a_volume if gross is None else _of_scale(a_mass)
    found = catching.caught(millilitres, seconds, a, a_time)
    expanded = uncertainty.K * found.u
    verdict, kind = _verdict(found.mean, expanded, limits)
    return Result(
        found.mean,
        expanded,
        verdict,
        kind,
        _tell(found, uncertainty.mean(seconds), a, a_time, limits),
        outputs=_outputs(found, millilitres, gross is not None, limits),
        notes=_notes(found, millilitres, a, a_time),
        meter=_with(gross is not None, a_volume, a_time, a_mass),
    )


def _volumes(
    volumes: Sequence[Typed] | None, gross: Sequence[Typed] | None, tare: float | None, t: float
) -> list[float]:
    if volumes is not None:
        if gross is not None or tare is not None:
            raise Refusal("gross", "Weight, full: the jug is read already. Clear what it reads, or both weights.")
        return [v.value for v in volumes]
    if gross is None and tare is None:
        raise Refusal("volumes", "Water caught: nothing is typed yet. Read the jug, or weigh it full and empty.")
    if gross is None:
        raise Refusal("gross", "Weight, full: nothing is typed yet.")
    if tare is None:
        raise Refusal("tare", "Weight, empty: nothing is typed yet.")
    try:
        return [catching.weighed(g.value, tare, t) for g in gross]
    except ValueError:
        raise Refusal("gross", "Weight, full: it is less than the weight empty.") from None


def _of_scale(a_mass: float) -> float:
    """What full and empty, each off by so much, leave unknown of the volume; a gram is a millilitre here."""
    return uncertainty.combined(a_mass, a_mass)


def _verdict(q: float, expanded: float, limits: Limits) -> tuple[str | None, str | None]:
    if limits.low is None and limits.high is None:
        return None, None
    verdict = conformity.judge(q, expanded, limits.low or None, limits.high)
    if q == 0 and verdict == conformity.BELOW:
        return verdict, "nothing came"
    unable = verdict == conformity.CLOSE and conformity.cannot_pass(expanded, limits.low, limits.high)
    return verdict, "cannot tell" if unable else None


def _tell(found: Caught, seconds: float, a: float, a_time: float, limits: Limits) -> tuple[float | None, float | None]:
    def near(limit: float | None) -> float | None:
        if not limit:
            return None
        volume = limit * seconds / catching.LITRES_A_MINUTE
        shared = catching.shared(limit, volume, seconds, a, a_time)
        return uncertainty.K * uncertainty.combined(shared, found.scatter)

    return near(limits.low), near(limits.high)


def _outputs(
    found: Caught, millilitres: Sequence[float], is_weighed: bool, limits: Limits
) -> tuple[tuple[str, Words], ...]:
    out: list[tuple[str, Words]] = [
        ("flow", (Amount(found.mean, LITRES_A_MINUTE, uncertainty.K * found.u),)),
    ]
    if len(millilitres) > 1:
        out.append(("total", (Amount(found.total, LITRES_A_MINUTE),)))
    if is_weighed:
        out.append(("volume", (Amount(sum(millilitres), MILLILITRE, digits=4),)))
    if found.mean > 0:
        out.append(("litre", (Amount(catching.LITRES_A_MINUTE * LITRE / found.mean, SECOND),)))
    if limits.low or limits.high is not None:
        out.append(("chance", percent(conformity.p_conform(found.mean, found.u, limits.low or None, limits.high))))
    return tuple(out)


def _notes(found: Caught, millilitres: Sequence[float], a: float, a_time: float) -> tuple[Words, ...]:
    said: list[Words] = []
    n = len(millilitres)
    if n == 1:
        said.append("One catch only: catch twice more, to see whether somebody else draws water.")
    if n > 1 and found.scatter == 0:
        said.append("All catches read the same. The ± is what jug and watch can be off, the same in all of them.")
    if min(millilitres) * UNEQUAL < max(millilitres):
        said.append(
            (
                "The catches are of unequal size: the mean of their flows counts. Over the whole time it was ",
                Amount(found.total, LITRES_A_MINUTE),
                ".",
            )
        )
    said += _scattered(found, n)
    if not a or not a_time:
        said.append("Jug or watch is counted as without error. None is.")
    return tuple(said)


def _scattered(found: Caught, n: int) -> list[Words]:
    said: list[Words] = []
    if found.scatter > found.shared:
        said.append("The catches differ by more than jug and watch explain: see that nobody draws water, catch again.")
    k = student.coverage(student.freedom(found.u, found.scatter, n)) if found.scatter else uncertainty.K
    if k > WIDENED * uncertainty.K:
        wide = Amount(found.mean, LITRES_A_MINUTE, k * found.u)
        said.append(("So few catches hardly say how much they scatter: it may be as wide as ", wide, ". Catch more."))
    return said


def _with(is_weighed: bool, a_volume: float, a_time: float, a_mass: float) -> str:
    """What was caught with, as it is said.

    >>> _with(False, 10.0, 0.3, 2.0)
    'jug ± 10 mL, watch ± 0.3 s'
    """
    container = f"scale ± {number(a_mass)} g" if is_weighed else f"jug ± {number(a_volume)} mL"
    return f"{container}, watch ± {number(a_time)} s"


CALCULATOR = Calculator(
    id="flow",
    title="Flow by catching",
    summary="Catch the water and time it. The answer: how much comes, and is it enough?",
    judged=Quantity("Flow", LITRES_A_MINUTE, low=0.0, high=1e5),
    typed=("volumes", "times"),
    table=Sweep("times", finest=0.1, top=86_400.0),
    inputs=(
        Input(
            "volumes",
            "Water caught",
            MILLILITRE,
            low=0.0,
            high=1e6,
            below="Less than no water cannot be caught.",
            required=False,
            many=True,
            hint="What the jug shows, read at the lowest point of the surface, on a level floor.",
        ),
        Input(
            "times",
            "Time",
            SECOND,
            low=0.5,
            high=86_400.0,
            below="No hand starts and stops a watch so fast.",
            many=True,
            given=False,
            hint="From the first water in the jug to the last.",
        ),
        Input(
            "gross",
            "Weight, full",
            GRAM,
            low=0.0,
            high=1e6,
            required=False,
            many=True,
            row="weights",
            given=False,
            hint="In place of reading the jug: each catch, parted by ; if there are more.",
        ),
        Input("tare", "Weight, empty", GRAM, low=0.0, high=1e6, required=False, given=False, hint="Drained, not dry."),
        Input(
            "water_temperature",
            "Temperature of the water",
            CELSIUS,
            low=0.0,
            high=100.0,
            default="15",
            hint="Only counts where the jug is weighed: hot water is lighter.",
        ),
        Input(
            "a_volume",
            "Jug, can be off by",
            MILLILITRE,
            low=0.0,
            high=1e5,
            default="10",
            keep=MY_CATCH,
            hint="No less than half of the step between two marks. A plain litre jug: 10 mL (common practice).",
        ),
        Input(
            "a_time",
            "Watch and hand, off by",
            SECOND,
            low=0.0,
            high=60.0,
            default="0.3",
            keep=MY_CATCH,
            hint="Starting and stopping together. One pair of hands: 0.3 s (common practice).",
        ),
        Input(
            "a_mass",
            "Scale, off by",
            GRAM,
            low=0.0,
            high=1e5,
            default="2",
            keep=MY_CATCH,
            hint="In one weighing. A kitchen scale: 2 g (common practice).",
        ),
    ),
    outputs=(
        Output("flow", "Flow"),
        Output("total", "All the water over all the time"),
        Output("volume", "Water by weight"),
        Output("litre", "Time for a litre"),
        Output("chance", "Chance that the flow is in its limits"),
    ),
    kinds=(
        ("nothing came", "Nothing came out: shut, frozen or blocked."),
        ("cannot tell", "This jug and watch cannot tell: their own error is wider than half the band."),
    ),
    formula=(
        "Q = 0.06 × volume ÷ time for each catch (mL, s, L/min); the mean of the catches counts",
        "weighed: volume = (full − empty) ÷ density of water at its temperature",
        "scatter of the mean u_s = s ÷ √n; a single catch has none to show",
        "jug and watch u_j² = (Q ÷ √3)² × ((off by ÷ mean volume)² + (off by ÷ mean time)²), not divided by n",
        "U = 2 √(u_s² + u_j²). In limits only if all of Q ± U is inside; out only if all of it is outside.",
    ),
    validity=(
        "Cold or hot water without air in it, at the end of an open line, at the flow that comes of itself.",
        "Catches of about one size: their mean volume and mean time stand for all in what jug and watch can be off.",
        "Two or three catches that differ say little of their scatter; the note then says how wide U may be.",
        "Weighed: 0 to 100 °C; the lift of the air, 0.1 %, is left out.",
    ),
    sources=(
        Source(1, "JCGM 100 (GUM), 4.2, 4.3.7, 5.1.2, G.4.1: uncertainty", "from memory, recomputed"),
        Source(2, "JCGM 106, 7 and 8, and ILAC-G8:09/2019, 4.2.3: guard band w = U", "from memory, recomputed"),
        Source(3, "IAPWS-95: density of water", "a published library's values"),
        Source(4, "What jug, scale and watch can be off by", "common practice, no source"),
    ),
    example=Example({"volumes": "1000", "times": "28.4"}, 1.9, None, "L/min", "2.11 ± 0.04 L/min is at least 1.9."),
    cautions=(
        "Power proved off first: the tube whips and sprays, and water and mains meet.",
        "Hold only the tube and the jug. Start with the tube's end low in a bucket.",
        "Let it run until the air is out, then move the end into the jug and start the watch.",
        "The longer the catch, the smaller the ±: half a minute is better than ten seconds.",
        "Nobody else draws water meanwhile: no tap, no other machine.",
        "The flow at the open end is more than what comes through the machine's own valve.",
    ),
    version="1",
    work=work,
)
