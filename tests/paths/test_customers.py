"""How many questions may still come on a customer's page, against a search that tries every way."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hooks.check.customers import PATHS, questions_left, trade_words
from hooks.model import Page, Shop
from hooks.parse import page
from hooks.source import from_text

HEAD = """---
title: A page
page: self-check
id: page
revision: 1
reviewed: 2026-11-02
appliance: Machine
models: {A1: []}
time: 3 min
---
"""
Graph = list[list[int]]


def asked(graph: Graph) -> Page:
    """A page with a question for each list of places it leads to; the place after the last is the end."""
    questions = [
        f"### Question {here} {{#q{here} decide}}\n" + "".join(f"- To {to}: [{to}](#q{to})\n" for to in onward)
        for here, onward in enumerate(graph)
    ]
    text = HEAD + "\n".join([*questions, f'### End {{#q{len(graph)} end="solved"}}\n'])
    made = page(from_text(text, "page.md"), Shop(None)).page
    assert made
    return made


def longest(graph: Graph, here: int, seen: frozenset[int] = frozenset()) -> int:
    """Every way tried, none coming anywhere twice."""
    if here == len(graph) or here in seen:
        return 0
    return 1 + max(longest(graph, to, seen | {here}) for to in graph[here])


def graphs(forward: bool) -> st.SearchStrategy[Graph]:
    def places(size: int) -> st.SearchStrategy[Graph]:
        from_here = (st.integers(here + 1 if forward else 0, size) for here in range(size))
        return st.tuples(*(st.lists(to, min_size=1, max_size=3) for to in from_here)).map(list)

    return st.integers(1, 7).flatmap(places)


@given(graphs(forward=True) | graphs(forward=False))
def test_the_count_is_that_of_the_longest_way_that_asks_nothing_twice(graph: Graph) -> None:
    assert questions_left(asked(graph)) == (*(longest(graph, here) for here in range(len(graph))), 0)


def test_a_page_too_tangled_to_try_all_ways_counts_every_question_within_reach() -> None:
    size = 14
    tangled = [[to for to in range(size + 1) if to != here] for here in range(size)]
    assert 2**size > PATHS
    assert questions_left(asked(tangled)) == (*[size] * size, 0)


def test_a_long_page_without_circles_is_counted_though_its_ways_are_too_many_to_try() -> None:
    size = 60
    forward = [[min(here + by, size) for by in (1, 2, 3)] for here in range(size)]
    assert questions_left(asked(forward))[0] == size


def test_a_word_is_found_whole_in_either_number_the_longest_first() -> None:
    words = ("fuse", "stop valve", "valve")
    assert trade_words(["Fuses blow.", "The Stop Valve"], words) == ("fuse", "stop valve")
    assert trade_words(["We refused; revalved."], words) == ()
