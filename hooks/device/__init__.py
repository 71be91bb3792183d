"""What lives on the reader's device. The page bundles SCRIPTS, the runtime serves WORKER."""

from __future__ import annotations

from pathlib import Path

_HERE = Path(__file__).parent

SCRIPTS: tuple[Path, ...] = (_HERE / "calculate.js",)
"""Scripts for every page, in the order in which they are joined."""

WORKER: Path = _HERE / "worker.js"
"""The module worker that runs the calculators; it is laid beside the runtime."""
