"""The calculators as a wheel, with a PyScript configuration beside it, for pages that are not of this site."""

from __future__ import annotations

import base64
import hashlib
import json
import zipfile
from pathlib import Path

from calculators import VERSION

OFFERED = "assets/calculators"
"""Where both lie in a site."""

NAME = "stillbench_calculators"
WHEEL = f"{NAME}-{VERSION}-py3-none-any.whl"
CONFIGURATION = "pyscript.json"

_INFO = f"{NAME}-{VERSION}.dist-info"
_METADATA = f"""Metadata-Version: 2.4
Name: {NAME.replace("_", "-")}
Version: {VERSION}
Summary: Stillbench's calculators: readings judged with their uncertainty, in pure Python
License-Expression: MIT
Requires-Python: >=3.11
"""
_WHEEL = """Wheel-Version: 1.0
Generator: stillbench
Root-Is-Purelib: true
Tag: py3-none-any
"""


def offer(site_dir: Path, calculators: Path) -> Path:
    """Write both into the site at `site_dir`; the same calculators give the same bytes. Gives the wheel."""
    folder = site_dir / OFFERED
    folder.mkdir(parents=True, exist_ok=True)
    _pack(_contents(calculators), folder / WHEEL)
    # Unpacked as a file it needs no installer, which PyScript would fetch from elsewhere for a package.
    asked = {"name": NAME, "files": {f"./{WHEEL}": "./*"}}
    (folder / CONFIGURATION).write_text(json.dumps(asked, indent=2) + "\n", "utf-8")
    return folder / WHEEL


def _contents(calculators: Path) -> dict[str, bytes]:
    """Each file of the wheel by its path, the record last."""
    modules = sorted(path.relative_to(calculators.parent).as_posix() for path in calculators.rglob("*.py"))
    files = {name: (calculators.parent / name).read_bytes() for name in modules}
    files |= {f"{_INFO}/METADATA": _METADATA.encode(), f"{_INFO}/WHEEL": _WHEEL.encode()}
    record = [f"{name},sha256={_digest(content)},{len(content)}" for name, content in files.items()]
    return files | {f"{_INFO}/RECORD": "\n".join((*record, f"{_INFO}/RECORD,,", "")).encode()}


def _digest(content: bytes) -> str:
    return base64.urlsafe_b64encode(hashlib.sha256(content).digest()).rstrip(b"=").decode()


def _pack(files: dict[str, bytes], packed: Path) -> None:
    """Zip with the earliest time that a zip can hold, so that no time is in it."""
    with zipfile.ZipFile(packed, "w") as archive:
        for name, content in files.items():
            entry = zipfile.ZipInfo(name)
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, content, zipfile.ZIP_DEFLATED, 9)
