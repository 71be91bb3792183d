"""Lays what a page needs to calculate into the site: Pyodide, Python, the worker.

Pyodide's own files keep a name of their own, so that a changed calculator does not
make every tablet fetch them again.
"""

from __future__ import annotations

import hashlib
import json
import shutil
from dataclasses import dataclass
from pathlib import Path

from hooks.device import WORKER
from hooks.runtime.make import LIBRARY, MEMORY, RuntimeFailure, made
from hooks.runtime.packages import package, version

__all__ = ["FOLDER", "RuntimeFailure", "RuntimeFiles", "lay"]

FOLDER = "assets/runtime"
"""Where the runtime lies in a site."""

CACHE = Path(".cache/runtime")
"""Where what was made is kept between builds, from the current folder."""

ENGINE = {
    "pyodide.mjs": "pyodide.js",
    "pyodide.asm.mjs": "pyodide.asm.js",
    "pyodide.asm.wasm": "pyodide.asm.wasm",
}
"""Pyodide's files and their names in a site, where every server knows the ending `.js`."""

LOCK = "pyodide-lock.json"


@dataclass(frozen=True, slots=True)
class RuntimeFiles:
    """What was laid into a site. Paths are relative to the site, with slashes."""

    folder: str
    """The folder with `worker.js`, with a slash at its end: the script's `data-runtime`."""
    files: tuple[str, ...]
    """Every file that a calculator may need before its first answer."""


def lay(site_dir: Path, calculators: Path, cache: Path = CACHE) -> RuntimeFiles:
    """Lay the runtime for the calculators in `calculators` into the site at `site_dir`.

    Raises PackageMissing, NodeMissing and RuntimeFailure.
    """
    engine = f"{FOLDER}/pyodide-{version('pyodide')}/"
    kept = made(calculators, cache)
    worker = WORKER.read_text("utf-8").replace("../pyodide/", f"../{Path(engine).name}/")
    folder = f"{FOLDER}/{_digest(worker.encode(), *((kept / n).read_bytes() for n in (LIBRARY, MEMORY)))}/"
    for source, name in ENGINE.items():
        _copy(package("pyodide") / source, site_dir / engine / name)
    for name in (LIBRARY, MEMORY):
        _copy(kept / name, site_dir / folder / name)
    (site_dir / folder / "worker.js").write_text(worker, "utf-8")
    (site_dir / engine / LOCK).write_text(_empty_lock(), "utf-8")
    own = (folder + "worker.js", folder + MEMORY, folder + LIBRARY, engine + LOCK)
    return RuntimeFiles(folder, own + tuple(engine + name for name in ENGINE.values()))


def _digest(*contents: bytes) -> str:
    return hashlib.sha256(b"".join(contents)).hexdigest()[:12]


def _empty_lock() -> str:
    """Pyodide's list of packages without the packages: none of them is served."""
    lock = json.loads((package("pyodide") / LOCK).read_text("utf-8"))
    return json.dumps({"info": lock["info"], "packages": {}})


def _copy(source: Path, target: Path) -> None:
    """Copy a file, and make the folder it goes to."""
    target.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(source, target)
