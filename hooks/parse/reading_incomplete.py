"""A reading lacks its id, label, unit or limits, or a step names one that is not there.

Why:
    The verdict at the machine is computed from the limits, and a decision on a reading that
    does not exist would be judged by nothing.

Example reported:
    ### Measure the coil {#coil check reads="coil"}
    ```reading
    id: coil
    label: Coil resistance
    limits: [700, 1500]
    ```

Example mended:
    ### Measure the coil {#coil check reads="coil"}
    ```reading
    id: coil
    label: Coil resistance
    unit: ohm
    limits: [700, 1500]
    ```
"""

from __future__ import annotations

from collections.abc import Sequence

from hooks.diagnostics import StepRef
from hooks.model import Reading, Step
from hooks.parse import tree
from hooks.parse.fields import READING
from hooks.parse.fit import fit, number
from hooks.parse.lines import Body, Fence
from hooks.parse.notes import Notes, choose
from hooks.parse.tree import Items, Mapping, Text
from hooks.source import Span

_BOUNDS = ("limits", "at-least", "at-most")
_NOT_OF_A_READING = ("### ", "```", "- **", "!!! ")
"""How a line begins that can only stand after a reading, so its end must have been left out."""


def is_reading(fence: Fence) -> bool:
    """Whether a fence is a reading."""
    return fence.info.split()[:1] == ["reading"]


def reading(body: Body, fence: Fence, span: Span, notes: Notes) -> Reading | None:
    """The reading in a fence, None with a finding where it has no id."""
    notes = notes.by(__name__).aside()
    first, end = fence.inside
    if any(body.line(n).startswith(_NOT_OF_A_READING) for n in range(first, end)):
        notes.error(span, "this reading is not closed", "Put ``` on a line of its own after its last line.")
        return None
    node = (
        tree.read([body.line(n) for n in range(first, end)], first, notes) if end > first else None
    )
    if not isinstance(node, Mapping):
        if node is not None or end <= first:
            notes.error(span, "the reading has no keys", "Write id, label, unit and limits.")
        return None
    facts = fit(READING, node, notes, "the reading")
    if not isinstance(facts, Mapping):
        return None
    _bounds(node, facts, notes)
    return _made(facts, span)


def _made(facts: Mapping, span: Span) -> Reading | None:
    id = facts.text("id")
    if id is None:
        return None
    limits = facts.items("limits")
    low, high = limits if len(limits) == 2 else (facts.get("at-least"), facts.get("at-most"))
    given = facts.get("given")
    return Reading(
        id=id,
        label=facts.text("label") or id,
        unit=facts.text("unit") or "",
        low=_value(low),
        high=_value(high),
        calculator=facts.text("calculator"),
        given=_given(given) if isinstance(given, Mapping) else (),
        span=span,
    )


def _value(node: tree.Node | None) -> float | None:
    return number(node.text) if isinstance(node, Text) else None


def _given(node: Mapping) -> tuple[tuple[str, str], ...]:
    return tuple((key.text, node.text(key.text) or "") for key, _ in node.entries)


def _bounds(node: Mapping, facts: Mapping, notes: Notes) -> None:
    names = [field.name for field in READING.fields]
    written = [key for key, _ in node.entries if key.text in _BOUNDS]
    unknown = [key for key, _ in node.entries if key.text not in names]
    judged = facts.get("calculator") is not None
    if node.entries and not written and not unknown and not judged:
        mend = "Write limits: [low, high], or `at-least`, or `at-most`."
        notes.error(node.entries[0][0].span, "the reading lacks its limits", mend)
    if len(written) > 1 and any(key.text == "limits" for key in written):
        mend = "Keep `limits`, or the other."
        notes.error(written[1].span, "the reading has limits and a bound beside them", mend)
    low, high = _ends(facts)
    if low is not None and high is not None and low >= high:
        last = written[-1]
        notes.error(
            last.span, "the lower limit is not below the upper one", "Write the lower one first."
        )


def _ends(facts: Mapping) -> tuple[float | None, float | None]:
    limits = facts.get("limits")
    pair = (
        limits.items
        if isinstance(limits, Items) and len(limits.items) == 2
        else (facts.get("at-least"), facts.get("at-most"))
    )
    return _value(pair[0]), _value(pair[1])


def named_and_written(steps: Sequence[Step], notes: Notes) -> None:
    """Write down readings with one id, and words that name no reading of the page."""
    notes = notes.by(__name__).aside()
    seen: dict[str, Span] = {}
    for step in steps:
        here = notes.within(StepRef(step.id, step.title))
        for made in step.readings:
            if made.id in seen:
                line = seen[made.id].line
                what = f"the reading `{made.id}` stands twice; the first is on line {line}"
                here.error(made.span, what, "Give each reading its own id.")
            seen.setdefault(made.id, made.span)
    for step in steps:
        _named(step, list(seen), notes.within(StepRef(step.id, step.title)))


def _named(step: Step, ids: list[str], notes: Notes) -> None:
    spans = dict(step.spans)
    judged = [(step.judges, spans.get("judges", step.span))] if step.judges else []
    read = [(id, spans.get(f"reads {id}", step.span)) for id in step.reads]
    for id, span in judged + read:
        if id not in ids:
            what = f"no reading of this page has the id `{id}`"
            mend = choose(id, ids) if ids else "Write the reading, a fenced block named `reading`."
            notes.error(span, what, mend)
