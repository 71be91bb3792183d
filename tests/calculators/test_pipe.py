"""Flow in pipes: the laws it must keep, and the library fluids on random pipes."""

from __future__ import annotations

import csv
from dataclasses import replace
from pathlib import Path

import pytest
from fluids import friction, one_phase_dP
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calculators._lib import pipe, water
from calculators._lib.pipe import LAMINAR_TO, TURBULENT_FROM, Line
from tests.reference.ops import pipes

PSI = 6894.757293168361
ROWS = Path(__file__).parents[1] / "reference/open_supply_flow.csv"

lines = st.builds(
    Line,
    bore=st.floats(0.001, 0.05),
    length=st.floats(0.0, 100.0),
    roughness=st.floats(0.0, 4e-5),
    fittings=st.floats(0.0, 1000.0),
    height=st.floats(-10.0, 30.0),
    water=st.floats(0.0, 100.0).map(water.at),
)
pressures = st.floats(0.0, 2e6)
untimed = settings(deadline=None)
rough = st.floats(0.0, 0.05)


@untimed
@given(st.floats(1.0, 2000.0), rough)
def test_laminar_friction_is_that_of_fluids_and_knows_no_roughness(reynolds: float, relative: float) -> None:
    assert pipe.darcy(reynolds, relative) == pytest.approx(friction.friction_laminar(reynolds))


@untimed
@given(st.floats(4000.0, 1e8), rough)
def test_turbulent_friction_is_colebrooks_as_fluids_solves_it(reynolds: float, relative: float) -> None:
    assert pipe.darcy(reynolds, relative) == pytest.approx(friction.Clamond(reynolds, relative), rel=1e-9)


@untimed
@given(st.floats(2001.0, 3999.0), rough)
def test_between_the_two_the_value_lies_in_the_range(reynolds: float, relative: float) -> None:
    low, high = pipe.darcy_range(reynolds, relative)
    assert low <= pipe.darcy(reynolds, relative) <= high
    assert low <= friction.Churchill_1977(reynolds, relative) * 1.05
    assert friction.Churchill_1977(reynolds, relative) <= high * 1.05


@untimed
@given(lines, st.floats(0.01, 20.0))
def test_the_loss_of_straight_pipe_is_that_of_fluids(line: Line, speed: float) -> None:
    reynolds = line.reynolds(speed)
    assume(not LAMINAR_TO < reynolds < TURBULENT_FROM)
    known = one_phase_dP(
        m=line.water.density * speed * line.area,
        rho=line.water.density,
        mu=line.water.viscosity,
        D=line.bore,
        roughness=line.roughness,
        L=line.length,
        Method="Clamond" if reynolds > LAMINAR_TO else None,
    )
    assert pipe.straight(line, speed) * line.head(speed) == pytest.approx(known, rel=1e-6)


@untimed
@given(lines, pressures)
def test_the_pressure_of_a_flow_gives_the_flow_of_that_pressure(line: Line, pressure: float) -> None:
    speed = pipe.speeds(line, pressure).value
    assert pipe.pressure_at(line, speed) == pytest.approx(max(pressure, line.lift), rel=1e-8, abs=1e-6)


@untimed
@given(lines, pressures)
def test_the_value_lies_in_the_range(line: Line, pressure: float) -> None:
    found = pipe.speeds(line, pressure)
    assert 0 <= found.low <= found.value * (1 + 1e-9) <= found.high * (1 + 2e-9)


@untimed
@given(lines, pressures)
def test_too_little_pressure_to_lift_the_water_gives_no_flow(line: Line, pressure: float) -> None:
    assert (pipe.speeds(line, pressure).high == 0) == (pressure - line.lift <= pipe.LEAST)


@untimed
@given(lines, pressures, st.floats(1.0, 1e6))
def test_more_pressure_gives_no_less_flow(line: Line, pressure: float, more: float) -> None:
    before, after = pipe.speeds(line, pressure), pipe.speeds(line, pressure + more)
    for name in ("low", "value", "high"):
        assert getattr(after, name) >= getattr(before, name) * (1 - 1e-9)


@untimed
@given(lines, pressures, st.floats(1.01, 3.0))
def test_a_wider_bore_gives_more(line: Line, pressure: float, times: float) -> None:
    wider = replace(line, bore=line.bore * times)
    assert flow(wider, pressure) >= flow(line, pressure) * (1 - 1e-9)


@untimed
@given(lines, pressures, st.sampled_from(["length", "fittings", "height"]), st.floats(0.01, 50.0))
def test_what_is_longer_higher_or_has_more_fittings_gives_less(
    line: Line, pressure: float, name: str, more: float
) -> None:
    harder = replace(line, **{name: getattr(line, name) + more})
    assert flow(harder, pressure) <= flow(line, pressure) * (1 + 1e-9)


def flow(line: Line, pressure: float) -> float:
    return pipe.speeds(line, pressure).value * line.area


@untimed
@given(lines, st.sampled_from([LAMINAR_TO, TURBULENT_FROM]))
def test_the_flow_does_not_jump_where_its_kind_changes(line: Line, border: float) -> None:
    pressure = pipe.pressure_at(line, line.speed(border))
    step = 1e-7 * (pressure - line.lift)
    below, above = pipe.speeds(line, pressure - step), pipe.speeds(line, pressure + step)
    for name in ("low", "value", "high"):
        assert getattr(above, name) == pytest.approx(getattr(below, name), rel=1e-5)


def test_the_jets_head_is_counted_once() -> None:
    """Straight out of a short smooth hole all pressure turns into speed: Torricelli, v2 = 2 p / rho."""
    hole = Line(0.01, 0.0)
    assert pipe.speeds(hole, 1e5).value == pytest.approx((2e5 / hole.water.density) ** 0.5)


def test_leaving_the_jet_out_would_promise_a_tenth_more() -> None:
    """1 m of 1/4 in tube at 60 psi: 9 % too much without the head of the jet."""
    tube = Line(0.004318, 1.0, 1.5e-6, 0.5)
    without = replace(tube, fittings=-0.5)
    assert flow(without, 60 * PSI) / flow(tube, 60 * PSI) == pytest.approx(1.09, abs=0.01)


def test_smooth_friction_at_a_hundred_thousand() -> None:
    """Moody 1944, smooth pipe at Re 1e5: 0.018; read from memory, recomputed."""
    assert round(pipe.colebrook(1e5, 0.0), 3) == 0.018


def test_a_foot_of_water() -> None:
    """1 foot of water weighs 0.433 psi: a published conversion chart, seen in a copy."""
    assert round(pipe.hydrostatic(0.3048) / PSI, 3) == 0.433


def test_what_epanet_finds_lies_in_the_range_that_is_shown() -> None:
    """EPANET 2.2 joins laminar and turbulent by a curve of its own: its flow must lie in our range, within 1 %."""
    with ROWS.open(encoding="utf-8", newline="") as text:
        rows = [row for row in csv.DictReader(text) if row["exp_Q_epanet"]]
    assert len(rows) > 20
    for row in rows:
        line = pipes.line(row)
        found, known = pipe.speeds(line, pipes.pressure(row)), float(row["exp_Q_epanet"])
        assert found.low * 0.99 <= known * pipes.LPM / line.area <= found.high * 1.01, row["case_id"]
