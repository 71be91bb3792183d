"""A customer's page: one question at a time, nothing opened or moved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from hooks.check.analysis import Analysis
from hooks.diagnostics import Finding
from hooks.model import Page, Shop, Step
from hooks.page import graph
from hooks.page.blocks.ways.ways import Arm, arms
from hooks.page.languages import Language, language
from hooks.page.procedure import foot
from hooks.page.templates import draw
from hooks.page.view import Links, View, look

STOP = "stop using it"


@dataclass(frozen=True, slots=True)
class Question:
    """One step of a self-check."""

    step: Step
    arms: tuple[Arm, ...]
    left: int
    """At most so many questions, this one included, until an end; 0 for an end."""
    closing: str
    finding: Markup


def render(
    page: Page,
    analysis: Analysis | None,
    findings: tuple[Finding, ...] = (),
    shop: Shop | None = None,
    links: Links | None = None,
    *,
    finding_html: Mapping[int, str] | None = None,
    page_findings: str = "",
    preview: bool = False,
) -> str:
    """The inner HTML of the article; the arguments are those of `procedure.render`."""
    view = look(page, analysis, shop, links)
    say = language(page.language)
    shown = finding_html if preview and finding_html else {}
    drawn = draw(
        "self-check/self-check.html",
        page=page,
        shop=view.shop,
        say=say,
        preview=preview,
        page_findings=Markup(page_findings if preview else ""),
        questions=[_question(view, say, s, shown.get(s.number, "")) for s in page.steps],
        stop=next((s for s in page.steps if s.end == STOP), None),
        foot=foot(page),
        graph=Markup(graph.text(page, analysis)),
    )
    return str(drawn)


def _question(view: View, say: Language, step: Step, finding: str) -> Question:
    closing = say.of("ends", step.end) if step.end else ""
    return Question(step, arms(view, step), left(view, step), closing, Markup(finding))


def left(view: View, step: Step) -> int:
    """The most questions that can still come, this one included, if none is asked twice."""
    return _longest(view, step, frozenset())


def _longest(view: View, step: Step, seen: frozenset[int]) -> int:
    if step.end is not None or step.number in seen:
        return 0
    seen |= {step.number}
    onward = [view.page.steps[arm.number - 1] for arm in arms(view, step)]
    return 1 + max((_longest(view, to, seen) for to in onward), default=0)
