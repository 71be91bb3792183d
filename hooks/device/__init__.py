"""What lives on the reader's device. The page bundles SCRIPTS, the runtime serves WORKER."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from hooks.device import edition
from hooks.device.edition import Listed, read, withdraw
from hooks.device.last import LastSite
from hooks.library import together
from hooks.library.entries import Library

__all__ = ["JOBS_SCRIPTS", "SCRIPTS", "WORKER", "LastSite", "Listed", "publish", "read", "withdraw"]

_HERE = Path(__file__).parent

_JOB = ("database", "store", "course", "record", "file")
SCRIPTS: tuple[Path, ...] = (_HERE / "calculate.js", _HERE / "keep.js", *(_HERE / "job" / f"{name}.js" for name in _JOB))
"""Scripts for every page, in the order in which they are joined."""

JOBS_SCRIPTS: tuple[Path, ...] = tuple(_HERE / "job" / f"{name}.js" for name in ("schema", "open", "table"))
"""Scripts for the pages about jobs alone."""

WORKER: Path = _HERE / "worker.js"
"""The module worker that runs the calculators; it is laid beside the runtime."""


def publish(
    site: Path, library: Library, runtime: Iterable[str], search: Iterable[str] = (), known: Mapping[str, Listed] | None = None
) -> Mapping[str, Listed]:
    """Make the finished `site` one that devices can keep; nothing in it may change afterwards.

    `runtime` and `search` are the files of the calculators' Python and of the search's index.
    `known` are files that were written or read just now. Gives what was listed of each file, by its path in the site.
    """
    calculators = sorted(path.relative_to(site).as_posix() for path in site.glob("calculators/*.html"))
    shared = {"runtime": tuple(runtime), "library": (*together.library(library), *calculators, *search)}
    files = edition.listed(site, known or {})
    edition.publish(site, shared | together.machines(library), files)
    return files
