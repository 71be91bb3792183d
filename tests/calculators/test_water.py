"""Water and ice against the library iapws, at random temperatures."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from iapws import IAPWS95
from iapws._iapws import _Ice, _Liquid, _Tension
from iapws.iapws97 import _PSat_T

from calculators._lib import water

MEGA = 1e-6
liquid = st.floats(0.1, 99.0)
frozen = st.floats(-40.0, -0.1)
untimed = settings(deadline=None)
few = settings(max_examples=25, deadline=None)
"""One call of the library takes some milliseconds."""


@few
@given(liquid)
def test_water_is_as_the_international_formulation_has_it(t: float) -> None:
    known = IAPWS95(T=t + water.KELVIN, P=water.ATMOSPHERE * MEGA, rho0=1000)
    assert water.density(t) == pytest.approx(known.rho, rel=2e-5)
    assert water.viscosity(t) == pytest.approx(known.mu, rel=1e-4)
    assert water.heat_capacity(t) == pytest.approx(known.cp * 1e3, rel=2e-4)


@untimed
@given(liquid)
def test_viscosity_and_vapour_pressure_are_those_of_the_releases(t: float) -> None:
    kelvin = t + water.KELVIN
    assert water.viscosity(t) == pytest.approx(_Liquid(kelvin, P=0.1)["mu"], rel=1e-9)
    assert water.vapour_pressure(t) == pytest.approx(_PSat_T(kelvin) / MEGA, rel=2e-4)
    assert water.surface_tension(t) == pytest.approx(_Tension(kelvin), rel=1e-9)


@untimed
@given(frozen)
def test_ice_is_as_the_international_formulation_has_it(t: float) -> None:
    known = _Ice(t + water.KELVIN, water.ATMOSPHERE * MEGA)
    assert water.ice_density(t) == pytest.approx(known["rho"], rel=1e-5)
    assert water.ice_heat_capacity(t) == pytest.approx(known["cp"] * 1e3, rel=1e-4)


def test_viscosity_at_25_degrees() -> None:
    """IAPWS R12-08, Table 4: 889.7351 uPa s at 298.15 K and 998 kg/m3; from memory, recomputed with iapws 1.5.5."""
    assert water.viscosity(25.0) * 1e6 == pytest.approx(889.7351, rel=1e-3)


def test_melting_takes_what_handbooks_say() -> None:
    """Feistel and Wagner 2006, IAPWS R10-06: about 333.43 kJ/kg; from memory, recomputed with iapws 1.5.5."""
    assert water.LATENT_HEAT == pytest.approx(333_430, rel=1e-4)


def test_water_boils_at_one_atmosphere_a_little_under_100_degrees() -> None:
    assert water.vapour_pressure(99.97) == pytest.approx(water.ATMOSPHERE, rel=2e-4)


@untimed
@given(st.floats(4.1, 60.0), st.floats(0.01, 30.0))
def test_warmer_water_is_lighter_and_runs_easier(t: float, more: float) -> None:
    assert water.density(t + more) < water.density(t)
    assert water.viscosity(t + more) < water.viscosity(t)
