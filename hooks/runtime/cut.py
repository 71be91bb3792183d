"""Writes what the calculators need of Python as .pyc files; cut.mjs runs it in Pyodide.

It runs after Pyodide has started, so what Pyodide itself needs is among the loaded
modules; it imports nothing that they do not need, or that would be kept too.
"""

from __future__ import annotations

import importlib
import os
import sys
from importlib import _bootstrap_external
from types import ModuleType

SHOP = "/shop"
OUT = "/out"
LIBRARY = f"/lib/python{sys.version_info.major}{sys.version_info.minor}.zip/"

ALSO = (
    "ast bisect cmath collections.abc contextlib copy dataclasses decimal encodings.ascii "
    "encodings.latin_1 enum fractions functools inspect itertools json linecache math numbers "
    "operator re statistics string textwrap tokenize traceback typing unicodedata warnings"
).split()
"""Modules that are kept whatever was imported: what Python reaches for when something fails."""

LEFT_OUT = ("_bz2", "_lzma", "_ssl", "_zstd", "bz2", "compression", "lzma", "ssl")
"""What Pyodide imports at its start and does without where it is missing; no calculator may need it."""


def calculator_modules() -> list[str]:
    """The names of all modules under the calculators' folder."""
    found = []
    for folder, folders, files in os.walk(f"{SHOP}/calculators"):
        folders.sort()
        for file in sorted(files):
            if file.endswith(".py"):
                path = os.path.relpath(os.path.join(folder, file), SHOP)[:-3]
                found.append(path.replace("/", ".").removesuffix(".__init__"))
    return found


def place(module: ModuleType) -> str | None:
    """The path in the zip of a module that was loaded from source, else None."""
    origin = getattr(getattr(module, "__spec__", None), "origin", None) or ""
    for root in (LIBRARY, f"{SHOP}/"):
        if origin.startswith(root) and origin.endswith((".py", ".pyc")):
            return origin.removeprefix(root)
    return None


def write(module: ModuleType, path: str) -> None:
    """Compile one module; the library loses its docstrings, the calculators keep all."""
    source = module.__spec__.loader.get_source(module.__name__)
    ours = module.__name__.partition(".")[0] == "calculators"
    code = compile(source, path, "exec", dont_inherit=True, optimize=0 if ours else 2)
    data = _bootstrap_external._code_to_hash_pyc(code, bytes(8), False)
    target = f"{OUT}/{path.removesuffix('.py')}.pyc"
    os.makedirs(os.path.dirname(target), exist_ok=True)
    with open(target, "wb") as file:
        file.write(data)


def main() -> None:
    """Import all that is needed, then write all that was imported."""
    sys.dont_write_bytecode = True
    for name in [n for n in sys.modules if n.partition(".")[0] in LEFT_OUT]:
        sys.modules[name] = None
    sys.path.insert(0, SHOP)
    for name in (*calculator_modules(), *ALSO):
        importlib.import_module(name)
    for module in list(sys.modules.values()):
        path = place(module)
        if path:
            write(module, path)


main()
