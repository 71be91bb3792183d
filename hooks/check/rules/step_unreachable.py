"""No path on any model reaches a step.

Why:
    A step that nobody comes to is not done: a proof or a closing step may be lost
    there because a way out leads past it.

Example reported:
    ### Swap the part {#swap work}
    One wire at a time.
    Next: [Plug in](#plug-in)
    ### Close the panel {#close work closes="panel"}
    Two screws.
    ### Plug in {#plug-in restore="electricity" clear}
    Dry hands.

Example mended:
    ### Swap the part {#swap work}
    One wire at a time.
    ### Close the panel {#close work closes="panel"}
    Two screws.
    ### Plug in {#plug-in restore="electricity" clear}
    Dry hands.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.graph import lost
from hooks.check.walk import Walk


def on_graph(walks: tuple[Walk, ...]) -> Iterator[Found]:
    """The first of each run of such steps; none where a lost jump or way out explains it."""
    page = walks[0].page
    if lost(page) or not all(walk.complete for walk in walks):
        return
    reached = {node.place for walk in walks for node in walk.came}
    for place, step in enumerate(page.steps):
        if place in reached or (place and place - 1 not in reached):
            continue
        run = next((n for n in range(place, len(page.steps)) if n in reached), len(page.steps))
        more = run - place - 1
        yield Found(
            step.span,
            f'no path reaches "{step.title}"' + (f" and {more} more after it" if more else ""),
            "Lead a way out to it, or take it away.",
            step,
        )
