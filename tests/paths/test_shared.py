"""Shared steps change nothing: the same analysis, findings and page as with the steps written in."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from hooks.check import Report, examine
from hooks.diagnostics import Finding
from hooks.model import Kind, Page
from hooks.page import procedure
from hooks.parse import drawn, page, shop_facts
from hooks.parse.result import ParsedShop
from hooks.source import from_text
from tests.paths.sharing import USE, Cut, cut

ROOT = Path(__file__).parents[2]
SHOP, _ = shop_facts(from_text((ROOT / "procedures/shop.yml").read_text("utf-8"), "shop.yml"))
FOLDERS = ("procedures", "tests/samples", "tests/cases", "tests/real")
TEXTS = [p.read_text("utf-8") for f in FOLDERS for p in sorted((ROOT / f).rglob("*.md"))]
PARSED = [made for made in (page(from_text(text, "a.md"), SHOP) for text in TEXTS) if made.sound and made.page]
PAGES = [
    made.page for made in PARSED
    if made.page.kind is Kind.PROCEDURE and len(made.page.steps) > 2 and not any(s.uses for s in made.page.steps)
]  # fmt: skip
OF_A_FILE = "reference-lost"
"""Looks at a file, and so tells of shared steps where they are written, once."""


@st.composite
def cuts(draw: st.DrawFn) -> tuple[Page, Cut]:
    """A page and two that come of cutting it."""
    whole = draw(st.sampled_from(PAGES))
    start = draw(st.integers(0, len(whole.steps) - 1))
    made = cut(whole, start, draw(st.integers(start + 1, min(start + 8, len(whole.steps)))))
    assume(made is not None)
    return whole, made


def looked_at(*texts: tuple[str, str]) -> tuple[Page, Report]:
    """The first page of a shop of these, by name and text, and the report of all."""
    pages = drawn(page(from_text(text, name), SHOP) for name, text in texts)
    assert all(made.sound for made in pages), [f for made in pages for f in made.findings]
    return pages[0].page, examine(ParsedShop(SHOP, pages, ()))


def short(found: Finding, made: Cut) -> tuple[object, ...]:
    """A finding without its lines, with the ids of the whole page."""
    said = [made.undone(re.sub(r"line \d+( of [\w-]+\.md)?", "line", text)) for text in (found.message, found.help)]
    path = [(p.step.title, made.undone(p.step.id), p.way_out, p.skipped, p.energies, p.note) for p in found.path]
    return (found.rule, found.level, said, found.energy, found.models, path)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(cuts())
def test_a_page_that_uses_shared_steps_is_the_page_with_the_steps_written_in(both: tuple[Page, Cut]) -> None:
    whole, made = both
    text = "\n".join(whole.source.lines)
    one, before = looked_at(("a.md", text))
    two, after = looked_at(("a.md", made.page), ("cut-out.md", made.shared))
    assert after.analyses[two.id] == before.analyses[one.id]
    used = [f for f in after.findings if f.page == "a.md"]
    used = [f for f in used if f.rule != OF_A_FILE]
    written = [f for f in before.findings if f.rule != OF_A_FILE]
    key = lambda f: repr(short(f, made))  # noqa: E731
    assert sorted(map(key, used)) == sorted(map(key, written))
    shared = [f for f in used if f.used]
    assert all(f.file == "cut-out.md" and f.used[0].file == "a.md" for f in shared)
    assert all(USE in line for f in shared for line in [made.page.split("\n")[f.used[0].span.line - 1]])
    assert all(p.file == ("cut-out.md" if p.used else "a.md") for f in used for p in f.path)

    def html(page: Page, report: Report) -> str:
        drawing = procedure.render(page, report.analyses[page.id], (), SHOP)
        return re.sub(r'"digest":"\w+"', "", made.undone(drawing))

    assert html(two, after) == html(one, before)


def test_there_are_pages_to_cut() -> None:
    assert len(PAGES) >= 20
    assert sum(cut(p, at, at + 3) is not None for p in PAGES for at in range(len(p.steps) - 3)) > 100
