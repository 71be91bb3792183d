"""What holds for every thermistor, heater, coil and frame; against libraries that know nothing of the calculators."""

from __future__ import annotations

from math import exp, log, sqrt

import fluids
import iapws
import pint
import pytest
import uncertainties
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from uncertainties import umath

from calculators import coils, frame, heater, thermistor
from calculators._lib import boiling, conformity, heating, ntc, sensing
from calculators._lib.ohmmeter import Conditions
from calculators._lib.sensing import Sensor
from tests.calculators.asked import ask

untimed = settings(deadline=None)
betas = st.builds(ntc.beta_curve, st.floats(500.0, 1e5), st.floats(2500.0, 5000.0))
steinharts = st.builds(
    ntc.Piece, st.floats(9e-4, 1.3e-3), st.floats(2e-4, 2.6e-4), st.floats(0.0, 3e-7) | st.floats(-1e-8, 0.0)
).map(lambda piece: (piece,))
tables = betas.flatmap(
    lambda curve: st.lists(st.integers(-30, 120), min_size=2, max_size=6, unique=True).map(
        lambda ts: ntc.table_curve([(t, ntc.ohm(t, curve) * 1.01 ** (i % 2)) for i, t in enumerate(sorted(ts))])
    )
)
curves = betas | steinharts | tables
temperatures = st.floats(-40.0, 150.0)
meters = st.builds(Conditions, st.floats(0.1, 3.0), st.floats(0.0, 5.0), st.sampled_from([1.0, 10.0, 100.0]))
percents = st.floats(0.1, 10.0)


@untimed
@given(curves, temperatures)
def test_ohms_of_a_temperature_tell_that_temperature(curve: ntc.Curve, t: float) -> None:
    assert ntc.celsius(ntc.ohm(t, curve), curve) == pytest.approx(t, abs=1e-6)


@untimed
@given(curves, temperatures, st.floats(0.01, 20.0))
def test_a_thermistor_falls_all_the_way(curve: ntc.Curve, t: float, step: float) -> None:
    assert ntc.ohm(t + step, curve) < ntc.ohm(t, curve)


@untimed
@given(steinharts, temperatures)
def test_the_inverse_of_steinhart_and_hart_is_what_scipy_finds(curve: ntc.Curve, t: float) -> None:
    (piece,) = curve
    root = brentq(lambda x: piece.a + piece.b * x + piece.c * x**3 - 1 / (t + 273.15), -5.0, 30.0, xtol=1e-13)
    assert ntc.ohm(t, curve) == pytest.approx(exp(root), rel=1e-9)


@untimed
@given(curves, temperatures)
def test_the_share_a_kelvin_is_the_slope(curve: ntc.Curve, t: float) -> None:
    assume(all(abs(t - piece.high) > 1e-3 for piece in curve))
    before, after = ntc.ohm(t - 1e-4, curve), ntc.ohm(t + 1e-4, curve)
    assert ntc.share_per_kelvin(t, curve) == pytest.approx(log(before / after) / 2e-4, rel=1e-5)


@pytest.mark.filterwarnings("ignore:Using UFloat objects with std_dev==0")
@untimed
@given(st.floats(500.0, 1e5), st.floats(2500.0, 5000.0), percents, percents, temperatures, st.floats(0.0, 0.05))
def test_the_told_temperature_is_as_unsure_as_the_library_uncertainties_says(
    r25: float, b: float, r25_pct: float, b_pct: float, t: float, share: float
) -> None:
    """uncertainties 3.2.3 differentiates the formula itself; here it is propagated by hand."""
    curve = ntc.beta_curve(r25, b)
    shown = ntc.ohm(t, curve)
    told, give = Sensor(curve, r25_pct, b_pct).told(shown, share * shown)
    reading = uncertainties.ufloat(shown, share * shown)
    nominal = uncertainties.ufloat(r25, r25_pct / 100 * r25 / sqrt(3))
    steep = uncertainties.ufloat(b, b_pct / 100 * b / sqrt(3))
    expected = 1 / (1 / 298.15 + umath.log(reading / nominal) / steep) - 273.15
    assert told == pytest.approx(expected.n, abs=1e-6)
    assert give == pytest.approx(2 * expected.s, rel=1e-6)


@untimed
@given(betas, temperatures, percents, percents)
def test_the_band_holds_every_sensor_that_its_tolerances_allow(
    curve: ntc.Curve, t: float, r25_pct: float, b_pct: float
) -> None:
    low, high = ntc.band(t, curve, r25_pct, b_pct)
    r25, b = ntc.ohm(25.0, curve), 1 / curve[0].b
    corners = [
        ntc.ohm(t, ntc.beta_curve(r25 * (1 + x * r25_pct / 100), b * (1 + y * b_pct / 100)))
        for x in (-1, 0, 1)
        for y in (-1, 0, 1)
    ]
    assert min(corners) == pytest.approx(low)
    assert max(corners) == pytest.approx(high)


@untimed
@given(st.floats(-40, 150), st.integers(1, 4000), st.floats(0.0, 3.0), st.floats(0.01, 3.0))
def test_a_worse_bath_or_meter_never_makes_a_verdict_surer(t: float, tens: int, error: float, more: float) -> None:
    fields = {"readings": f"{tens / 100:.2f}k", "r25": "10k", "b": "3977", "bath": f"{t:.2f}"}
    narrow = ask("thermistor", fields | {"bath_error": f"{error:.3f}"})["verdict"]
    assert ask("thermistor", fields | {"bath_error": f"{error + more:.3f}"})["verdict"] in (narrow, conformity.CLOSE)
    worse = fields | {"bath_error": f"{error:.3f}", "meter_pct": "3"}
    assert ask("thermistor", worse)["verdict"] in (narrow, conformity.CLOSE)


@untimed
@given(st.integers(2000, 99_999), st.integers(-20, 90))
def test_kohm_and_fahrenheit_say_the_same_as_ohm_and_celsius(ohm: int, t: int) -> None:
    sensor = {"r25": "10000", "b": "3977"}
    one = ask("thermistor", sensor | {"readings": f"{ohm}", "bath": f"{t}"})
    other = ask("thermistor", sensor | {"readings": f"{ohm / 1000:.3f} k", "bath": f"{t * 1.8 + 32:.1f} °F"})
    assert (one["verdict"], one["kind"]) == (other["verdict"], other["kind"])
    assert one["value"] == pytest.approx(other["value"])
    assert one["uncertainty"] == pytest.approx(other["uncertainty"])


@untimed
@given(st.integers(-300, 900).filter(lambda tenths: tenths))
def test_a_platinum_sensor_is_never_in_limits_where_a_thermistor_is_wanted(tenths: int) -> None:
    t = tenths / 10
    reading = f"{ntc.platinum_ohm(t):.1f}"
    got = ask("thermistor", {"readings": reading, "r25": "47k", "b": "3950", "bath": f"{t}"})
    assert got["verdict"] in (conformity.BELOW, conformity.ABOVE)
    assert any("Pt1000" in note for note in got["notes"])


ohms = st.floats(2.0, 5000.0)


@untimed
@given(st.lists(ohms, min_size=3, max_size=6), st.randoms(), st.floats(0.1, 10.0))
def test_the_same_coil_stands_out_in_any_order_and_unit(values: list[float], random: object, factor: float) -> None:
    found = coils.furthest(values)
    mixed = values[:]
    random.shuffle(mixed)
    assert coils.furthest(mixed).percent == pytest.approx(found.percent, abs=1e-6)
    assert coils.furthest([v * factor for v in values]).percent == pytest.approx(found.percent, abs=1e-6)


@untimed
@given(st.floats(100.0, 1000.0), st.floats(0.1, 0.8) | st.floats(1.25, 8.0), st.integers(0, 3))
def test_of_equal_coils_the_odd_one_is_found(r: float, times: float, place: int) -> None:
    values = [r] * 4
    values[place] = r * times
    assert coils.furthest(values).place == place


@pytest.mark.filterwarnings("ignore:Using UFloat objects with std_dev==0")
@untimed
@given(ohms, ohms, meters, st.floats(0.0, 20.0))
def test_the_difference_of_two_coils_is_as_unsure_as_the_library_uncertainties_says(
    one: float, other: float, at: Conditions, warmth: float
) -> None:
    def read(r: float) -> uncertainties.UFloat:
        return uncertainties.ufloat(r, (at.percent / 100 * r + at.counts * at.resolution) / sqrt(3))

    warm = (254.5 + uncertainties.ufloat(0.0, warmth / sqrt(3))) / 254.5
    expected = (read(one) / read(other) * warm - 1) * 100
    found = coils.Furthest(0, one, other)
    assert found.percent == pytest.approx(expected.n, abs=1e-9)
    assert coils.expanded_percent(found, at, warmth) == pytest.approx(2 * expected.s)


@untimed
@given(st.floats(0.0, 1e6) | st.just(float("inf")), st.floats(0.0, 0.5), st.floats(0.1, 249.9), st.floats(0.001, 1e3))
def test_no_multimeter_ever_passes_insulation(r: float, share: float, volts: float, low: float) -> None:
    expanded = 0.0 if r == float("inf") else share * r
    assert frame.sort_out(r, expanded, volts, low)[0] != conformity.IN
    stronger = frame.sort_out(r, expanded, 500.0, low)[0]
    assert (stronger == conformity.BELOW) == (frame.sort_out(r, expanded, volts, low)[0] == conformity.BELOW)


volts, watts = st.floats(6.0, 480.0), st.floats(5.0, 12_000.0)
UNITS = pint.UnitRegistry()


@untimed
@given(volts, watts, percents, percents)
def test_ohms_and_watts_of_a_heater_are_those_of_the_library_pint(v: float, p: float, plus: float, minus: float) -> None:
    r = ((v * UNITS.volt) ** 2 / (p * UNITS.watt)).to("ohm").magnitude
    assert heating.ohm(v, p) == pytest.approx(r)
    assert heating.watts(v, heating.ohm(v, p)) == pytest.approx(p)
    low, high = heating.band(v, p, plus, minus)
    assert low < r < high
    assert (heating.watts(v, low), heating.watts(v, high)) == pytest.approx((p * (1 + plus / 100), p * (1 - minus / 100)))


@untimed
@given(st.lists(st.floats(1.0, 500.0), min_size=2, max_size=3))
def test_side_by_side_is_less_than_the_least_and_in_a_row_more_than_the_most(parts: list[float]) -> None:
    assert heating.parallel(parts) < min(parts) <= max(parts) < heating.series(parts)


@untimed
@given(volts, watts, st.integers(1, 3000), st.floats(0.1, 3.0))
def test_a_worse_meter_never_makes_the_verdict_on_a_heater_surer(v: float, p: float, tenths: int, more: float) -> None:
    fields = {"readings": f"{tenths / 10:.1f}", "volts": f"{v:.1f}", "watts": f"{p:.1f}"}
    fine = ask("heater", fields)["verdict"]
    assert ask("heater", fields | {"meter_pct": f"{0.8 + more:.2f}"})["verdict"] in (fine, conformity.CLOSE)


@untimed
@given(st.floats(1.0, 20.0), st.floats(20.0, 50.0), st.floats(60.0, 95.0), watts)
def test_water_takes_the_heat_that_iapws_gives_it(kilogram: float, cold: float, hot: float, power: float) -> None:
    """iapws 1.5.5, IF97: enthalpy of water at one atmosphere; one specific heat for all is within 1 %."""
    warm, start = (iapws.IAPWS97(T=t + 273.15, P=0.101325).h * 1e3 for t in (hot, cold))
    seconds = heating.heating_seconds(kilogram, cold, hot, power, 1.0)
    assert seconds == pytest.approx(kilogram * (warm - start) / power, rel=0.01)


@untimed
@given(st.floats(-400.0, 5000.0))
def test_water_boils_up_a_mountain_as_fluids_and_iapws_say(altitude: float) -> None:
    """fluids 1.3.1 (US Standard Atmosphere 1976) and iapws 1.5.5 (IF97)."""
    air = fluids.ATMOSPHERE_1976(altitude).P
    assert boiling.pressure(altitude) == pytest.approx(air, rel=1e-6)
    assert boiling.celsius(altitude) == pytest.approx(iapws.IAPWS97(P=air / 1e6, x=0).T - 273.15, abs=0.01)


@pytest.mark.parametrize(
    ("found", "published"),
    [
        # IEC 60751, Pt100 at 100 °C; from memory, recomputed.
        (ntc.platinum_ohm(100.0, 100.0), 138.5055),
        # A 208 V outlet on a 240 V element: 75 %; arithmetic.
        (round((208 / 240) ** 2, 2), 0.75),
        # Saturation at one atmosphere is 99.974 °C, not 100; IAPWS-95, from memory, recomputed.
        (round(boiling.celsius(0.0), 2), 99.97),
    ],
)
def test_a_published_value(found: float, published: float) -> None:
    assert found == pytest.approx(published, rel=1e-9)


def test_a_cold_element_of_nickel_has_the_ohms_of_its_ratio() -> None:
    label = heater.Label(120.0, 500.0, 5.0, 10.0, 4.5)
    low, high = label.band()
    assert low < 6.4 < high
    assert label.watts_of(6.4) == pytest.approx(500.0)


def test_no_description_that_lies_outside_of_what_thermistors_are_gives_a_number() -> None:
    assert sensing.temperature(1e-30, ntc.beta_curve(10_000.0, 3977.0)) is None
    assert thermistor.sort_out(0.0, 0.0, None, 100.0) == (conformity.BELOW, "short")


@pytest.mark.parametrize(
    "senseless",
    [
        lambda: ntc.beta_curve(10_000.0, 0.0),
        lambda: ntc.beta_curve(0.0, 3977.0),
        lambda: ntc.ohm(-273.15, ntc.beta_curve(10_000.0, 3977.0)),
        lambda: ntc.b_between(25.0, 10_000.0, 25.0, 9900.0),
        lambda: ntc.table_curve([(0.0, 1000.0), (100.0, 1385.0)]),
        lambda: ntc.self_heating(10_000.0, 1e-4, 0.0),
        lambda: ntc.platinum_ohm(900.0),
        lambda: heating.ohm(230.0, 0.0),
        lambda: heating.band(230.0, 2000.0, -5.0, 10.0),
        lambda: heating.watts(230.0, 0.0),
        lambda: heating.cold(28.8, 0.0),
        lambda: heating.parallel([0.0, 24.0]),
        lambda: heating.heating_seconds(1.0, 60.0, 20.0, 2000.0, 0.9),
        lambda: boiling.celsius(20_000.0),
    ],
)
def test_what_makes_no_sense_gives_no_number(senseless: object) -> None:
    with pytest.raises(ValueError, match="needed|known|holds|no such"):
        senseless()
