"""The packages that come from npm: where they are, and how they get there."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

from hooks.runtime.node import node, npm

ROOT = Path(__file__).resolve().parents[2]
"""The folder that holds `hooks/`, package.json and, once installed, node_modules."""

OVERRIDE = "STILLBENCH_NODE_MODULES"
"""The environment variable that names another node_modules folder."""


class PackageMissing(RuntimeError):
    """A package from npm is not installed; the message says how to mend it."""


def package(name: str) -> Path:
    """The folder of the installed npm package `name`.

    Raises PackageMissing.
    """
    places = _places()
    for place in places:
        if (place / name / "package.json").is_file():
            return place / name
    looked = " and ".join(str(p) for p in places)
    raise PackageMissing(
        f"The npm package {name} is missing (looked in {looked}). "
        f"Run `make setup` in the folder of Stillbench, or set {OVERRIDE}."
    )


def version(name: str) -> str:
    """The version of the installed npm package `name`.

    Raises PackageMissing.
    """
    return str(json.loads((package(name) / "package.json").read_text("utf-8"))["version"])


def run_npm(*arguments: str, root: Path = ROOT) -> int:
    """Run npm where package.json is, and return its exit code.

    Raises NodeMissing.
    """
    path = os.pathsep.join((str(node().parent), os.environ.get("PATH", "")))
    return subprocess.run([*npm(), *arguments], cwd=root, env={**os.environ, "PATH": path}).returncode


def _places() -> tuple[Path, ...]:
    """Where packages may be: the override alone, or beside `hooks/` and in the current folder."""
    override = os.environ.get(OVERRIDE)
    if override:
        return (Path(override),)
    return tuple(dict.fromkeys((ROOT / "node_modules", Path.cwd() / "node_modules")))

