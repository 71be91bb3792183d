"""A customer's page asks too many questions on one path, or gives too many answers to choose from.

Why:
    A person who stands in a wet room with a phone gives up, or begins to guess. Nine
    questions are the most that one path should have (common practice, no source), and
    more than three answers are no longer taken in at a glance.

Example reported:
    ### Which light is on? {#light decide}
    - The red one: [Stop using it](#stop)
    - The green one: [All good](#good)
    - The blue one: [Book a repair](#book)
    - None: [Book a repair](#book)

Example mended:
    ### Which light is on? {#light decide}
    - The red one: [Stop using it](#stop)
    - The green one: [All good](#good)
    - The blue one, or none: [Book a repair](#book)
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.customers import questions_left
from hooks.check.found import Found
from hooks.diagnostics import Level
from hooks.model import Kind, Page
from hooks.parse.result import ParsedShop

LEVELS = (Level.WARNING,)

QUESTIONS, ANSWERS = 9, 3


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """The whole page once, then each question."""
    if page.kind is not Kind.SELF_CHECK or not page.steps:
        return
    longest = questions_left(page)[0]
    if longest > QUESTIONS:
        yield Found(
            page.steps[0].span,
            f"the longest path has {longest} questions, more than {QUESTIONS}",
            "Ask what parts the most first, and end with `book a repair` where more would have to be asked.",
            page.steps[0],
            level=Level.WARNING,
        )
    for step in page.steps:
        if len(step.ways) > ANSWERS:
            yield Found(
                step.span,
                f'"{step.title}" has {len(step.ways)} answers, more than {ANSWERS}',
                "Join answers that lead to the same place, or ask twice.",
                step,
                level=Level.WARNING,
            )
