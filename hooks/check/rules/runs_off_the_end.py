"""A path runs past the last step without coming to an end.

Why:
    Only an `end` step says in which state the machine is left.

Example reported:
    ### Plug in {#plug-in restore="electricity" clear}
    Dry hands.

Example mended:
    ### Plug in {#plug-in restore="electricity" clear}
    Dry hands.
    ### Back in service {#done end="in service"}
    Run it once.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.walk import Walk
from hooks.check.walk import concerned, path_to


def on_graph(walks: tuple[Walk, ...]) -> Iterator[Found]:
    """One finding: only the last step can fall off."""
    page = walks[0].page
    falling = [walk for walk in walks if walk.fell_off]
    if not falling:
        return
    walk = falling[0]
    place, node = next(iter(walk.fell_off.items()))
    step = page.steps[place]
    models = tuple(name for w in falling for name in w.machine.models)
    yield Found(
        step.span,
        f'a path runs off the end of the page after "{step.title}"',
        "Add a step with `end` after it, or lead it to one with `Next: […](#…)`.",
        step,
        models=concerned(page, models),
        path=path_to(walk, node, "runs off the end here"),
    )
