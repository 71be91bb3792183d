"""A new shop in an empty folder: its settings, its facts, a procedure, a self-check, what its editor takes."""

from __future__ import annotations

from pathlib import Path

import yaml

from hooks import parse
from hooks.export import editor
from hooks.new import CannotMake, filled, lay
from hooks.new.pages import SAYS, page
from hooks.source import from_text

FACTS = f"procedures/{parse.FACTS}"


def make(folder: Path) -> tuple[Path, ...]:
    """Write the shop. Raises CannotMake where the folder holds anything."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise CannotMake(f"{folder} is not an empty folder; name one that is empty or not there yet")
    name = folder.resolve().name.replace("-", " ").replace("_", " ").strip() or "shop"
    files = filled("shop", "shop", title=yaml.safe_dump(name.capitalize(), allow_unicode=True, width=10**6).partition("\n")[0], says=SAYS)
    facts, _ = parse.shop_facts(from_text(files[FACTS], parse.FACTS))
    for kind, named in (("procedure", "first-procedure"), ("self-check", "first-self-check")):
        files |= {f"procedures/{path}": text for path, text in page(kind, named, facts, facts.appliances[0]).items()}
    files |= {f"{editor.FOLDER}/{path}": text for path, text in editor.files().items()}
    return lay(folder, files)
