"""The styles and scripts of all blocks, each in one piece."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path

from hooks.page import languages
from hooks.page.templates import BLOCKS

FIRST = ("tokens", "ground", "page", "job")
LAST = ("print",)


def css(extra: Iterable[str] = ()) -> str:
    """The styles of every block, then those passed in."""
    return "\n".join((*_texts(".css"), *extra))


def js(extra: Iterable[str] = ()) -> str:
    """The scripts of every block, after those passed in, which they may call."""
    return "\n".join((languages.script(), *extra, *_texts(".js")))


def named(path: str, content: bytes) -> str:
    """The path with a digest of the content in its name: what a browser kept under it is this and nothing else."""
    place = Path(path)
    return place.with_stem(f"{place.stem}-{hashlib.sha256(content).hexdigest()[:12]}").as_posix()


def _texts(suffix: str) -> list[str]:
    found = sorted(BLOCKS.glob(f"*/*{suffix}"), key=_order)
    return [path.read_text(encoding="utf-8") for path in found]


def _order(path: Path) -> tuple[int, str]:
    block = path.parent.name
    if block in FIRST:
        return (FIRST.index(block) - len(FIRST), path.name)
    return (len(FIRST) if block in LAST else 0, f"{block}/{path.name}")
