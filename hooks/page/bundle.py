"""The styles and scripts of all blocks, each in one piece."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable
from pathlib import Path

from hooks.page import languages
from hooks.page.templates import BLOCKS

FIRST = ("tokens", "ground", "page", "job")
LAST = ("print",)
REMARKS = {".css": re.compile(r"/\*.*?\*/\n?", re.DOTALL), ".js": re.compile(r"^ *//.*\n", re.MULTILINE)}
"""What is said to who reads the source: it weighs, and no browser needs it."""
APART = ("jobs", "sheet")
"""Blocks of the pages about jobs: no other page carries their styles and scripts."""


def css(extra: Iterable[str] = (), apart: bool = False) -> str:
    """The styles of every block, or of those apart, then those passed in."""
    return REMARKS[".css"].sub("", "\n".join((*_texts(".css", apart), *extra)))


def js(extra: Iterable[str] = (), apart: bool = False) -> str:
    """The scripts of every block, or of those apart, after those passed in, which they may call."""
    said = () if apart else (languages.script(),)
    return REMARKS[".js"].sub("", "\n".join((*said, *extra, *_texts(".js", apart))))


def named(path: str, content: bytes) -> str:
    """The path with a digest of the content in its name: what a browser kept under it is this and nothing else."""
    place = Path(path)
    return place.with_stem(f"{place.stem}-{hashlib.sha256(content).hexdigest()[:12]}").as_posix()


def _texts(suffix: str, apart: bool) -> list[str]:
    blocks = (path for path in BLOCKS.glob(f"*/*{suffix}") if (path.parent.name in APART) is apart)
    found = sorted(blocks, key=_order)
    return [path.read_text(encoding="utf-8") for path in found]


def _order(path: Path) -> tuple[int, str]:
    block = path.parent.name
    if block in FIRST:
        return (FIRST.index(block) - len(FIRST), path.name)
    return (len(FIRST) if block in LAST else 0, f"{block}/{path.name}")
