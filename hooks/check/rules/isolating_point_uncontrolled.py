"""A step cuts an energy and does not say how nobody turns it on again.

Why:
    A plug on the floor is put back by whoever passes; a shut valve is opened by whoever lacks
    water. A plug stays in sight, in hand or covered; any other point is locked or tagged.
    Informed by 29 CFR 1910.147(a)(2)(iii)(A) and (d)(4).

Example reported:
    ### Unplug it {#unplug isolate="electricity"}
    Pull the plug.

Example mended:
    ### Unplug it {#unplug isolate="electricity"}
    Pull the plug and keep it in sight.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.english import IN_SIGHT, LOCKED, PLUG
from hooks.check.found import Found, listed
from hooks.diagnostics import Level
from hooks.model import Energy, Page, Step
from hooks.parse.result import ParsedShop

LEVELS = (Level.WARNING,)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """One finding for each step, about all its points that anybody could turn on again."""
    known = {energy.name: energy for energy in page.energies if not energy.stored}
    for step in page.steps:
        cut = [known[name] for name in step.isolate if name in known]
        loose = [energy for energy in cut if not _controlled(step, energy)] if cut else []
        if loose:
            yield _found(step, loose)


def _point(step: Step, energy: Energy) -> str:
    return step.at or (energy.points[0] if energy.points else "")


def _controlled(step: Step, energy: Energy) -> bool:
    asked = IN_SIGHT if PLUG.search(_point(step, energy)) else LOCKED
    return bool(asked.search(f"{step.title}\n{step.prose}"))


def _found(step: Step, loose: list[Energy]) -> Found:
    points = list(dict.fromkeys(_point(step, energy) for energy in loose))
    plugs = [PLUG.search(point) for point in points]
    asked = "stays in sight, in hand or covered" if all(plugs) else "is locked or tagged"
    verb = "Say that it" if len(points) == 1 else "Say of each that it"
    return Found(
        step.span_of("isolate"),
        f'"{step.title}" does not say how the {listed(points)} stays off',
        f"{verb} {asked}." if all(plugs) or not any(plugs) else f"{verb} {asked}, and a plug in sight.",
        step,
        loose[0].name if len(loose) == 1 else None,
        level=Level.WARNING,
    )
