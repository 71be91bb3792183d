"""Whatever a page names leads back to it, and to nothing that does not name it."""

from __future__ import annotations

from collections.abc import Iterable

from hypothesis import given
from hypothesis import strategies as st

from hooks.library import indexes
from hooks.library.entries import Entry
from hooks.library.words import key, slug
from hooks.model import Kind, Part
from hooks.source import Span

AT = Span(1, 1, 1, 2)
WORDS = st.text("ab ÄäⅣ.", min_size=1, max_size=4).filter(key)
PARTS = st.builds(Part, WORDS, st.none() | WORDS, st.just(1), st.just(AT))


def entry(number: int, symptoms: list[str], tools: list[str], parts: list[Part]) -> Entry:
    return Entry(
        name=f"{number}.md", address=f"{number}.html", id=str(number), kind=Kind.PROCEDURE,
        title=f"Page {number % 2}", appliance="", machine="", models=(), does="", time="", people=None,
        revision="", reviewed="", symptoms=tuple(symptoms), tools=tuple(tools), parts=tuple(parts),
        calculators=(), stage="", steps=(),
    )  # fmt: skip


SHELVES = st.lists(
    st.tuples(st.lists(WORDS, max_size=3), st.lists(WORDS, max_size=3), st.lists(PARTS, max_size=3)), max_size=5
).map(lambda rows: [entry(number, *row) for number, row in enumerate(rows)])


def names(entries: Iterable[Entry]) -> list[str]:
    return sorted(e.name for e in entries)


@given(SHELVES)
def test_a_symptom_leads_to_exactly_the_pages_that_name_it(shelf: list[Entry]) -> None:
    found = {key(s.text): names(s.entries) for s in indexes.symptoms(shelf)}
    wanted = {key(t) for e in shelf for t in e.symptoms}
    assert found == {k: names(e for e in shelf if k in map(key, e.symptoms)) for k in wanted}


@given(SHELVES)
def test_a_tool_leads_to_exactly_the_pages_that_name_it(shelf: list[Entry]) -> None:
    found = {key(t.name): names(t.entries) for t in indexes.tools(shelf)}
    wanted = {key(t) for e in shelf for t in e.tools}
    assert found == {k: names(e for e in shelf if k in map(key, e.tools)) for k in wanted}


@given(SHELVES)
def test_a_part_leads_to_exactly_the_pages_that_name_it(shelf: list[Entry]) -> None:
    def keys(e: Entry) -> set[str]:
        return {key(p.number or p.name) for p in e.parts}

    found = {key(p.number or p.names[0]): names(p.entries) for p in indexes.parts(shelf)}
    wanted = set().union(*map(keys, shelf))
    assert found == {k: names(e for e in shelf if k in keys(e)) for k in wanted}


@given(st.text(max_size=20))
def test_a_slug_is_a_file_name_that_needs_no_escape(text: str) -> None:
    made = slug(text)
    assert made and made.isascii() and made == slug(made)
    assert all(c.isalnum() or c == "-" for c in made)
