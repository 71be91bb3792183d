"""What is said of a valve: the flow through it, its factor by what was caught, notes, the chart. kPa and L/min."""

from __future__ import annotations

from dataclasses import dataclass

from calculators._lib import valve, water
from calculators._lib.amounts import Amount, Choice, Words
from calculators._lib.chart import Chart, Curve
from calculators._lib.scale import Axis
from calculators._lib.uncertainty import K, combined, rectangular
from calculators._lib.units import LITRES_A_MINUTE, PRESSURE
from calculators._lib.words import give_or_take, number

FACTOR = (Choice("Kv", also=("kv", "KV")), Choice("Cv", valve.KV_OF_CV, also=("cv", "CV"), system="US"))
"""Both are in use everywhere: a maker gives one or the other."""
LPM, KPA = 1000 / 60, 1e3
"""A cubic metre an hour in L/min; a kilopascal in pascals."""
POINTS = 16
KINDS = {
    "choked": "The water boils in the seat: more drop gives no more flow, and wears the valve.",
    "nothing came": "Nothing came: shut, stuck or blocked.",
    "lost": "It lets less through than it should: strainer, scale, or it does not open fully.",
    "more": "More than such a valve lets through: look at pressures and factor again.",
    "as expected": "About what such a valve lets through.",
}


@dataclass(frozen=True, slots=True)
class Passed:
    """A valve with water in it: gauge pressures kPa, degrees Celsius, Kv, L/min."""

    before: float
    after: float
    temperature: float
    recovery: float
    rated: float | None
    flow: float | None
    off: float
    """What the flow can be off by, as a share."""
    gauge: float

    @property
    def choked_at(self) -> float:
        """The drop from which on no more flows."""
        vapour = water.vapour_pressure(self.temperature)
        return valve.choked_drop(self.before * KPA + water.ATMOSPHERE, vapour, self.recovery) / KPA

    @property
    def drop(self) -> float:
        """The drop that counts."""
        return min(self.before - self.after, self.choked_at)

    @property
    def u_drop(self) -> float:
        """Standard uncertainty of the root of the drop, as a share: half of the drop's own.

        Where it runs out into the open nothing was read after it.
        """
        read = combined(rectangular(self.gauge), rectangular(self.gauge) if self.after else 0.0)
        return read / (2 * (self.before - self.after))

    def passes(self, kv: float, drop: float | None = None) -> float:
        """What a valve of that factor lets through, L/min."""
        counts = self.drop if drop is None else min(drop, self.choked_at)
        return valve.flow_of(kv, counts * KPA, water.density(self.temperature)) * LPM

    @property
    def kv(self) -> float | None:
        """The factor that the caught flow shows."""
        if self.flow is None:
            return None
        return valve.kv_of(self.flow / LPM, self.drop * KPA, water.density(self.temperature))

    @property
    def wide(self) -> float:
        """Expanded uncertainty of that factor, as a share."""
        return K * combined(self.u_drop, rectangular(self.off))


def share(passed: Passed) -> tuple[float | None, float | None]:
    """The factor found over the rated one, in percent, with its expanded uncertainty."""
    if passed.kv is None or passed.rated is None:
        return None, None
    part = 100 * passed.kv / passed.rated
    return part, part * passed.wide


def kind(passed: Passed, part: float | None, wide: float | None) -> str | None:
    """A name from KINDS, where there is something to say."""
    if passed.flow == 0:
        return "nothing came"
    if part is not None and part + wide < 100:
        return "lost"
    if part is not None and part - wide > 100:
        return "more"
    if passed.before - passed.after >= passed.choked_at:
        return "choked"
    return None if part is None else "as expected"


def sentence(passed: Passed, part: float | None, wide: float | None, kind: str | None) -> Words:
    """The answer where there are no limits to judge it by."""
    meaning = f" {KINDS[kind]}" if kind else ""
    if kind == "nothing came":
        return KINDS[kind]
    if part is not None:
        return f"Kv {_factor(passed)} of {number(passed.rated)}: {give_or_take(part, wide)} %.", meaning
    if passed.kv is not None:
        return f"By what came, its Kv is {_factor(passed)}.", meaning
    return ("It lets ", *_through(passed), " through.", meaning)


def _factor(passed: Passed) -> str:
    return give_or_take(passed.kv, passed.kv * passed.wide)


def _through(passed: Passed) -> tuple[Amount]:
    flow = passed.passes(passed.rated)
    return (Amount(flow, LITRES_A_MINUTE, K * passed.u_drop * flow),)


def outputs(
    passed: Passed, part: float | None, wide: float | None, bore: float | None
) -> tuple[tuple[str, Words], ...]:
    """All values; `bore` in millimetres, for the loss factor."""
    out: list[tuple[str, Words]] = [] if part is None else [("share", f"{give_or_take(part, wide)} %")]
    if passed.rated is not None:
        out.append(("flow", _through(passed)))
    if passed.kv:
        cv = passed.kv / valve.KV_OF_CV
        out += [("kv", _factor(passed)), ("cv", give_or_take(cv, cv * passed.wide))]
    out.append(("choked", (Amount(passed.choked_at, PRESSURE),)))
    known = passed.rated or passed.kv
    if bore is not None and known:
        out.append(("loss", number(float(f"{valve.loss_factor(known, bore / 1e3):.3g}"))))
    return tuple(out)


def notes(passed: Passed) -> tuple[Words, ...]:
    """What to think of beside the answer."""
    said: list[Words] = []
    if passed.u_drop * 2 > 0.25:
        said.append("The drop is hardly more than the gauge can be off by: take a better gauge, or more flow.")
    if not passed.gauge:
        said.append("The gauge is counted as without error. No gauge is.")
    return tuple(said)


def chart(passed: Passed) -> Chart | None:
    """Flow over the drop, with what came; None where no factor is known."""
    kv = passed.rated or passed.kv
    if not kv:
        return None
    most = 1.3 * (passed.before - passed.after)
    drops = [most * (i / POINTS) ** 2 for i in range(POINTS + 1)]
    curve = tuple((d, passed.passes(kv, d)) for d in drops)
    shown = passed.before - passed.after
    through = Amount(passed.passes(kv), LITRES_A_MINUTE)
    came: Words = ("; came: ", Amount(passed.flow, LITRES_A_MINUTE)) if passed.flow is not None else ("",)
    return Chart(
        Axis("Pressure before less pressure after", PRESSURE, 0.0, most),
        Axis("Flow", LITRES_A_MINUTE, 0.0, curve[-1][1]),
        (Curve(curve, "as rated" if passed.rated else "by what came"),),
        ("At ", Amount(shown, PRESSURE), " it lets ", through, " through", *came, "."),
        point=None if passed.flow is None else (shown, passed.flow, passed.flow * passed.wide),
        point_words="what came",
    )
