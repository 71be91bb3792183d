"""Work that makes much and throws little away."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def lasting() -> Iterator[None]:
    """Keep Python from searching, again and again, for garbage in what is made to stay."""
    searching = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if searching:
            gc.enable()
