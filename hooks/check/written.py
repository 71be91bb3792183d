"""The lines of a page as its writer wrote them, for rules about what stands anywhere in the text."""

from __future__ import annotations

from collections.abc import Iterator

from hooks.model import Kind, Page, Step
from hooks.parse.lines import body


def written(page: Page, mark: str) -> Iterator[tuple[int, str, Step | None]]:
    """Number, text and step of each line outside fences that holds `mark`.

    On a page of shared steps no step is named: what is found in one is told where it is used.
    """
    if not any(mark in line for line in page.source.lines):
        return
    text = body(page.source, 1)
    for number, line in enumerate(text.lines, 1):
        if mark in line and not text.fence_at(number):
            yield number, line, None if page.kind is Kind.SHARED_STEPS else page.step_at(number)
