"""What an ohmmeter says of a winding, and how far it can be believed. Ohms, degrees Celsius, kelvin.

Sources: (1) the temperature of windings, see `winding`. (2) JCGM 100, 4.3.7 and 5.1.2. (3) The makers'
way to state accuracy, ± (percent of reading + counts of the last digit): common practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from calculators._lib import uncertainty, winding
from calculators._lib.words import number


LEADS_MATTER_OHM = 20.0
"""Under this, what the leads add is worth taking off: some tenths of an ohm (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Conditions:
    """All that turns what the meter shows into the resistance of the coil; ohms, degrees Celsius, kelvin."""

    percent: float
    counts: float
    resolution: float
    lead: float = 0.0
    t: float = 20.0
    t_ref: float = 20.0
    u_t: float = 0.0
    k: float = winding.COPPER


def meter_error(shown: float, at: Conditions) -> float:
    """The largest error of the meter by its maker: percent of what it shows, and counts of its last digit.

    >>> round(meter_error(200.0, Conditions(0.8, 3, 0.1)), 6)
    1.9
    """
    return at.percent / 100 * shown + at.counts * at.resolution


def resistance(shown: float, at: Conditions) -> float:
    """The coil at the reference temperature: (shown - lead) (k + t_ref) / (k + t). Sources 1, 2.

    >>> round(resistance(262.0, Conditions(0.8, 3, 0.1, t=100.0)), 3)
    199.339
    """
    return winding.at_temperature(shown - at.lead, at.t, at.t_ref, at.k)


def standard_uncertainty(shown: float, at: Conditions, u_repeat: float = 0.0) -> float:
    """Standard uncertainty of `resistance`; the meter's and the leads' part do not average out. Source 3.

    Meter: a / sqrt 3. Leads, if they were subtracted: 2 resolution / sqrt 3. Both are scaled with the
    temperature; the temperature itself adds R u_t / (k + t).

    >>> round(standard_uncertainty(262.0, Conditions(0.8, 3, 0.1, t=100.0, u_t=2.0)), 6)
    1.590055
    """
    leads = uncertainty.rectangular(2 * at.resolution) if at.lead else 0.0
    read = uncertainty.combined(uncertainty.rectangular(meter_error(shown, at)), leads, u_repeat)
    scale = winding.at_temperature(1.0, at.t, at.t_ref, at.k)
    warmth = resistance(shown, at) * at.u_t / (at.k + at.t)
    return uncertainty.combined(read * scale, warmth)


def meter_words(at: Conditions) -> str:
    """The meter, as its maker says it.

    >>> meter_words(Conditions(0.8, 1, 1.0))
    '± (0.8 % + 1 digit), shows steps of 1 ohm'
    """
    digits = f"{number(at.counts)} digit{'' if at.counts == 1 else 's'}"
    steps = f", shows steps of {number(at.resolution)} ohm" if at.resolution else ""
    return f"± ({number(at.percent)} % + {digits}){steps}"


def notes(at: Conditions, low: float | None = None, high: float | None = None) -> tuple[str, ...]:
    """What is to be noted of meter and leads beside what is judged by these limits, ohm.

    >>> notes(Conditions(0.0, 0.0, 1.0), 100.0, None), notes(Conditions(0.8, 1, 1.0))
    (('The meter is counted as without error. No meter is.',), ())
    """
    said = []
    if (high or low or inf) < LEADS_MATTER_OHM and not at.lead:
        said.append("So few ohms: read the shorted leads too and type what they read, or zero the meter on them.")
    if not at.percent and not at.counts:
        said.append("The meter is counted as without error. No meter is.")
    return tuple(said)
