"""Where a code span ends, for links and for comments alike."""

from __future__ import annotations

import pytest

from hooks.parse.lines import code_span


@pytest.mark.parametrize(
    ("text", "at", "expected"),
    [
        ("a `b` c", 2, (True, 5)),
        ("``a ` b`` c", 0, (True, 9)),
        ("`never closed", 0, (False, 1)),
        ("plain", 1, (False, 2)),
        ("```[`[x](#a)`", 0, (True, 5)),
        ("``a `b ``` c", 0, (False, 2)),
    ],
)
def test_a_code_span_is_read_over_as_a_whole(text: str, at: int, expected: tuple[bool, int]) -> None:
    assert code_span(text, at) == expected
