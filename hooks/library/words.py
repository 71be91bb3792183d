"""Words compared as people compare them: without case, space or a closing stop."""

from __future__ import annotations

import hashlib
import re
import unicodedata


def key(text: str) -> str:
    """Two texts with the same key are the same symptom, part or tool."""
    return " ".join(unicodedata.normalize("NFKC", text).split()).strip(" .!").casefold()


def slug(text: str) -> str:
    """A file name from a title: letters, digits and single hyphens.

    A title without any of these gets a name made from its sum, so that two stay two.
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    made = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")
    return made or f"n{hashlib.sha256(key(text).encode()).hexdigest()[:8]}"
