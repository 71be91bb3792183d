"""Which stretch of a job a page or a step belongs to, in words that help to choose among those found."""

from __future__ import annotations

from hooks.model import Kind, Page, Step

FIND = "find the fault"
CHANGE = "change the part"


def of_page(page: Page) -> str:
    """What a procedure is for: to find the fault, to change a part, or both."""
    if page.kind is not Kind.PROCEDURE:
        return ""
    finds = any(s.readings or s.reads or s.judges for s in page.steps)
    changes = any(s.installs for s in page.steps)
    return ", ".join([FIND] * finds + [CHANGE] * changes)


def of_step(page: Page, step: Step) -> str:
    """The heading that the step stands under; where its page has none, what the step does."""
    if step.stage is not None:
        return page.stages[step.stage].title
    if page.kind is not Kind.PROCEDURE:
        return ""
    return _does(step)


def _does(step: Step) -> str:
    if step.end:
        return "the end of the job"
    if step.isolate or step.release or step.verify:
        return "make it safe"
    if step.restore:
        return "put it back in service"
    if step.installs:
        return CHANGE
    return FIND if step.decide or step.readings or step.reads or step.judges or step.check or step.test else ""
