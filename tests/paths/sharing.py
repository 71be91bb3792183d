"""A page cut in two: some of its steps moved to a page of shared steps, with a line that uses them."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hooks.model import Page, Step

USE = "x9q"
"""The id of the line that uses the shared steps; no page of the tests has it."""
HEAD = "---\ntitle: Cut out\npage: shared-steps\nid: cut-out\nrevision: 1\nreviewed: 2026-11-02\n---\n"


@dataclass(frozen=True)
class Cut:
    """Both pages as text, and the id that the first of the shared steps had."""

    page: str
    shared: str
    first: str

    def undone(self, text: str) -> str:
        """The ids in a text as they were before the cut."""
        return text.replace(f"{USE}.", "").replace(USE, self.first)


def cut(page: Page, start: int, end: int) -> Cut | None:
    """The steps from place `start` to before `end` moved out; None where they cannot be shared."""
    run = page.steps[start:end]
    ids = [step.id for step in run]
    ways = [way for step in run for way in (*step.ways, *([step.next] if step.next else ()))]
    outs = list(dict.fromkeys((w.label, w.target) for w in ways if w.target not in ids))
    below = page.steps[end] if end < len(page.steps) else None
    if not _can_be_cut(page, run) or (outs and _falls(run[-1]) and (below is None or run[-1].optional or run[-1].only)):
        return None
    if outs and _falls(run[-1]) and below:
        outs.insert(0, (below.title, below.id))
    lines = list(page.source.lines)
    first, last = run[0].span.line - 1, _end(page, run[-1])
    moved = "\n".join(lines[first:last])
    for number, (label, target) in enumerate(outs):
        moved = moved.replace(f"[{label}](#{target})", f"[Out {number}](#out-{number})")
        moved += f'\n\n### Out {number} {{#out-{number} end="goes on"}}\n'
    using = [f'### Cut out {{#{USE} uses="cut-out"}}', ""]
    using += [f"- Out {number}: [{label}](#{target})" for number, (label, target) in enumerate(outs)]
    rest = "\n".join([*lines[:first], *using, "", *lines[last:]])
    for id in ids:
        rest = rest.replace(f"](#{id})", f"](#{USE if id == ids[0] else f'{USE}.{id}'})")
    return Cut(rest, HEAD + moved + "\n", ids[0])


def _can_be_cut(page: Page, run: tuple[Step, ...]) -> bool:
    one_stage = len({step.stage for step in run}) == 1
    written = all(step.id_written for step in run)
    here = {reading.id for step in run for reading in step.readings}
    named = {id for step in run for id in (*step.reads, step.judges) if id}
    outside = {id for step in page.steps if step not in run for id in (*step.reads, step.judges) if id}
    return one_stage and written and named <= here and not outside & here


def _end(page: Page, step: Step) -> int:
    """How many lines stand above what follows the step."""
    starts = [s.span.line for s in (*page.steps, *page.stages) if s.span.line > step.span.line]
    return min(starts, default=len(page.source.lines) + 1) - 1


def _falls(step: Step) -> bool:
    """Whether some way leads from it to the step below."""
    held = step.verify and not any(re.match("(?i)proved", way.words) for way in step.ways) and not step.next
    plain = not (step.ways or step.next or step.end or step.decide or step.verify)
    return bool(held or plain or step.optional or step.only)


