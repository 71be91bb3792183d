"""What holds for every leak."""

from __future__ import annotations

from math import isclose, sqrt

import pytest
import uncertainties
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators._lib import conformity, dripping
from tests.calculators.asked import ask

LIMITS = {"low": None, "high": 8, "unit": "L/day"}
untimed = settings(deadline=None)
counts = st.integers(1, 400)
drops = st.floats(0.04, 0.4)
gives = st.floats(0.001, 0.03)


def drips(count: int, drop: float, give: float, **more: str) -> dict[str, object]:
    return {"drips": f"{count}", "drop": f"{drop:.4f}", "drop_give": f"{give:.4f}"} | more


@pytest.mark.parametrize(
    ("drop", "in_a_litre", "in_a_gallon"),
    [
        # US Geological Survey, 1/4 mL a drip: 4000 a litre, 15 140 a gallon; seen quoted by others.
        (0.25, 4000, 15_140),
        # US Geological Survey, older page: 1/3 mL, 3000 a litre, about 11 350 a gallon; seen in a stored copy.
        (1 / 3, 3000, 11_350),
        # Pharmacy: 20 drops a millilitre; from memory.
        (0.05, 20_000, 75_700),
    ],
)
def test_drips_in_a_litre_and_in_a_gallon(drop: float, in_a_litre: int, in_a_gallon: int) -> None:
    a_drip_a_minute = dripping.litres_a_day(1.0, drop)
    drips_a_day = 24 * 60
    assert isclose(drips_a_day / a_drip_a_minute, in_a_litre, rel_tol=1e-9)
    assert isclose(drips_a_day / a_drip_a_minute * 3.785411784, in_a_gallon, rel_tol=1e-3)


def test_the_published_drops_are_six_times_apart() -> None:
    got = ask("drip", {"drips": "60"})
    least, most = (float(words.split()[0]) for words in got["outputs"][2]["text"].split(" to "))
    assert isclose(least, dripping.litres_a_day(60, dripping.LEAST_DROP), rel_tol=0.02)
    assert isclose(most, dripping.litres_a_day(60, dripping.MOST_DROP), rel_tol=0.02)
    assert 6 < most / least < 7


@untimed
@given(counts, drops, gives)
def test_a_leak_is_as_unsure_as_the_library_uncertainties_says(count: int, drop: float, give: float) -> None:
    """uncertainties 3.2.3 differentiates the formula itself; here it is propagated by hand."""
    got = ask("drip", drips(count, drop, give))
    drop, give = float(f"{drop:.4f}"), float(f"{give:.4f}")
    expected = 1.44 * uncertainties.ufloat(count, sqrt(count)) * uncertainties.ufloat(drop, give / sqrt(3))
    assert isclose(got["value"], expected.n, rel_tol=1e-9)
    assert isclose(got["uncertainty"], 2 * expected.s, rel_tol=1e-9)


@untimed
@given(counts, drops, gives, gives)
def test_a_drop_known_worse_never_makes_a_verdict_surer(count: int, drop: float, give: float, more: float) -> None:
    better, worse = (ask("drip", drips(count, drop, g), LIMITS) for g in (give, give + more))
    assert worse["verdict"] in (better["verdict"], conformity.CLOSE)


@untimed
@given(counts, drops, gives)
def test_more_drips_lose_more(count: int, drop: float, give: float) -> None:
    one, other = (ask("drip", drips(c, drop, give))["value"] for c in (count, count + 1))
    assert other > one > 0


@untimed
@given(counts, drops, gives, st.integers(1, 5))
def test_counted_for_longer_the_leak_is_the_same_and_surer(count: int, drop: float, give: float, times: int) -> None:
    short = ask("drip", drips(count, drop, give))
    long = ask("drip", drips(count * times, drop, give, seconds=f"{times} min"))
    assert isclose(short["value"], long["value"], rel_tol=1e-9)
    assert long["uncertainty"] <= short["uncertainty"] * (1 + 1e-9)


@untimed
@given(st.integers(1, 5000), st.integers(1, 7200), counts)
def test_what_was_caught_gives_the_drop_by_which_the_count_agrees(caught: int, seconds: int, count: int) -> None:
    got = ask("drip", {"caught": f"{caught}", "caught_time": f"{seconds}", "drips": f"{count}"})
    assert isclose(got["value"], 86.4 * caught / seconds, rel_tol=1e-9)
    drop = dripping.drop_of(got["value"], count)
    assert isclose(dripping.litres_a_day(count, drop), got["value"], rel_tol=1e-9)


@untimed
@given(counts, drops, gives)
def test_units_say_the_same(count: int, drop: float, give: float) -> None:
    plain = ask("drip", drips(count, drop, give), LIMITS)
    other = ask("drip", drips(count, drop, give), {"high": 8 / 3.785411784, "unit": "gal/day"}, units="US")
    assert other["verdict"] == plain["verdict"]
    assert other["value"] == plain["value"]


@given(st.floats(1e-4, 5e-3), st.floats(1e-4, 5e-3), st.floats(0.0, 60.0))
def test_a_wider_outlet_hangs_a_larger_drop(one: float, other: float, t: float) -> None:
    small, large = sorted((one, other))
    assert dripping.tate_drop(small, t) <= dripping.tate_drop(large, t)


@given(st.floats(1e-4, 5e-3), st.floats(0.0, 60.0))
def test_a_drop_of_hot_water_is_smaller(radius: float, t: float) -> None:
    assert dripping.tate_drop(radius, t + 5) < dripping.tate_drop(radius, t)


def test_an_outlet_of_no_width_is_refused() -> None:
    with pytest.raises(ValueError, match="above 0"):
        dripping.tate_drop(0.0, 15.0)
