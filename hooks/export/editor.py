"""What an editor takes to complete keys and steps: the schemas and the snippets, as files."""

from __future__ import annotations

import json

from hooks.export import schema, snippets

FOLDER = ".vscode"
"""Where editors of one wide family look for a shop's snippets by themselves."""


def files() -> dict[str, str]:
    """Each file by its name."""
    made = {
        "front-matter.schema.json": schema.front_matter(),
        "reading.schema.json": schema.reading(),
        "shop.schema.json": schema.shop(),
        "stillbench.code-snippets": snippets.snippets(),
    }
    return {name: json.dumps(content, ensure_ascii=False, indent=1) + "\n" for name, content in made.items()}
