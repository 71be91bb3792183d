"""A customer's page: one question at a time, nothing opened or moved."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from hooks.check.analysis import Analysis
from hooks.check.customers import before, on_question, questions_left, trade_words
from hooks.diagnostics import Finding
from hooks.library.translations import path_in
from hooks.model import Page, Shop, Step
from hooks.page import graph, words
from hooks.page.blocks.figure import figure
from hooks.page.blocks.ways.ways import Arm, arms
from hooks.page.languages import Language, language
from hooks.page.procedure import foot
from hooks.page.templates import fill
from hooks.page.view import Links, View, look

STOP = "stop using it"


@dataclass(frozen=True, slots=True)
class Question:
    """One step of a self-check."""

    step: Step
    text: Markup
    """What is looked at, with its figures."""
    arms: tuple[Arm, ...]
    left: int
    """At most so many questions, this one included, until an end; 0 for an end."""
    closing: str
    meanings: tuple[tuple[str, str], ...]
    """The words of the trade on it, and what each means."""
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
    return fill(
        "self-check/self-check.html",
        page=page,
        shop=view.shop.within(page.language),
        say=say,
        preview=preview,
        intro=figure.text(page.intro, page.figures, view.links, page.language),
        page_findings=Markup(page_findings if preview else ""),
        questions=[
            _question(view, say, step, left, shown.get(step.number, ""))
            for step, left in zip(page.steps, questions_left(page), strict=True)
        ],
        meanings=_meanings(view, before(page)),
        first_minute=view.links.root + path_in("first-minute.html", view.links.readers or page.language),
        stop=next((s for s in page.steps if s.end == STOP), None),
        foot=foot(page),
        graph=Markup(graph.text(page, analysis)),
    )


def _question(view: View, say: Language, step: Step, left: int, finding: str) -> Question:
    closing = say.of("ends", step.end) if step.end else ""
    text = figure.text(step.prose, step.figures, view.links, view.page.language, later=step.number > 1)
    return Question(step, text, arms(view, step), left, closing, _meanings(view, on_question(step)), Markup(finding))


def _meanings(view: View, texts: Iterable[str]) -> tuple[tuple[str, str], ...]:
    known = dict(view.shop.trade_words)
    return tuple((words.capital(word), known[word]) for word in trade_words(texts, known))
