"""The same pages as ordinary Markdown for MkDocs with Material, as anyone would set it up.

Every page stands in the navigation and the search is on. The step lines keep only their ids,
the front matter's lists become paragraphs, a reading becomes a line.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import yaml

from tests.bench.shops import shop

SETTINGS = """\
site_name: Generated shop
theme: material
plugins: [search]
markdown_extensions: [admonition, attr_list, tables]
"""
LISTS = ("tools", "supplies", "parts", "before", "after", "symptoms")
_STEP = re.compile(r"^(### .*) \{(#[\w-]+)[^}]*\}$", re.MULTILINE)
_READING = re.compile(r"^```reading\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def plain(text: str) -> str:
    """A page of a shop as ordinary Markdown."""
    _, head, body = text.split("---\n", 2)
    front: dict[str, Any] = yaml.safe_load(head)
    title, rest = body.split("\n", 1)
    said = "".join(f"\n**{key.capitalize()}**: {_listed(front[key])}\n" for key in LISTS if key in front)
    drawn = _READING.sub(_reading, _STEP.sub(r"\1 {\2}", rest))
    return f"---\ntitle: '{front['title']}'\n---\n{title}\n{said}{drawn}"


def _listed(entries: list[Any]) -> str:
    return ", ".join(e if isinstance(e, str) else " ".join(map(str, e.values())) for e in entries)


def _reading(found: re.Match[str]) -> str:
    facts = yaml.safe_load(found[1])
    return f"{facts['label']}: {' to '.join(map(str, facts['limits']))} {facts['unit']}"


def lay(folder: Path, pages: int, seed: int = 1) -> Path:
    """Write so many pages, and how they are built, into `folder`."""
    for name, text in shop(pages, seed):
        if name.endswith(".md"):
            file = folder / "docs" / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(plain(text), "utf-8")
    (folder / "docs/index.md").write_text("# Generated shop\n", "utf-8")
    (folder / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    return folder
