"""The messages of a page, with the steps they stand in."""

from __future__ import annotations

from collections.abc import Iterator

from hooks.model import Message, Page, Step


def placed(page: Page) -> Iterator[tuple[Step | None, Message]]:
    """Every message; those before the first step have none."""
    yield from ((None, message) for message in page.messages)
    for step in page.steps:
        if step.messages or step.late_messages:
            yield from ((step, message) for message in (*step.messages, *step.late_messages))
