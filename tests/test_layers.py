"""The house: data flows one way, and so do imports."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LAYERS = (
    "kept", "source", "diagnostics", "model", "parse", "check", "report", "library",
    "export", "new", "page", "device", "runtime", "cli", "build",
)  # fmt: skip
ENTRY = {"__main__": "cli", "__init__": "kept"}
MODULES = sorted(p for p in (ROOT / "hooks").rglob("*.py"))
CALCULATORS = sorted((ROOT / "calculators").rglob("*.py"))


def imports(path: Path) -> list[tuple[ast.stmt, str]]:
    """Every import of a file, wherever it stands, with the module it names."""
    package = path.relative_to(ROOT).with_suffix("").parts[:-1]
    found = []
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found += [(node, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(package[: len(package) - node.level + 1]) if node.level else ""
            stem = ".".join(filter(None, (base, node.module)))
            found += [(node, f"{stem}.{alias.name}") for alias in node.names]
    return found


def layer(path: Path) -> str:
    name = path.relative_to(ROOT / "hooks").with_suffix("").parts[0]
    return ENTRY.get(name, name)


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_a_module_imports_only_from_the_layers_above_it(path: Path) -> None:
    allowed = LAYERS[: LAYERS.index(layer(path)) + 1]
    named = [name.split(".")[1] for _, name in imports(path) if name.startswith("hooks.")]
    assert set(named) <= set(allowed)


@pytest.mark.parametrize("path", CALCULATORS, ids=lambda p: str(p.relative_to(ROOT)))
def test_a_calculator_knows_nothing_of_the_generator(path: Path) -> None:
    assert not [name for _, name in imports(path) if name.split(".")[0] == "hooks"]


@pytest.mark.parametrize("path", MODULES + CALCULATORS, ids=lambda p: str(p.relative_to(ROOT)))
def test_imports_stand_at_the_top_of_the_file(path: Path) -> None:
    top = ast.parse(path.read_text("utf-8")).body
    lines = {node.lineno for node in top if isinstance(node, ast.Import | ast.ImportFrom)}
    assert {node.lineno for node, _ in imports(path)} == lines


def test_mkdocs_is_known_to_one_file_only() -> None:
    knowing = {
        path.relative_to(ROOT).as_posix()
        for path in MODULES
        if any(name.split(".")[0] in ("mkdocs", "material") for _, name in imports(path))
    }
    assert knowing == {"hooks/build.py"}


def test_the_generator_knows_nothing_of_the_demo() -> None:
    words = ("orsel", "iw40", "lm20", "wc5")
    naming = [p for p in MODULES + CALCULATORS if any(w in p.read_text("utf-8").lower() for w in words)]
    assert naming == []
