"""What ohms say of a wire between two tabs: in its limits, open, short. Ohms.

Sources: (1) JCGM 106, 7 and 8, and ILAC-G8:09/2019, 4.2.3: guard band w = U. (2) Common practice, no source.
"""

from __future__ import annotations

from math import isinf

from calculators._lib import conformity

SHORT_OHM = 0.5
"""No more than this is a short, if the limits do not allow it (2)."""
OPEN_TIMES = 10.0
"""From this many times the upper limit on, it is open (2)."""
TURNS_SHARE = 0.1
"""Under this share of the lower limit, turns are shorted (2)."""


def sort_out(value: float, expanded: float, low: float | None, high: float | None) -> tuple[str, str | None]:
    """The verdict on a coil or a heater, and its kind where there is more to say (1) (2).

    A limit that does not exist never makes an open or a shorted one good; a lower limit of 0 is
    what nothing can be below, so the meter's error does not count there.

    >>> sort_out(312.0, 4.0, 100.0, 500.0), sort_out(9.0, 0.2, 180.0, 220.0), sort_out(0.1, 0.1, None, 500.0)
    (('in limits', None), ('below limits', 'shorted turns'), ('below limits', 'short'))
    """
    if isinf(value):
        return conformity.ABOVE, "open"
    verdict = conformity.judge(value, expanded, low or None, high)
    if value <= SHORT_OHM and (low is None or verdict == conformity.BELOW):
        return conformity.BELOW, "short"
    if verdict == conformity.ABOVE and high is not None and value >= OPEN_TIMES * high:
        return verdict, "open"
    if verdict == conformity.BELOW and low is not None and value < TURNS_SHARE * low:
        return verdict, "shorted turns"
    unable = verdict == conformity.CLOSE and conformity.cannot_pass(expanded, low, high)
    return verdict, "cannot tell" if unable else None
