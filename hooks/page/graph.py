"""Steps and ways as data: what the page's own scripts, and other tools, may follow."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable

from hooks.check.analysis import Analysis, Edge, State
from hooks.model import Page, Step
from hooks.page import lines, words
from hooks.parse import durations

Graph = dict[str, object]
STATES = tuple(state.name.lower() for state in State)
"""How a script calls each state."""


def graph(page: Page, analysis: Analysis | None, machines: Iterable[Graph] = ()) -> Graph:
    """The graph of a page; what is not known or not so is left out.

    `digest` is another one whenever anything on the page was changed. `models`: name to options.
    `energies`: name, shown (its name on screens), point (blade, tap or tank: how it is drawn).
    `off_limit`: seconds that the machine may stand without power. `machines`: see `course.machines`.
    `nodes`: number, id, title, hands (hands go in), optional, verifies, restores, installs (name and number),
    reads (ids of its readings), wait (seconds), fitted (the models that have the step), how it ends (end,
    outcome, cause, then). `edges`: from (0 is the start), to, words, models.
    """
    return _short(
        {
            "page": page.id,
            "title": page.title,
            "revision": page.front.revision,
            "digest": digest(page),
            "appliance": page.appliance,
            "energies": [{"name": e.name, "shown": words.name(e.name), "point": lines.point(e)} for e in page.energies],
            "models": {m.name: sorted(m.options) for m in page.models},
            "off_limit": durations.seconds(page.off_limit or ""),
            "nodes": [_node(page, step) for step in page.steps],
            "edges": [_edge(e) for e in (analysis.edges if analysis else ())],
            "machines": list(machines),
        }
    )


def text(page: Page, analysis: Analysis | None, machines: Iterable[Graph] = ()) -> str:
    """The graph as JSON that can stand inside a script element."""
    found = json.dumps(graph(page, analysis, machines), ensure_ascii=False, separators=(",", ":"))
    return found.replace("<", "\\u003c")


def digest(page: Page) -> str:
    """Another one whenever the source of the page, or of steps that it shares, is another."""
    sources = (page.source, *(shared.source for shared in page.shared))
    return hashlib.sha256("\0".join("\n".join(s.lines) for s in sources).encode()).hexdigest()[:16]


def _node(page: Page, step: Step) -> Graph:
    numbers = {part.name: part.number for part in page.front.parts or ()}
    node: Graph = {
        "number": step.number,
        "id": step.id,
        "title": step.title,
        "hands": step.hands_on,
        "optional": step.optional,
        "verifies": list(step.verify),
        "restores": list(step.restore),
        "installs": [_short({"name": name, "number": numbers.get(name)}) for name in step.installs],
        "reads": [reading.id for reading in step.readings],
        "wait": durations.seconds(step.wait or ""),
        "end": step.end,
        "outcome": step.outcome,
        "cause": step.cause,
        "then": step.then,
        "fitted": [m.name for m in page.models if step.only.holds(m.options)] if step.only else None,
    }
    return _short(node)


def _edge(edge: Edge) -> Graph:
    return {"from": edge.source, "to": edge.target, "words": edge.words, "models": list(edge.models)}


def _short(found: Graph) -> Graph:
    return {key: value for key, value in found.items() if value not in (None, False, "", [], ())}
