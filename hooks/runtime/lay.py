"""Lays what a page needs to calculate into the site: Pyodide, Python, the worker.

Pyodide's own files keep a name of their own, so that a changed calculator does not
make every tablet fetch them again.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
import tempfile
import zipfile
from dataclasses import dataclass
from pathlib import Path

from hooks.device import WORKER
from hooks.runtime.node import node
from hooks.runtime.packages import package, version

FOLDER = "assets/runtime"
"""Where the runtime lies in a site."""

CACHE = Path(".cache/runtime")
"""Where a cut standard library is kept between builds, from the current folder."""

ENGINE = {
    "pyodide.mjs": "pyodide.js",
    "pyodide.asm.mjs": "pyodide.asm.js",
    "pyodide.asm.wasm": "pyodide.asm.wasm",
}
"""Pyodide's files and their names in a site, where every server knows the ending `.js`."""

LOCK = "pyodide-lock.json"
CUTTERS = tuple(Path(__file__).with_name(name) for name in ("cut.mjs", "cut.py"))


class RuntimeFailure(RuntimeError):
    """Python could not be cut for the browser; the message says why."""


@dataclass(frozen=True, slots=True)
class RuntimeFiles:
    """What was laid into a site. Paths are relative to the site, with slashes."""

    folder: str
    """The folder with `worker.js`, with a slash at its end: the script's `data-runtime`."""
    files: tuple[str, ...]
    """Every file that a calculator needs before its first answer."""


def lay(site_dir: Path, calculators: Path, cache: Path = CACHE) -> RuntimeFiles:
    """Lay the runtime for the calculators in `calculators` into the site at `site_dir`.

    Raises PackageMissing, NodeMissing and RuntimeFailure.
    """
    engine = f"{FOLDER}/pyodide-{version('pyodide')}/"
    library = _library(calculators, cache)
    worker = WORKER.read_text("utf-8").replace("../pyodide/", f"../{Path(engine).name}/")
    digest = hashlib.sha256(library.read_bytes() + worker.encode()).hexdigest()[:12]
    folder = f"{FOLDER}/{digest}/"
    for source, name in ENGINE.items():
        _copy(package("pyodide") / source, site_dir / engine / name)
    _copy(library, site_dir / folder / "python.zip")
    (site_dir / folder / "worker.js").write_text(worker, "utf-8")
    (site_dir / engine / LOCK).write_text(_empty_lock(), "utf-8")
    own = (folder + "worker.js", folder + "python.zip", engine + LOCK)
    return RuntimeFiles(folder, own + tuple(engine + name for name in ENGINE.values()))


def _empty_lock() -> str:
    """Pyodide's list of packages without the packages: none of them is served."""
    lock = json.loads((package("pyodide") / LOCK).read_text("utf-8"))
    return json.dumps({"info": lock["info"], "packages": {}})


def _library(calculators: Path, cache: Path) -> Path:
    """The cut library with the calculators in it, made anew only if one of its sources changed."""
    kept = cache / _key(calculators) / "python.zip"
    if not kept.is_file():
        kept.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=kept.parent) as folder:
            compiled, packed = Path(folder, "compiled"), Path(folder, "python.zip")
            compiled.mkdir()
            _cut(calculators, compiled)
            _pack(compiled, packed)
            packed.replace(kept)
    return kept


def _key(calculators: Path) -> str:
    """A name for everything that the cut library is made from."""
    digest = hashlib.sha256(version("pyodide").encode())
    for path in (*CUTTERS, *sorted(calculators.rglob("*.py"))):
        name = path.relative_to(calculators) if path.is_relative_to(calculators) else path.name
        content = path.read_bytes()
        digest.update(f"\0{name}\0{len(content)}\0".encode() + content)
    return digest.hexdigest()[:16]


def _cut(calculators: Path, compiled: Path) -> None:
    """Fill `compiled` with the .pyc files of the library's used part and the calculators."""
    arguments = (CUTTERS[0], package("pyodide"), calculators, compiled)
    done = subprocess.run([node(), *arguments], capture_output=True, text=True)
    if done.returncode:
        told = (done.stderr or done.stdout).strip()
        raise RuntimeFailure(f"The calculators in {calculators} do not run in the browser:\n{told}")


def _pack(compiled: Path, packed: Path) -> None:
    """Zip a folder so that the same files give the same bytes."""
    with zipfile.ZipFile(packed, "w") as archive:
        for path in sorted(compiled.rglob("*.pyc")):
            entry = zipfile.ZipInfo(path.relative_to(compiled).as_posix())
            archive.writestr(entry, path.read_bytes(), zipfile.ZIP_DEFLATED, 9)


def _copy(source: Path, target: Path) -> None:
    """Copy a file, and make the folder it goes to."""
    target.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(source, target)
