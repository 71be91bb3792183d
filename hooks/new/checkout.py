"""What developers add to the program itself: a calculator or a rule, each with its cases."""

from __future__ import annotations

import keyword
import re
from pathlib import Path

from calculators._lib import shelf
from hooks.check.explained import EXPLAINED
from hooks.new import CannotMake, filled, lay

ROOT = Path(__file__).resolve().parents[2]
SHELF = "calculators/_lib/shelf.py"


def calculator(name: str, root: Path = ROOT) -> tuple[Path, ...]:
    """Write a calculator, its cases and its line on the shelf. Raises CannotMake for a bad or a taken name."""
    _is_checkout(root)
    if not re.fullmatch(r"[a-z][a-z0-9_]*", name) or keyword.iskeyword(name):
        raise CannotMake(f"`{name}` is no name for a calculator: it is a Python name in small letters, such as `head`")
    if name in shelf.ids():
        raise CannotMake(f"there is a calculator `{name}` already; take another name")
    made = lay(root, filled("calculator", name))
    shelved = root / SHELF
    shelved.write_text(_shelved(shelved.read_text("utf-8"), name), "utf-8")
    return (*made, shelved)


def _shelved(text: str, name: str) -> str:
    """The shelf with one import more, in the order of the alphabet."""
    lines = text.splitlines(keepends=True)
    new = f"from calculators import {name}\n"
    places = [n for n, line in enumerate(lines) if line.startswith("from calculators import ")]
    at = next((n for n in places if lines[n] > new), places[-1] + 1)
    return "".join((*lines[:at], new, *lines[at:]))


def rule(name: str, root: Path = ROOT) -> tuple[Path, ...]:
    """Write a rule and its cases. Raises CannotMake for a bad or a taken name."""
    _is_checkout(root)
    if not re.fullmatch(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)+", name):
        raise CannotMake(f"`{name}` is no name for a rule: it is small words with hyphens that say what is wrong, such as `jump-lost`")
    if name in EXPLAINED:
        raise CannotMake(f"there is a rule `{name}` already: `stillbench explain {name}`")
    return lay(root, filled("rule", name))


def _is_checkout(root: Path) -> None:
    if not (root / "tests/rules").is_dir():
        raise CannotMake(f"this is an installed program, not a checkout: {root} has no tests; clone the repository first")
