"""What a customer reads on each question, which words of the trade stand in it, how many questions may come."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from graphlib import CycleError, TopologicalSorter

from hooks.model import Page, Step
from hooks.parse.links import plain

PATHS = 2000
"""So many turns are taken to count the questions of a page that leads in circles; beyond, all within reach count."""


def read(page: Page) -> Iterator[tuple[Step | None, tuple[str, ...]]]:
    """Each question and the texts that stand on it, without marks; first, without a question, those before."""
    yield None, before(page)
    for step in page.steps:
        yield step, on_question(step)


def before(page: Page) -> tuple[str, ...]:
    """The texts before the first question: title, messages, paragraphs."""
    return _texts(page.title, *(f"{m.title}\n\n{m.text}" for m in page.messages), page.intro, *(f.said for f in page.figures))


def on_question(step: Step) -> tuple[str, ...]:
    """The texts of one question: messages, title, paragraphs, answers."""
    messages = (f"{m.title}\n\n{m.text}" for m in step.messages)
    return _texts(*messages, step.title, step.told, *(way.words for way in step.ways))


def _texts(*written: str) -> tuple[str, ...]:
    parts = (part for text in written for part in re.split(r"\n\s*\n|\n(?=\s*(?:[-*]|\d+\.) )", text))
    return tuple(text for text in map(plain, parts) if text)


def trade_words(texts: Iterable[str], words: Iterable[str]) -> tuple[str, ...]:
    """Which of `words` stand in the texts, in the order in which they come."""
    known = {word.lower(): word for word in words}
    if not known:
        return ()
    pattern = _any_of(tuple(known))
    found = (match[1] for match in pattern.finditer("\n".join(texts).lower()))
    return tuple(dict.fromkeys(known[word] for word in found))


@lru_cache(maxsize=8)
def _any_of(words: tuple[str, ...]) -> re.Pattern[str]:
    longest_first = sorted(words, key=len, reverse=True)
    return re.compile(rf"\b({'|'.join(map(re.escape, longest_first))})(?:e?s)?\b")


def questions_left(page: Page) -> tuple[int, ...]:
    """For each step the most questions that can come until an end, this one included, if none is asked twice."""
    onward = _onward(page)
    try:
        order = tuple(TopologicalSorter(onward).static_order())
    except CycleError:
        return tuple(_in_circles(page.steps, onward, place) for place in range(len(page.steps)))
    left: dict[int, int] = {}
    for place in order:
        asks = page.steps[place].end is None
        left[place] = asks + max((left[to] for to in onward[place]), default=0) if asks else 0
    return tuple(left[place] for place in range(len(page.steps)))


def _onward(page: Page) -> Mapping[int, tuple[int, ...]]:
    """The steps that each one leads to, by places counted from 0."""
    places: dict[str, int] = {}
    for place, step in enumerate(page.steps):
        places.setdefault(step.id, place)
    return {place: tuple(_next(page.steps, place, places)) for place in range(len(page.steps))}


def _next(steps: Sequence[Step], place: int, places: Mapping[str, int]) -> Iterator[int]:
    step = steps[place]
    jumps = (*step.ways, *((step.next,) if step.next else ()))
    yield from (places[jump.target] for jump in jumps if jump.target in places)
    falls = not (jumps or step.decide or step.jumpless or step.end)
    if (falls or step.optional or step.only) and place + 1 < len(steps):
        yield place + 1


def _in_circles(steps: Sequence[Step], onward: Mapping[int, tuple[int, ...]], start: int) -> int:
    """The longest way that comes nowhere twice; where there are too many, all questions within reach."""
    longest, turns, reached = 0, 0, {start}
    ways: list[tuple[int, frozenset[int]]] = [(start, frozenset())]
    while ways:
        place, seen = ways.pop()
        reached.add(place)
        turns += 1
        if steps[place].end is None:
            seen |= {place}
            longest = max(longest, len(seen))
            ways += ((to, seen) for to in onward[place] if to not in seen and (turns < PATHS or to not in reached))
    return longest if turns < PATHS else sum(steps[place].end is None for place in reached)
