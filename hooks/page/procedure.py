"""A technician's page: model and analysis to the HTML of the article."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from hooks.check.analysis import Analysis
from hooks.diagnostics import Finding
from hooks.model import Page, Shop, Stage, Step
from hooks.page import course, graph
from hooks.page.blocks.before import before
from hooks.page.blocks.board import board
from hooks.page.blocks.evidence import evidence
from hooks.page.blocks.figure import figure
from hooks.page.blocks.map import map as job_map
from hooks.page.blocks.rail import rail
from hooks.page.blocks.step import step as steps
from hooks.page.languages import language
from hooks.page.templates import draw, fill
from hooks.page.theme import LIMITS
from hooks.parse import durations
from hooks.page.view import Links, View, look


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
    """The inner HTML of the article.

    `finding_html` holds HTML for the writer, by step number, `page_findings` what belongs
    to no step; both are taken as they are, and only drawn in a preview.
    """
    view = look(page, analysis, shop, links)
    boards = _Boards(view)
    shown = finding_html if preview and finding_html else {}
    accepted = () if preview else tuple(f for f in findings if f.because)
    rows = [_row(view, boards, step, shown, accepted) for step in page.steps]
    followed = graph.text(page, analysis, course.machines(view, boards.id))
    return fill(
        "page/procedure.html",
        page=page,
        shop=view.shop,
        preview=preview,
        page_findings=Markup(page_findings if preview else ""),
        lead=before.lead(view),
        earlier=before.earlier(view),
        does=page.front.does or _does(view),
        intro=figure.text(page.intro, page.figures, view.links, page.language),
        folds=before.folds(page),
        map=job_map.of(view),
        stages=_stages(view, rows),
        board=boards.before,
        boards=boards,
        evidence=evidence.of(view, findings),
        foot=foot(page),
        limits=LIMITS,
        graph=Markup(followed),
        links=view.links,
        away=round(durations.seconds(view.shop.away_limit) or 0),
    )


def foot(page: Page) -> str:
    """What stands at the foot of every printed sheet: title, models, revision."""
    front, say = page.front, language(page.language)
    told = (
        page.title,
        ", ".join(m.name for m in page.models),
        front.revision and say("revision", revision=front.revision),
        front.reviewed and say("reviewed", date=front.reviewed),
    )
    return ". ".join(t for t in told if t)


class _Boards:
    """Every distinct board of a page with its id; boards share their heads and their lines, each of which is drawn once."""

    def __init__(self, view: View) -> None:
        self._view = view
        self._ids: dict[board.Board, str] = {}
        self._seen: dict[int, tuple[board.Board, str]] = {}
        self._heads: dict[board.Board, int] = {}
        self._lines: dict[board.BoardLine, int] = {}
        first = board.before(view)
        self.before = self.id(first)
        self.whole = Markup(_head(first, "".join(map(_line, first.lines))))

    def at(self, step: Step) -> str:
        """The id of the board for a step."""
        return self.id(board.at(self._view, step))

    def id(self, one: board.Board) -> str:
        """The id of a board, drawn or not yet. The same object comes many times: then nothing of it is compared."""
        if id(one) not in self._seen:
            self._seen[id(one)] = one, self._ids.setdefault(one, f"page--board-{len(self._ids) + 1}")
        return self._seen[id(one)][1]

    @property
    def all(self) -> Markup:
        """A template for each board, that names by number its head among the heads and its lines among the lines."""
        return Markup("\n".join(self._template(*one) for one in self._ids.items()))

    def _template(self, one: board.Board, id: str) -> str:
        head = self._heads.setdefault(one._replace(lines=()), len(self._heads))
        lines = " ".join(str(self._lines.setdefault(line, len(self._lines))) for line in one.lines)
        return f'<template id="{id}" data-head="{head}" data-lines="{lines}"></template>'

    @property
    def heads(self) -> Markup:
        """The boards without lines that `all` names, in the order of their numbers."""
        return Markup("".join(map(_head, self._heads)))

    @property
    def lines(self) -> Markup:
        """The lines that `all` names, in the order of their numbers."""
        return Markup("".join(map(_line, self._lines)))


@lru_cache(maxsize=4096)
def _head(one: board.Board, lines: str = "") -> str:
    """Jobs on one machine share most of their boards."""
    return fill("board/board.html", board=one, lines=Markup(lines))


@lru_cache(maxsize=4096)
def _line(one: board.BoardLine) -> str:
    """And most of their lines."""
    return fill("board/line.html", line=one)


def _row(
    view: View, boards: _Boards, step: Step, findings: Mapping[int, str], accepted: tuple[Finding, ...]
) -> Markup:
    """One step; what its writer accepted with a reason stands in it, in a preview within the finding."""
    finding = Markup(findings.get(step.number, ""))
    here = [f for f in accepted if f.step and f.step.id == step.id]
    return draw("step/step.html", view=steps.of(view, step), board=boards.at(step), finding=finding, accepted=here)


class Group(NamedTuple):
    """The steps of a stage; those before the first stage stand under a heading of their own."""

    stage: Stage | None
    intro: Markup | None
    rail: Markup
    rows: list[Markup]


def _stages(view: View, rows: list[Markup]) -> list[Group]:
    groups: list[Group] = []
    last: object = object()
    for step, row in zip(view.page.steps, rows, strict=True):
        if step.stage != last:
            last = step.stage
            known = view.page.stages[step.stage] if step.stage is not None else None
            intro = known and figure.text(known.intro, known.figures, view.links, view.page.language, later=True)
            groups.append(Group(known, intro, rail.between(view, step), []))
        groups[-1].rows.append(row)
    return groups


def _does(view: View) -> str | None:
    return next((a.does for a in view.shop.appliances if a.id == view.page.appliance_id), None)
