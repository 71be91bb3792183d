"""What holds for every coil, meter and text."""

from __future__ import annotations

import json
from math import isfinite, sqrt

import pytest
import uncertainties
from hypothesis import given
from hypothesis import strategies as st

from calculators import coil
from calculators._lib import conformity, ohmmeter, winding
from calculators._lib.declare import Calculator
from calculators._lib.entry import answer

CALCULATOR: Calculator = coil.CALCULATOR
LIMITS = {"low": 100, "high": 500, "unit": "ohm"}
FIELDS = [i.name for i in CALCULATOR.inputs]

sizes = st.floats(0.0, 5000.0)
conditions = st.builds(
    ohmmeter.Conditions,
    percent=st.floats(0.0, 5.0),
    counts=st.floats(0.0, 20.0),
    resolution=st.sampled_from([0.01, 0.1, 1.0, 10.0]),
    lead=st.floats(0.0, 2.0),
    t=st.floats(-40.0, 180.0),
    t_ref=st.sampled_from([20.0, 25.0]),
    u_t=st.floats(0.0, 10.0),
    k=st.sampled_from([winding.COPPER, winding.ALUMINIUM]),
)
bounds = st.tuples(st.floats(0.0, 2000.0), st.floats(0.1, 2000.0)).map(lambda b: (b[0], b[0] + b[1]))
limits = st.one_of(bounds, bounds.map(lambda b: (b[0], None)), bounds.map(lambda b: (None, b[1])))
typed = st.text(max_size=12) | st.text("0123456789.,-+−eEkMΩohm OLinfa'１２ ;%°F", max_size=12)


def ask(fields: dict[str, object], limits: dict[str, object] = LIMITS) -> dict:
    """The answer, which must be JSON without NaN or infinity."""
    request = json.dumps({"fields": fields, "limits": limits, "label": "Coil"})
    return json.loads(answer("coil", request), parse_constant=lambda c: no_such_number(c))


def no_such_number(constant: str) -> None:
    raise AssertionError(f"{constant} in the answer")


@given(sizes, st.floats(0.0, 50.0), st.floats(0.0, 50.0), limits)
def test_a_wider_uncertainty_never_makes_a_verdict_surer(value: float, u: float, more: float, band: tuple) -> None:
    narrow, _ = coil.sort_out(value, u, *band)
    wide, _ = coil.sort_out(value, u + more, *band)
    assert wide in (narrow, conformity.CLOSE)


@given(st.integers(1, 99_999), st.floats(0.1, 5.0), st.integers(1, 9))
def test_a_worse_meter_never_makes_a_verdict_surer(tenths: int, percent: float, counts: int) -> None:
    fields = {"readings": f"{tenths / 10:.1f}", "meter_pct": f"{percent:.3f}", "meter_counts": str(counts)}
    worse = fields | {"meter_pct": f"{percent * 1.5:.3f}", "meter_counts": str(counts + 1)}
    assert ask(worse)["verdict"] in (ask(fields)["verdict"], conformity.CLOSE)


@given(sizes, conditions, limits)
def test_in_limits_means_all_of_the_interval_is_inside(shown: float, at: ohmmeter.Conditions, band: tuple) -> None:
    value, expanded = ohmmeter.resistance(shown, at), 2 * ohmmeter.standard_uncertainty(shown, at)
    verdict, _ = coil.sort_out(value, expanded, *band)
    low, high = band
    if verdict == conformity.IN:
        assert high is None or value + expanded <= high
        assert not low or value - expanded >= low
        assert conformity.p_conform(value, expanded / 2, low or None, high) > 0.95


@given(st.integers(1, 99_999))
def test_ohm_and_kohm_say_the_same(ohm: int) -> None:
    plain = ask({"readings": f"{ohm}"})
    kilo = ask({"readings": f"{ohm / 1000:.3f}k"})
    both = ask({"readings": f"{ohm / 1000:.3f}"}, {"low": 0.1, "high": 0.5, "unit": "kohm"})
    assert plain["verdict"] == kilo["verdict"] == both["verdict"]
    assert plain["kind"] == kilo["kind"] == both["kind"]
    for other in (kilo, both):
        assert abs(other["value"] - plain["value"]) <= 1e-9 * plain["value"]
        assert abs(other["uncertainty"] - plain["uncertainty"]) <= 1e-9 * plain["uncertainty"]


@pytest.mark.filterwarnings("ignore:Using UFloat objects with std_dev==0")
@given(sizes, conditions)
def test_the_uncertainty_is_what_the_library_uncertainties_propagates(shown: float, at: ohmmeter.Conditions) -> None:
    """uncertainties 3.2.3 differentiates the formula itself; here it is propagated by hand."""
    reading = uncertainties.ufloat(shown, (at.percent / 100 * shown + at.counts * at.resolution) / sqrt(3))
    leads = uncertainties.ufloat(at.lead, 2 * at.resolution / sqrt(3) if at.lead else 0.0)
    warmth = uncertainties.ufloat(at.t, at.u_t)
    expected = (reading - leads) * (at.k + at.t_ref) / (at.k + warmth)
    assert abs(ohmmeter.resistance(shown, at) - expected.n) <= 1e-9 * max(abs(expected.n), 1)
    assert abs(ohmmeter.standard_uncertainty(shown, at) - expected.s) <= 1e-9 * max(expected.s, 1)


@given(st.sampled_from([*FIELDS, "low", "high", "unit"]), typed | st.lists(typed, max_size=4))
def test_no_text_in_any_field_gives_anything_but_a_number_or_a_refusal(field: str, text: object) -> None:
    fields, band = {"readings": "312"}, dict(LIMITS)
    (band if field in ("low", "high", "unit") else fields)[field] = text
    got = ask(fields, band)
    if got["refused"]:
        assert (got["verdict"], got["value"], got["ways"], got["picture"]) == (None, None, [], "")
        assert all(r["field"] and r["message"] for r in got["refused"])
    elif got["kind"] != "open":
        assert isfinite(got["value"])
        assert isfinite(got["uncertainty"])


KEYS = [*FIELDS, "fields", "limits", "low", "high", "unit"]
json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=4),
    max_leaves=8,
)


@given(json_values, json_values, json_values)
def test_no_request_makes_it_fail(fields: object, band: object, label: object) -> None:
    text = json.dumps({"fields": fields, "limits": band, "label": label})
    got = json.loads(answer("coil", text), parse_constant=no_such_number)
    assert all("failed" not in r["message"] for r in got["refused"])


@given(st.text(max_size=20))
def test_what_is_no_json_is_refused(text: str) -> None:
    got = json.loads(answer("coil", text))
    assert got["refused"]
    assert got["verdict"] is None


@given(st.integers(0, 99_999), st.sampled_from([1, 10, 100]), st.integers(1, 20), limits)
def test_the_sentence_shows_its_own_verdict(reading: int, parts: int, counts: int, band: tuple) -> None:
    low, high = (None if b is None else round(b, 2) for b in band)
    fields = {"readings": f"{reading / parts:.{len(str(parts)) - 1}f}", "meter_counts": str(counts)}
    got = ask(fields, {"low": low, "high": high, "unit": "ohm"})
    if got["refused"] or got["kind"] in ("short", "open"):
        return
    value, give = got["sentence"].replace("\u202f", "").split(" ohm")[0].split(" ± ")
    assert conformity.judge(float(value), float(give), low or None, high) == got["verdict"]
