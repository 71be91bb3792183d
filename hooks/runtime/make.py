"""Makes what is served beside Pyodide, with Pyodide's own Python under Node, and keeps it.

The library: what the calculators use of Python, and the calculators, as `.pyc` files in a zip.
The memory: that of a Python which has imported all of it, for a page to go on from.
"""

from __future__ import annotations

import gzip
import hashlib
import struct
import subprocess
import tempfile
import zipfile
from pathlib import Path

from hooks.runtime.node import node
from hooks.runtime.packages import package, version

LIBRARY = "python.zip"
MEMORY = "memory.bin"

CUT, REMEMBER, *_ = SOURCES = tuple(
    Path(__file__).with_name(name) for name in ("cut.mjs", "remember.mjs", "cut.py", "make.py")
)

PAGE = 4096
"""Bytes of memory that are kept or, if all are zero, left out together; worker.js knows it too."""


class RuntimeFailure(RuntimeError):
    """Python could not be made ready for the browser; the message says why."""


def made(calculators: Path, cache: Path) -> Path:
    """The folder with LIBRARY and MEMORY, made anew only if one of their sources changed.

    Raises PackageMissing, NodeMissing and RuntimeFailure.
    """
    kept = cache / _key(calculators)
    if not kept.is_dir():
        cache.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=cache) as name:
            folder = Path(name)
            _make(calculators, folder)
            _keep(folder / "made", kept)
    return kept


def _keep(made_here: Path, kept: Path) -> None:
    try:
        made_here.rename(kept)
    except OSError:
        if not kept.is_dir():  # else another build made the same meanwhile
            raise


def _make(calculators: Path, folder: Path) -> None:
    compiled, raw, out = folder / "compiled", folder / "raw", folder / "made"
    for made_here in (compiled, out):
        made_here.mkdir()
    _run(calculators, CUT, package("pyodide"), calculators, compiled)
    _pack(compiled, out / LIBRARY)
    _run(calculators, REMEMBER, package("pyodide"), out / LIBRARY, raw)
    (out / MEMORY).write_bytes(_without_zeros(raw.read_bytes()))


def _key(calculators: Path) -> str:
    """A name for everything that is made from `calculators`."""
    digest = hashlib.sha256(version("pyodide").encode())
    for path in (*SOURCES, *sorted(calculators.rglob("*.py"))):
        name = path.relative_to(calculators) if path.is_relative_to(calculators) else path.name
        content = path.read_bytes()
        digest.update(f"\0{name}\0{len(content)}\0".encode() + content)
    return digest.hexdigest()[:16]


def _run(calculators: Path, *arguments: Path) -> None:
    """Run a script of ours in Node."""
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


def _without_zeros(memory: bytes) -> bytes:
    """The length, how many pages are kept, their numbers, the pages; little-endian, gzipped."""
    pages = [memory[at : at + PAGE] for at in range(0, len(memory), PAGE)]
    kept = [number for number, page in enumerate(pages) if any(page)]
    head = struct.pack(f"<{len(kept) + 2}I", len(memory), len(kept), *kept)
    return gzip.compress(head + b"".join(pages[number] for number in kept), 9, mtime=0)
