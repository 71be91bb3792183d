"""A milder message stands before a graver one in the same place.

Why:
    What is read first is taken for the worst. In one place danger comes first, then warning,
    caution, notice, and only then a note. Informed by S1000D (warnings before cautions before
    notes) and ANSI Z535.6.

Example reported:
    ### Open the panel {#open work}
    !!! caution "Cut hands"
        The edges are sharp. They cut. Wear the gloves.

    !!! danger electricity "Shock"
        Live parts are behind it. They kill. Prove first.

    Six screws.

Example mended:
    ### Open the panel {#open work}
    !!! danger electricity "Shock"
        Live parts are behind it. They kill. Prove first.

    !!! caution "Cut hands"
        The edges are sharp. They cut. Wear the gloves.

    Six screws.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found
from hooks.model import Message, Page, Step
from hooks.parse.result import ParsedShop
from hooks.parse.words import OTHER_ADMONITIONS, SIGNAL_WORDS


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each message that a milder one stands before; in a step, one after a note is told as too late."""
    yield from _after_a_note(page)
    yield from _disordered(page.messages, None)
    for step in page.steps:
        if len(step.messages) > 1:
            yield from _disordered(step.messages, step)


def _disordered(messages: tuple[Message, ...], step: Step | None) -> Iterator[Found]:
    for before, message in zip(messages, messages[1:], strict=False):
        if SIGNAL_WORDS.index(message.word) < SIGNAL_WORDS.index(before.word):
            yield _found(message, f'{before.word} "{before.title}" (line {before.span.line})', step)


def _after_a_note(page: Page) -> Iterator[Found]:
    if not page.messages:
        return
    for number in range(page.span.line, page.messages[-1].span.line):
        words = page.source.line(number).removeprefix("!!!").split()
        if page.source.line(number).startswith("!!!") and words and words[0] in OTHER_ADMONITIONS:
            after = next(message for message in page.messages if message.span.line > number)
            yield _found(after, f"{words[0]} on line {number}", None)
            return


def _found(message: Message, before: str, step: Step | None) -> Found:
    return Found(
        message.span,
        f'the {message.word} "{message.title}" stands after the {before}',
        "Put the graver one first.",
        step,
    )
