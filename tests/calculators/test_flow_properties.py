"""What holds for every catch."""

from __future__ import annotations

from math import isclose, sqrt

import pytest
import uncertainties
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators._lib import catching, conformity, student, table, uncertainty
from tests.calculators.asked import ask

LIMITS = {"low": 1.9, "high": None, "unit": "L/min"}
untimed = settings(deadline=None)
volumes = st.integers(100, 20_000)
tenths = st.integers(30, 6000)
errors = st.tuples(st.floats(0.001, 100.0), st.floats(0.001, 2.0))
alike = st.tuples(volumes, tenths).flatmap(
    lambda c: st.lists(
        st.tuples(st.floats(0.97 * c[0], 1.03 * c[0]), st.floats(0.097 * c[1], 0.103 * c[1])), min_size=1, max_size=6
    )
)
"""Catches of about one size."""


def caught(volume: int, tenth: int, **more: str) -> dict[str, object]:
    return {"volumes": f"{volume}", "times": f"{tenth / 10:.1f}"} | more


@untimed
@given(volumes, tenths, errors)
def test_one_catch_is_as_unsure_as_the_library_uncertainties_says(volume: int, tenth: int, a: tuple) -> None:
    """uncertainties 3.2.3 differentiates the formula itself; here it is propagated by hand."""
    found = catching.caught([volume], [tenth / 10], *a)
    v, t = uncertainties.ufloat(volume, a[0] / sqrt(3)), uncertainties.ufloat(tenth / 10, a[1] / sqrt(3))
    expected = 0.06 * v / t
    assert isclose(found.mean, expected.n, rel_tol=1e-12)
    assert isclose(found.u, expected.s, rel_tol=1e-9)


@untimed
@given(alike, errors)
def test_errors_that_catches_share_do_not_average_out(catches: list, a: tuple) -> None:
    """One error of jug and watch in all catches, propagated by uncertainties 3.2.3: alike catches, within 1 %."""
    jug, watch = uncertainties.ufloat(0, a[0] / sqrt(3)), uncertainties.ufloat(0, a[1] / sqrt(3))
    expected = sum(0.06 * (v + jug) / (t + watch) for v, t in catches) / len(catches)
    found = catching.caught(*map(list, zip(*catches, strict=True)), *a)
    assert isclose(found.shared, expected.s, rel_tol=0.01)
    assert isclose(found.mean, expected.n, rel_tol=1e-12)


@untimed
@given(alike, errors, st.randoms())
def test_the_order_of_the_catches_does_not_matter(catches: list, a: tuple, random: object) -> None:
    other = list(catches)
    random.shuffle(other)
    one, two = (catching.caught(*map(list, zip(*c, strict=True)), *a) for c in (catches, other))
    assert isclose(one.mean, two.mean, rel_tol=1e-12)
    assert isclose(one.u, two.u, rel_tol=1e-9)


@untimed
@given(alike, errors)
def test_the_mean_and_the_whole_lie_between_the_catches(catches: list, a: tuple) -> None:
    found = catching.caught(*map(list, zip(*catches, strict=True)), *a)
    flows = [catching.flow(v, t) for v, t in catches]
    for middle in (found.mean, found.total):
        assert min(flows) * (1 - 1e-12) <= middle <= max(flows) * (1 + 1e-12)


@untimed
@given(volumes, tenths, st.floats(0.0, 50.0), st.floats(0.0, 1.0))
def test_a_worse_jug_or_watch_never_makes_a_verdict_surer(volume: int, tenth: int, jug: float, watch: float) -> None:
    better = ask("flow", caught(volume, tenth, a_volume=f"{jug:.3f}", a_time=f"{watch:.3f}"), LIMITS)
    for more in ({"a_volume": f"{jug + 5:.3f}"}, {"a_time": f"{watch + 0.2:.3f}"}):
        worse = ask("flow", caught(volume, tenth, a_volume=f"{jug:.3f}", a_time=f"{watch:.3f}") | more, LIMITS)
        assert worse["verdict"] in (better["verdict"], conformity.CLOSE)


@untimed
@given(volumes, tenths)
def test_more_water_or_less_time_is_more_flow(volume: int, tenth: int) -> None:
    value = ask("flow", caught(volume, tenth), LIMITS)["value"]
    assert ask("flow", caught(volume + 1, tenth), LIMITS)["value"] > value
    assert ask("flow", caught(volume, tenth + 1), LIMITS)["value"] < value


@untimed
@given(volumes, tenths)
def test_units_say_the_same(volume: int, tenth: int) -> None:
    plain = ask("flow", caught(volume, tenth), LIMITS)
    litres = ask("flow", {"volumes": f"{volume / 1000:.3f} L", "times": f"{tenth / 600:.9f} min"}, LIMITS)
    gallons = ask("flow", caught(volume, tenth), {"low": 1.9 / 3.785411784, "high": None, "unit": "gal/min"}, units="US")
    for other in (litres, gallons):
        assert other["verdict"] == plain["verdict"]
        assert isclose(other["value"], plain["value"], rel_tol=1e-6)
        assert isclose(other["uncertainty"], plain["uncertainty"], rel_tol=1e-6)


@untimed
@given(volumes, tenths)
def test_weighed_cold_water_flows_as_it_does_in_a_jug(volume: int, tenth: int) -> None:
    weighed = ask("flow", {"gross": f"{volume + 350}", "tare": "350", "times": f"{tenth / 10:.1f}"}, LIMITS)
    assert isclose(weighed["value"], ask("flow", caught(volume, tenth), LIMITS)["value"], rel_tol=2e-3)


@untimed
@given(volumes, tenths, st.sampled_from([{"low": 1.9}, {"high": 6.0}, {"low": 1.0, "high": 4.0}]))
def test_the_sentence_shows_its_own_verdict(volume: int, tenth: int, band: dict[str, float]) -> None:
    got = ask("flow", caught(volume, tenth), band | {"unit": "L/min"})
    value, give = got["sentence"].replace("\u202f", "").split(" L/min")[0].split(" ± ")
    assert conformity.judge(float(value), float(give), band.get("low"), band.get("high")) == got["verdict"]


@untimed
@given(volumes, st.integers(5, 60_000))
def test_the_printed_table_says_what_the_calculator_says(volume: int, tenth: int) -> None:
    printed = table.table("flow", {"volumes": f"{volume}"}, LIMITS)
    assert printed.verdict(tenth / 10) == ask("flow", caught(volume, tenth), LIMITS)["verdict"]


@pytest.mark.parametrize(
    ("dof", "k"), [(1, 13.97), (2, 4.53), (3, 3.31), (5, 2.65), (10, 2.28), (20, 2.13), (50, 2.05), (100, 2.025)]
)
def test_the_k_of_few_readings(dof: int, k: float) -> None:
    """JCGM 100:2008, table G.2, p = 95.45 %; from memory, recomputed with scipy 1.17.1."""
    assert abs(student.coverage(dof) - k) < 0.006


def test_the_effective_degrees_of_freedom_of_the_end_gauge() -> None:
    """JCGM 100:2008, H.1.6: u_c = 32 nm, 16 degrees of freedom, seen quoted in an open library; its parts from memory."""
    parts = ((25.0, 18.0), (5.8, 24.0), (3.9, 5.0), (6.7, 8.0), (2.9, 50.0), (16.6, 2.0))
    u = uncertainty.combined(*(p for p, _ in parts))
    apart = sum(1 / student.freedom(u, p, round(dof) + 1) for p, dof in parts)
    assert round(u) == 32
    assert int(1 / apart) == 16


@untimed
@given(st.floats(1.0, 1e5), st.floats(1.0, 1e5))
def test_more_readings_never_widen(one: float, other: float) -> None:
    least, most = sorted((one, other))
    assert student.coverage(least) >= student.coverage(most) - 1e-6
