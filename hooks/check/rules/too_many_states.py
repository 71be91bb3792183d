"""The page has more states than can be followed, so nothing about it is proved.

Why:
    A search that stops early must say so: silence would look like a page that passed.

Example reported:
    A page of hundreds of steps where each optional step opens, cuts or turns on
    something of its own.

Example mended:
    The same job as several pages, each with its own end; `then` leads from one to the
    next.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.walk import Walk
from hooks.check.walk import concerned


def on_graph(walks: tuple[Walk, ...]) -> Iterator[Found]:
    """One finding for the page."""
    page = walks[0].page
    given_up = [walk for walk in walks if not walk.complete]
    if given_up:
        reached = max(len(walk.came) for walk in given_up)
        yield Found(
            page.span,
            f"the page was not followed to its end: more than {reached - 1} states of its steps",
            "Cut the page in two, or take `optional` steps and loops away.",
            models=concerned(page, tuple(n for walk in given_up for n in walk.machine.models)),
        )
