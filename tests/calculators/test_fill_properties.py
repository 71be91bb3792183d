"""What holds for every fill."""

from __future__ import annotations

from math import isclose

import pytest
import uncertainties
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators._lib import conformity, filling, table
from tests.calculators.asked import ask

LIMITS = {"low": 100, "high": 140, "unit": "mL"}
untimed = settings(deadline=None)
flows = st.floats(0.05, 20.0)
tenths = st.integers(0, 1200)
gives = st.floats(0.001, 1.0)


def fill(tenth: int, flow: float, **more: str) -> dict[str, object]:
    return {"seconds": f"{tenth / 10:.1f}", "flow": f"{flow:.4f}"} | more


@given(flows, st.floats(1.0, 100.0), st.floats(0.0, 0.9), gives, gives)
def test_a_fill_is_as_unsure_as_the_library_uncertainties_says(
    flow: float, seconds: float, dead: float, u_q: float, u_t: float
) -> None:
    """uncertainties 3.2.3 differentiates the formula itself; here it is propagated by hand."""
    expected = uncertainties.ufloat(flow, u_q) * (uncertainties.ufloat(seconds, u_t) - dead) / 0.06
    assert isclose(filling.volume(flow, seconds, dead), expected.n, rel_tol=1e-12)
    assert isclose(filling.standard_uncertainty(flow, seconds, dead, u_q, u_t), expected.s, rel_tol=1e-9)


@given(flows, st.floats(0.0, 5000.0), st.floats(0.0, 10.0))
def test_the_seconds_for_a_volume_let_in_that_volume(flow: float, volume: float, dead: float) -> None:
    seconds = filling.seconds_for(volume, flow, dead)
    assert isclose(filling.volume(flow, seconds, dead), volume, rel_tol=1e-6, abs_tol=1e-6)


def test_without_a_flow_no_time_is_enough() -> None:
    with pytest.raises(ValueError, match="never fills"):
        filling.seconds_for(100.0, 0.0)


@untimed
@given(tenths, flows, gives, gives)
def test_a_worse_flow_or_watch_never_makes_a_verdict_surer(tenth: int, flow: float, give: float, more: float) -> None:
    better = ask("fill", fill(tenth, flow, flow_give=f"{give:.4f}"), LIMITS)
    wider = {"flow_give": f"{give + more:.4f}"}, {"flow_give": f"{give:.4f}", "a_time": f"{0.3 + more:.3f}"}
    for worse in (ask("fill", fill(tenth, flow, **w), LIMITS) for w in wider):
        assert worse["verdict"] in (better["verdict"], conformity.CLOSE)


@untimed
@given(tenths, flows)
def test_longer_or_faster_is_never_less(tenth: int, flow: float) -> None:
    value = ask("fill", fill(tenth, flow, dead="0.3"), LIMITS)["value"]
    assert ask("fill", fill(tenth + 1, flow, dead="0.3"), LIMITS)["value"] >= value >= 0
    assert ask("fill", fill(tenth, flow + 0.01, dead="0.3"), LIMITS)["value"] >= value


@untimed
@given(tenths, flows, gives)
def test_units_say_the_same(tenth: int, flow: float, give: float) -> None:
    plain = ask("fill", fill(tenth, flow, flow_give=f"{give:.4f}"), LIMITS)
    other = {"seconds": f"{tenth / 600:.9f} min", "flow": f"{flow:.4f} L/min", "flow_give": f"{give / 0.06:.9f} mL/s"}
    asked = ask("fill", other, {"low": 0.1, "high": 0.14, "unit": "L"})
    assert asked["verdict"] == plain["verdict"]
    assert isclose(asked["value"], plain["value"], rel_tol=1e-6, abs_tol=1e-6)
    assert isclose(asked["uncertainty"], plain["uncertainty"], rel_tol=1e-2)


@untimed
@given(tenths, flows)
def test_the_printed_table_says_what_the_calculator_says(tenth: int, flow: float) -> None:
    printed = table.table("fill", {"flow": f"{flow:.4f}", "flow_give": "0.03"}, LIMITS)
    assert printed.verdict(tenth / 10) == ask("fill", fill(tenth, flow, flow_give="0.03"), LIMITS)["verdict"]


@given(st.floats(15.0, 120.0), st.floats(15.0, 120.0))
def test_a_flow_washer_holds_its_flow_over_its_range(one: float, other: float) -> None:
    assert filling.washer_flow(one, 1.2, 15.0) == filling.washer_flow(other, 1.2, 15.0) == 1.2


@given(st.floats(-5.0, 15.0), st.floats(-5.0, 15.0))
def test_under_its_range_a_flow_washer_lets_by_less(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert 0 <= filling.washer_flow(low, 1.2, 15.0) <= filling.washer_flow(high, 1.2, 15.0) <= 1.2


@pytest.mark.parametrize("seconds", ["5", "7", "9"])
def test_ice_makers_of_common_practice_get_what_is_usual(seconds: str) -> None:
    """7 s (5 to 9) and 100 to 140 mL: common practice, no source; the flow between is 0.93 to 1.2 L/min."""
    flow = 0.06 * 120 / float(seconds)
    got = ask("fill", {"seconds": seconds, "flow": f"{flow:.3f}", "flow_give": "0.03"}, LIMITS)
    assert got["verdict"] == conformity.IN
