"""The self-checks of the demo as their sources say them: the oracle for following them in a browser."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page

from hooks import parse
from hooks.model import Kind
from hooks.model import Page as Source
from tests.browser.conftest import ROOT

FOLDER = ROOT / "procedures"
PHONE = {"width": 390, "height": 844}
CHECKS = {p.page.id: p.page for p in parse.folder(FOLDER).pages if p.page and p.page.kind is Kind.SELF_CHECK}
"""Every self-check by its id, translations too."""
Way = tuple[str, str]
"""An answer's words and the id it leads to."""


def address(source: Source) -> str:
    """Where the page stands in the site."""
    path = Path(ROOT, source.source.name).relative_to(FOLDER)
    return path.with_suffix(".html").as_posix()


def ways(source: Source, id: str) -> list[Way]:
    """The answers to a question, as they are written, and where each leads."""
    step = next(s for s in source.steps if s.id == id)
    return [(plain(way.words), way.target) for way in step.ways]


def plain(words: str) -> str:
    """An answer without the mark before its link, beginning as it is shown."""
    words = re.sub(r"[*_]", "", words).strip().rstrip(":—–- ")
    return words[:1].upper() + words[1:]


def ended(source: Source, id: str) -> bool:
    """Whether the step is an end."""
    return next(s for s in source.steps if s.id == id).end is not None


def title(source: Source, id: str) -> str:
    """The words of a question."""
    return next(s for s in source.steps if s.id == id).title


def paths(source: Source, at: str = "", gone: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Every way from the first question to an end that asks nothing twice, as ids."""
    here = at or source.steps[0].id
    if ended(source, here):
        yield (*gone, here)
        return
    for _, to in ways(source, here):
        if to not in gone and to != here:
            yield from paths(source, to, (*gone, here))


def phone(browser: Browser, **more: object) -> BrowserContext:
    """A phone that is touched."""
    return browser.new_context(viewport=PHONE, has_touch=True, is_mobile=True, service_workers="block", **more)


def shown(page: Page) -> str:
    """The id of the one question that can be seen."""
    seen = page.evaluate("""async () => {
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
        return [...document.querySelectorAll(".question")].filter((one) => one.checkVisibility()).map((one) => one.id);
    }""")
    assert len(seen) == 1, seen
    return str(seen[0])


def answer(page: Page, words: str) -> None:
    """Touch an answer of the question that is shown."""
    said = page.locator(".question[data-open] .ways b").filter(has_text=re.compile(f"^{re.escape(words)}$"))
    said.tap()
