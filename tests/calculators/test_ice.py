"""Freezing, against solutions of the heat equation and the properties of water, and what must hold for all of it."""

from __future__ import annotations

from math import isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from iapws import IAPWS95
from iapws._iapws import _Ice

from calculators import ice
from calculators._lib import entry, freezing, water
from tests.calculators import freezing_solver

ATMOSPHERE = 0.101325
"""Megapascal."""
untimed = settings(deadline=None)
airs = st.floats(-40.0, -10.5)
sizes = st.floats(5.0, 60.0)
films = st.floats(5.0, 500.0)
shapes = st.sampled_from([freezing.TWO_FACES, freezing.ONE_FACE, freezing.CYLINDER, freezing.SPHERE])


def ask(**fields: object) -> dict:
    limits = fields.pop("limits", {})
    return entry.answer_to("ice", {"fields": {k: str(v) for k, v in fields.items()}, "limits": limits})


@pytest.mark.parametrize(
    ("shape", "dimension", "film", "air"),
    [
        (freezing.TWO_FACES, 1, 100.0, -18.0),
        (freezing.TWO_FACES, 1, 400.0, -30.0),
        (freezing.CYLINDER, 2, 60.0, -18.0),
        (freezing.CYLINDER, 2, 200.0, -18.0),
        (freezing.SPHERE, 3, 50.0, -18.0),
        (freezing.SPHERE, 3, 200.0, -25.0),
    ],
)
def test_plank_with_all_the_heat_lies_just_over_the_heat_equation(
    shape: freezing.Shape, dimension: int, film: float, air: float
) -> None:
    size, k = 0.02, 2.2
    exact = freezing_solver.seconds(size / 2, dimension, air, film, k, 15.0, -10.0)
    found = freezing.plank(size, shape, air, film, k, freezing.heat_given_off(15.0, -10.0))
    assert 0.995 < found / exact < ice.TOO_LONG + 0.005


@pytest.mark.parametrize(("film", "air"), [(100.0, -18.0), (1000.0, -30.0)])
def test_plank_alone_lies_one_to_seven_percent_under_a_sheet_that_starts_at_zero(film: float, air: float) -> None:
    exact = freezing_solver.seconds(0.01, 1, air, film, 2.2, 0.0, 0.0)
    assert 0.93 < freezing.plank(0.02, freezing.TWO_FACES, air, film, 2.2) / exact < 0.995


@untimed
@given(st.floats(0.5, 60.0), st.floats(-35.0, -0.1))
def test_the_heat_is_that_of_the_tables_of_water_and_ice(start: float, end: float) -> None:
    """iapws 1.5.5: IAPWS-95 for the water, R10-06(2009) for the ice."""
    liquid = IAPWS95(T=start + 273.15, P=ATMOSPHERE).h
    solid = _Ice(end + 273.15, ATMOSPHERE)["h"]
    assert freezing.heat_given_off(start, end) == pytest.approx(1e3 * (liquid - solid), rel=5e-4)


@given(airs, airs, sizes, films)
def test_colder_air_and_a_better_film_freeze_sooner(a: float, b: float, size: float, film: float) -> None:
    cold, warm = sorted((a, b))
    one = freezing.plank(size / 1e3, freezing.CYLINDER, cold, film, 2.2)
    assert one <= freezing.plank(size / 1e3, freezing.CYLINDER, warm, film, 2.2)
    assert one >= freezing.plank(size / 1e3, freezing.CYLINDER, cold, film * 1.1, 2.2)
    assert one <= freezing.plank(size / 1e3 * 1.1, freezing.CYLINDER, cold, film, 2.2)


@given(sizes, airs, films)
def test_the_more_faces_are_cold_the_sooner(size: float, air: float, film: float) -> None:
    order = [
        freezing.SPHERE, freezing.block(1, 1, 1), freezing.CYLINDER, freezing.TWO_FACES, freezing.ONE_FACE,
    ]  # fmt: skip
    times = [freezing.plank(size / 1e3, s, air, film, 2.2) for s in order]
    assert times == sorted(times)
    assert times[4] >= 2 * times[3]


@given(st.floats(0.001, 0.1), st.floats(1.0, 20.0), st.floats(1.0, 20.0))
def test_a_block_lies_between_a_cube_and_a_sheet(shortest: float, b: float, a: float) -> None:
    shape = freezing.block(*sorted((shortest, shortest * b, shortest * a)))
    assert 1 / 6 - 1e-9 <= shape.p <= 1 / 2
    assert 1 / 24 - 1e-6 <= shape.r <= 1 / 8 + 1e-9


def test_a_block_with_long_sides_is_a_sheet_and_with_one_long_side_a_stick_of_square_section() -> None:
    sheet, cube = freezing.block(1.0, 1e4, 1e4), freezing.block(1.0, 1.0, 1.0)
    assert (sheet.p, sheet.r) == pytest.approx((1 / 2, 1 / 8), rel=1e-3)
    assert (cube.p, cube.r) == pytest.approx((1 / 6, 1 / 24))


@given(st.floats(-15.0, 30.0), st.floats(-40.0, -16.0), st.floats(0.1, 10.0), st.floats(0.0, 20.0))
def test_cooling_down_is_the_inverse_of_its_law(t0: float, final: float, tau: float, after: float) -> None:
    reached = final + (t0 - final) * 2.718281828459045 ** (-after / tau)
    if reached - final > 1e-6:
        assert freezing.cooled_down(t0, final, reached, tau) == pytest.approx(after, abs=1e-4 * tau)


@given(st.floats(1.0, 500.0), st.floats(0.0, 90.0), st.floats(-40.0, -1.0))
def test_power_and_heat_agree_over_a_day(power: float, start: float, end: float) -> None:
    heat = freezing.heat_given_off(start, end)
    assert freezing.a_day_by_power(power, heat) * heat == pytest.approx(power * 86400)
    assert heat > water.LATENT_HEAT


@untimed
@given(airs, st.integers(0, 90), st.integers(1, 12))
def test_a_film_that_is_known_worse_never_makes_a_verdict_surer(air: float, percent: int, hours: int) -> None:
    limits = {"high": hours, "unit": "h"}
    sure = ask(air=f"{air:.2f}", film_pct=percent / 2, limits=limits)
    vague = ask(air=f"{air:.2f}", film_pct=percent, limits=limits)
    assert vague["verdict"] in (sure["verdict"], "too close to call")


@untimed
@given(st.floats(-40.0, -10.1), st.floats(0.2, 3.0))
def test_units_change_nothing_but_the_words(celsius: float, inches: float) -> None:
    plain = ask(air=f"{celsius:.4f}", thickness=f"{inches * 25.4:.6f}", shape="ball")
    other = ask(air=f"{celsius * 1.8 + 32:.5f} °F", thickness=f"{inches:.8f} in", shape="ball")
    assert other["value"] == pytest.approx(plain["value"], rel=1e-4)


@untimed
@given(
    st.sampled_from([i.name for i in ice.CALCULATOR.inputs]),
    st.text(max_size=12) | st.text("0123456789.,-+−eE°CFinmWKhg/½ ", max_size=10) | st.floats().map(str),
)
def test_no_text_in_any_field_gives_anything_but_a_time_or_a_refusal(field: str, text: str) -> None:
    got = ask(**{"air": "-18"} | {field: text})
    if got["refused"]:
        assert (got["value"], got["picture"]) == (None, "")
        assert all(r["field"] and r["message"] for r in got["refused"])
    else:
        assert isfinite(got["value"])
        assert got["value"] > 0
        assert "nan" not in got["picture"]
