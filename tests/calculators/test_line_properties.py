"""What holds for every supply line, pressure and valve."""

from __future__ import annotations

from dataclasses import replace

import pytest
from fluids.control_valve import size_control_valve_l
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calculators._lib import conformity, pipe, supply_line, valve, water
from calculators._lib.pipe import Line
from calculators._lib.supply_line import FITTINGS, FRICTION, Known
from tests.calculators.asked import ask
from tests.reference.ops.pipes import PSI_PA

untimed = settings(deadline=None, max_examples=60)
bars = st.floats(0.5, 8.0)
metres = st.floats(0.5, 40.0)
lpm = st.floats(0.01, 20.0)
TUBE = "1/4 in plastic"
AT_LEAST = {"low": 75, "unit": "%"}
AT_MOST = {"high": 1.5, "unit": "bar"}


def supply(bar: float, length: float, flow: float, limits: dict | None = None, **more: str) -> dict:
    fields = {"tube": TUBE, "static": f"{bar:.4f} bar", "length": f"{length:.4f} m", "measured": f"{flow:.4f} L/min"}
    return ask("supply", fields | more, limits)


@untimed
@given(bars, metres, lpm, st.sampled_from(["gauge", "bore_error", "measured_error"]), st.floats(1.0, 4.0))
def test_a_supply_lines_verdict_never_gets_surer_by_knowing_less(
    bar: float, length: float, flow: float, name: str, times: float
) -> None:
    usual = {"gauge": (0.2, "bar"), "bore_error": (2.0, "%"), "measured_error": (3.0, "%")}[name]
    worse = {name: f"{usual[0] * times:.4f} {usual[1]}"}
    before, after = supply(bar, length, flow, AT_LEAST), supply(bar, length, flow, AT_LEAST, **worse)
    assert after["verdict"] in (before["verdict"], conformity.CLOSE)
    assert after["uncertainty"] >= before["uncertainty"] * (1 - 1e-9)


@untimed
@given(bars, metres, lpm)
def test_metric_and_us_units_give_one_answer(bar: float, length: float, flow: float) -> None:
    metric = supply(bar, length, flow)
    fields = {
        "tube": TUBE,
        "static": f"{bar * 100 / 6.894757293168361:.9f} psi",
        "length": f"{length / 0.3048:.9f} ft",
        "measured": f"{flow / 3.785411784:.9f} gal/min",
        "temperature": "53.6 °F",
        "bore": "0.17 in",
    }
    other = ask("supply", fields)
    assert other["kind"] == metric["kind"]
    assert other["value"] == pytest.approx(metric["value"], rel=1e-2 if flow < 0.1 else 1e-3)


@untimed
@given(bars, metres, st.floats(0.05, 3.0))
def test_what_is_called_lost_lies_below_all_that_is_expected(bar: float, length: float, part: float) -> None:
    expected = pipe.speeds(Line(0.004318, length, 1.5e-6, 2.0, water=water.at(12.0)), bar * 1e5)
    flow = part * expected.value * Line(0.004318, 1.0).area * 6e4
    kind = supply(bar, length, flow)["kind"]
    assert (kind == "lost") <= (flow < expected.low * Line(0.004318, 1.0).area * 6e4)
    assert (kind == "more") <= (part > 1)


lines = st.builds(
    Line,
    bore=st.floats(0.002, 0.02),
    length=st.floats(0.5, 50.0),
    roughness=st.just(1.5e-6),
    fittings=st.floats(0.0, 50.0),
    water=st.floats(2.0, 60.0).map(water.at),
)


@untimed
@given(lines, st.floats(1e5, 1e6), st.floats(0.001, 0.05), st.floats(0.0, 5e4))
def test_the_uncertainty_of_the_expected_flow_is_what_small_changes_make(
    line: Line, pressure: float, bore: float, gauge: float
) -> None:
    """Each part changed by itself and solved again; JCGM 100, 5.1.2, with the slope of f after Blasius: within a tenth."""
    found = pipe.speeds(line, pressure)
    assume(pipe.regime(line.reynolds(found.low)) == pipe.TURBULENT)
    flow, step = found.value * line.area, 1e-4
    wider = replace(line, bore=line.bore * (1 + step))
    tighter = replace(line, fittings=line.fittings * (1 + step))
    rougher = replace(line, length=line.length * (1 + step))
    changes = (
        (pipe.speeds(wider, pressure).value * wider.area / flow - 1) / step * bore,
        (pipe.speeds(tighter, pressure).value / found.value - 1) / step * FITTINGS,
        (pipe.speeds(rougher, pressure).value / found.value - 1) / step * FRICTION,
        (pipe.speeds(line, pressure * (1 + step)).value / found.value - 1) / step * gauge / pressure,
    )
    by_changes = sum(c * c / 3 for c in changes) ** 0.5
    assert supply_line.expected_u(line, found.value, Known(gauge, bore)) == pytest.approx(by_changes, rel=0.1)


@untimed
@given(lines, st.floats(5e4, 1e6), st.floats(0.05, 0.95))
def test_a_loss_is_what_the_line_leaves_over(line: Line, pressure: float, part: float) -> None:
    """Put into the line as one more fitting, the loss that was found gives the flow that was caught."""
    found = pipe.speeds(line, pressure)
    flow = part * found.value * line.area
    loss = supply_line.loss(line, pressure, flow, Known())
    blocked = replace(line, fittings=line.fittings + loss.factor)
    assert pipe.speeds(blocked, pressure).value * line.area == pytest.approx(flow, rel=1e-6)


@untimed
@given(lines, st.floats(1e4, 1e6))
def test_the_curves_hold_the_expected_flow_between_their_edges(line: Line, top: float) -> None:
    for value, low, high in zip(*supply_line.curves(line, top, Known(bore=0.02)), strict=False):
        assert value[1] >= 0 and low[1] >= 0 and high[1] >= 0
    value, low, high = (curve[-1] for curve in supply_line.curves(line, top, Known(bore=0.02)))
    assert value[0] == low[0] == high[0] == top
    assert low[1] <= value[1] <= high[1]


@untimed
@given(st.floats(1.0, 60.0), st.floats(0.5, 10.0), st.floats(0.01, 0.99), st.floats(0.5, 20.0), st.floats(0.4, 1.0))
def test_a_valves_factor_is_that_of_fluids(t: float, bar: float, part: float, lpm: float, recovery: float) -> None:
    before = bar * 1e5 + water.ATMOSPHERE
    after, flow = before - part * bar * 1e5, lpm * 60 / 1000
    density, vapour = water.density(t), water.vapour_pressure(t)
    fluid = (density, vapour, water.CRITICAL_PASCAL, water.viscosity(t))
    known = size_control_valve_l(*fluid, before, after, flow / 3600, FL=recovery)
    drop = min(before - after, valve.choked_drop(before, vapour, recovery))
    assert valve.kv_of(flow, drop, density) == pytest.approx(known, rel=2e-4)


@untimed
@given(st.floats(1e-3, 100.0), st.floats(1e3, 1e6), st.floats(0.002, 0.05))
def test_flow_and_factor_are_the_inverse_of_each_other(kv: float, drop: float, bore: float) -> None:
    assert valve.kv_of(valve.flow_of(kv, drop, 990.0), drop, 990.0) == pytest.approx(kv)
    assert valve.kv_of_loss(valve.loss_factor(kv, bore), bore) == pytest.approx(kv)


@untimed
@given(lpm, st.floats(1.0, 500.0), st.floats(1.0, 500.0), st.sampled_from([1.0, 2.0]))
def test_the_drop_of_the_flow_of_a_drop_is_that_drop(flow: float, drop: float, other: float, exponent: float) -> None:
    then = valve.flow_at(flow, drop, other, exponent)
    assert valve.drop_at(drop, flow, then, exponent) == pytest.approx(other)


@untimed
@given(bars, st.floats(0.0, 1.0), st.floats(0.05, 0.5), st.floats(1.0, 4.0))
def test_a_pressures_verdict_never_gets_surer_by_a_worse_gauge(
    bar: float, part: float, gauge: float, times: float
) -> None:
    fields = {"static": f"{bar:.3f} bar", "flowing": f"{bar * part:.3f} bar"}
    before, after = (ask("pressure", fields | {"gauge": f"{g:.3f} bar"}, AT_MOST) for g in (gauge, gauge * times))
    assert after["verdict"] in (before["verdict"], conformity.CLOSE)


@untimed
@given(bars, st.floats(0.05, 1.0), lpm, st.floats(0.05, 0.5), st.floats(1.0, 4.0))
def test_a_valves_verdict_never_gets_surer_by_a_worse_gauge(
    bar: float, rated: float, flow: float, gauge: float, times: float
) -> None:
    fields = {"before": f"{bar:.3f} bar", "rated": f"{rated:.4f}", "flow": f"{flow:.3f}"}
    before, after = (ask("valve", fields | {"gauge": f"{g:.3f} bar"}, AT_LEAST) for g in (gauge, gauge * times))
    assert after["verdict"] in (before["verdict"], conformity.CLOSE)


@pytest.mark.parametrize(
    ("flow", "before", "after", "density", "vapour", "recovery", "kv"),
    [
        # IEC 60534-2-1 (ISA-75.01.01), example 1, globe valve; seen quoted in the tests of the library fluids.
        (360.0, 680e3, 220e3, 965.4, 70.1e3, 0.9, 165.0),
        # Example 2, ball valve, choked; seen in the same place.
        (360.0, 680e3, 220e3, 965.4, 70.1e3, 0.6, 238.0),
    ],
)
def test_the_published_examples_of_valve_sizing(
    flow: float, before: float, after: float, density: float, vapour: float, recovery: float, kv: float
) -> None:
    drop = min(before - after, valve.choked_drop(before, vapour, recovery))
    assert round(valve.kv_of(flow, drop, density)) == kv


def test_kv_and_cv() -> None:
    """IEC 60534-1: Kv = 0.865 Cv; from memory, recomputed."""
    assert round(valve.KV_OF_CV, 3) == 0.865


@pytest.mark.parametrize(
    ("wave", "said"),
    [
        # The speed of sound in water in copper tube, about 1400 m/s, and in a soft hose, about 400: from memory.
        (1400.0, 14.0),
        (400.0, 4.0),
        # Twice that speed, as the page of the valve has it.
        (2 * 1400.0, 28.0),
    ],
)
def test_the_hammer_that_the_page_warns_of(wave: float, said: float) -> None:
    """Joukowsky: rho a dv for 1 m/s."""
    assert round(pipe.surge(1.0, wave) / 1e5) == said


@untimed
@given(bars, st.floats(0.05, 0.95), lpm)
def test_bar_and_psi_give_one_answer(bar: float, part: float, flow: float) -> None:
    metric, us = (
        {"high": f"{high:.9f} {unit}", "low": f"{low:.9f} {unit}", "flow": f"{q:.9f} {a_minute}"}
        for high, low, unit, q, a_minute in (
            (bar, bar * part, "bar", flow, "L/min"),
            (bar * 1e5 / PSI_PA, bar * part * 1e5 / PSI_PA, "psi", flow / 3.785411784, "gal/min"),
        )
    )
    for name, fields in (
        ("pressure", {"static": "high", "flowing": "low", "flow": "flow"}),
        ("valve", {"before": "high", "after": "low", "flow": "flow"}),
    ):
        rated = {} if name == "pressure" else {"rated": "0.2"}
        answers = [ask(name, rated | {f: texts[k] for f, k in fields.items()}) for texts in (metric, us)]
        assert answers[0]["kind"] == answers[1]["kind"]
        assert answers[0]["value"] == pytest.approx(answers[1]["value"], rel=1e-6, abs=1e-6)
        assert answers[0]["uncertainty"] == pytest.approx(answers[1]["uncertainty"], rel=1e-6)


@pytest.mark.parametrize(("times", "said"), [(0.18 / 0.17, 7 / 6), (1.04, 1.1)])
def test_the_weight_of_the_bore_is_as_the_page_says(times: float, said: float) -> None:
    tube = Line(0.004318, 5.0, 1.5e-6, 2.0)
    wider = replace(tube, bore=tube.bore * times)
    grown = pipe.speeds(wider, 4e5).value * wider.area / (pipe.speeds(tube, 4e5).value * tube.area)
    assert grown == pytest.approx(said, abs=0.01)


@pytest.mark.parametrize("bad", [(0.0, 1.0, 1.0), (1.0, 0.0, 1.0), (1.0, -2.0, 1.0), (1.0, 1.0, -1.0)])
def test_no_flow_at_another_drop_without_flow_or_drop(bad: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="above nothing"):
        valve.flow_at(*bad)
