"""Nothing is timed here: a machine that is busy must not make a right answer fail."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
