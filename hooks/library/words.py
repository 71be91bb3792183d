"""Words compared as people compare them: without case, space or a closing stop."""

from __future__ import annotations

import re
import unicodedata


def key(text: str) -> str:
    """Two texts with the same key are the same symptom, part or tool."""
    return " ".join(unicodedata.normalize("NFKC", text).split()).strip(" .!").casefold()


def slug(text: str) -> str:
    """A file name from a title: letters, digits and single hyphens."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-") or "machine"
