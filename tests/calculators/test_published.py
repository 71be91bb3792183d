"""Values that are published, each beside where it stands and how it was seen."""

from __future__ import annotations

import json

import pytest

from calculators._lib import conformity, winding
from calculators._lib.entry import answer


@pytest.mark.parametrize(
    ("y", "u", "low", "high", "chance"),
    [
        # JCGM 106:2012, 7.3, a Zener diode; from memory, the arithmetic recomputed.
        (-5.47, 0.05, None, -5.40, 0.92),
        # JCGM 106:2012, 7.4, oil of grade SAE 40; from memory, the arithmetic recomputed.
        (13.6, 1.8, 12.5, 16.3, 0.66),
    ],
)
def test_the_probability_of_conformity(y: float, u: float, low: float | None, high: float, chance: float) -> None:
    assert round(conformity.p_conform(y, u, low, high), 2) == chance


@pytest.mark.parametrize(("p", "z"), [(0.8, 0.84), (0.9, 1.28), (0.95, 1.64), (0.99, 2.33), (0.999, 3.09)])
def test_the_z_of_a_probability(p: float, z: float) -> None:
    """JCGM 106:2012, Table 1; from memory, recomputed with scipy 1.17.1."""
    assert round(conformity.z_value(p), 2) == z


@pytest.mark.parametrize("p", [0.0, 1.0, -1.0, float("nan")])
def test_there_is_no_z_for_what_is_no_probability(p: float) -> None:
    with pytest.raises(ValueError, match="between 0 and 1"):
        conformity.z_value(p)


def test_a_coil_on_alternating_current_is_not_its_resistance() -> None:
    """JCGM 100:2008, H.2, Table H.3 (R = 127.732, X = 219.847, |Z| = 254.260 ohm), seen quoted in an open library."""
    henry = 219.847 / winding.reactance(1.0, 400.0)
    assert winding.impedance(127.732, henry, 400.0) == pytest.approx(254.260, abs=0.001)


@pytest.mark.parametrize(
    ("awg", "ohm"), [(10, 0.9989), (18, 6.385), (24, 25.67), (30, 103.2), (36, 414.8), (40, 1049)]
)
def test_a_thousand_feet_of_copper_wire(awg: int, ohm: float) -> None:
    """Handbook wire table of ASTM B258 sizes at 20 °C; from memory."""
    assert float(f"{winding.wire_ohm_per_metre(awg) * winding.FOOT * 1000:.4g}") == ohm


def test_the_k_of_copper_agrees_with_its_temperature_coefficient() -> None:
    """IEC 60028: 0.00393 for each degree at 20 °C; from memory."""
    assert round(1 / (winding.COPPER + 20), 5) == 0.00393


def test_a_hot_coil_is_divided_not_lowered_by_a_share() -> None:
    """At 100 °C the short form R (1 - 0.00393 * 80) is 10 % too low."""
    right, short = winding.at_temperature(262.0, 100.0, 20.0), 262.0 * (1 - 0.00393 * 80)
    assert short / right == pytest.approx(0.90, abs=0.005)


def test_a_coil_hot_from_use_reads_up_to_a_third_too_high() -> None:
    assert 1.3 < winding.at_temperature(1.0, 20.0, 100.0) < 4 / 3


@pytest.mark.parametrize("low", [100, 200, 20])
def test_coils_of_common_practice_are_in_their_usual_limits(low: int) -> None:
    """Usual ranges of valve coils (100 to 500, 200 to 500, 20 to 80 ohm): common practice, no source."""
    high = {100: 500, 200: 500, 20: 80}[low]
    request = {"fields": {"readings": str((low + high) // 2)}, "limits": {"low": low, "high": high, "unit": "ohm"}}
    assert json.loads(answer("coil", json.dumps(request)))["verdict"] == conformity.IN


def test_colder_than_the_formula_holds_is_refused() -> None:
    with pytest.raises(ValueError, match="colder"):
        winding.at_temperature(100.0, -234.5, 20.0)
