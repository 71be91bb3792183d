"""Another page does not leave the machine as this page's condition says.

Why:
    A page that begins with the power proved off asks for no proof of its own. So what the
    other page leaves is worked out from its ends `left safe`, on every way and every model,
    and is not taken from what is written. Informed by 29 CFR 1910.147 (verify before work)
    and by the required conditions of DITA and S1000D.

Example reported:
    before: [{page: heater-out, holds: {fuel: proved}}]

    (heater-out)
    ### Shut the fuel {#shut isolate="fuel"}
    Tag it.
    ### Leave it {#leave end="left safe"}
    Tell the office.

Example mended:
    before: [{page: heater-out, holds: {fuel: proved}}]

    (heater-out)
    ### Shut the fuel {#shut isolate="fuel"}
    Tag it.
    ### Is it out? {#out verify="fuel"}
    - **Proved**: [Leave it](#leave)
    - **Not proved**: [Shut the fuel](#shut)
    ### Leave it {#leave end="left safe"}
    Tell the office.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.before import Before, faults
from hooks.check.found import Found
from hooks.model import Page


def on_before(page: Page, made: Before) -> Iterator[Found]:
    """Each promise that an end of the other page does not keep."""
    return faults(page, made)
