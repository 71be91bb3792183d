"""Times as people write them: `20 min`, `1 h 30 min`."""

from __future__ import annotations

import re
from functools import lru_cache

_UNITS = {"s": 1, "min": 60, "h": 3600, "day": 86400, "days": 86400}
PART = re.compile(r"(\d{1,6}(?:\.\d{1,3})?) ?(s|min|h|days|day)(?:\s+|$)")
EXAMPLE = "Write it like `20 min`, `2 h` or `1 h 30 min`."


@lru_cache(maxsize=1024)
def seconds(text: str) -> float | None:
    """How long that is, in seconds; None where it is no time, or no time at all."""
    at, total = 0, 0.0
    while found := PART.match(text, at):
        total += float(found[1]) * _UNITS[found[2]]
        at = found.end()
    return total if at == len(text) and total > 0 else None
