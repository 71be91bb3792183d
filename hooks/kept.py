"""What was worked out before, kept beside a shop's settings under a digest of all that it depends on.

Nothing is believed without its digest, the generator's own files are part of each, and what cannot
be read counts as not there: the folder is safe to delete at any time. It is as trusted as the
generator's files themselves, which whoever can write to it could change as well.
"""

from __future__ import annotations

import hashlib
import io
import pickle
import sqlite3
import sys
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import fields, is_dataclass
from functools import cache
from importlib import metadata
from operator import attrgetter
from pathlib import Path
from typing import Any, TypeVar

T = TypeVar("T")
ROOT = Path(__file__).resolve().parents[1]
FOLDER = ".cache/stillbench"
"""Its place beside the shop's `mkdocs.yml`; a shop without one keeps nothing."""
PACKAGES = ("jinja2", "markdown", "markupsafe", "pillow", "pyyaml")
"""What a page or a finding is made with, beside the generator and Python."""
SIZE = 16
"""Bytes of a digest."""


def digest(*parts: str | bytes) -> str:
    """Another one for other parts, also where only the borders between them moved."""
    whole = hashlib.blake2b(digest_size=SIZE)
    for part in parts:
        raw = part if isinstance(part, bytes) else part.encode("utf-8", "surrogatepass")
        whole.update(len(raw).to_bytes(8, "big"))
        whole.update(raw)
    return whole.hexdigest()


@cache
def generator() -> str:
    """The digest of all that makes results of a shop's files: our own files, Python, the packages."""
    found = (path for name in ("hooks", "calculators") for path in sorted((ROOT / name).rglob("*")))
    own = [path for path in found if path.is_file() and "__pycache__" not in path.parts]
    told = [sys.version, *(metadata.version(name) for name in PACKAGES)]
    return digest(*told, *(part for path in own for part in (str(path), path.read_bytes())))


class Kept:
    """Results by sort and digest: in memory, and in a file where it has one."""

    def __init__(self, file: Path | None = None) -> None:
        self._memory: dict[tuple[str, str], Any] = {}
        self._fresh: dict[tuple[str, str], bytes] = {}
        self._used: dict[str, set[str]] = {}
        self._there: dict[str, set[str]] = {}
        self._database = _opened(file) if file else None

    def of(self, sort: str, key: str, make: Callable[[], T]) -> T:
        """The result of that sort and digest; made where it is not there."""
        found = self.get(sort, key)
        if found is None:
            found = make()
            self.put(sort, key, found)
        return found

    def get(self, sort: str, key: str) -> Any | None:
        """What is kept; None where nothing is, or nothing that can be trusted."""
        self._used.setdefault(sort, set()).add(key)
        if (sort, key) not in self._memory and self._database and key in self._listed(sort):
            read = _read(self._database, sort, key)
            if read is not None:
                self._memory[sort, key] = read
        return self._memory.get((sort, key))

    def _listed(self, sort: str) -> set[str]:
        """What the file had of that sort when it was first asked: most builds of much that is new ask in vain."""
        if sort not in self._there and self._database:
            self._there[sort] = _keys(self._database, sort)
        return self._there[sort]

    def put(self, sort: str, key: str, value: object) -> None:
        """Keep a result; it is written by `save`."""
        self._used.setdefault(sort, set()).add(key)
        self._memory[sort, key] = value
        if self._database:
            self._fresh[sort, key] = _written(value)

    def text(self, sort: str, key: str, make: Callable[[], str]) -> str:
        """A long text, kept in the file alone."""
        if self._database is None:
            return make()
        found = self.get(sort, key)
        self._memory.pop((sort, key), None)
        if found is not None:
            return zlib.decompress(found).decode()
        made = make()
        self.put(sort, key, zlib.compress(made.encode(), 1))
        del self._memory[sort, key]
        return made

    def save(self) -> None:
        """Write what is new; of each sort that was asked for, throw away what was not wanted this time."""
        for sort, keys in self._used.items():
            for known in [k for k in self._memory if k[0] == sort and k[1] not in keys]:
                del self._memory[known]
        with suppress(sqlite3.Error):
            if self._database:
                _write(self._database, self._fresh, self._used)
        self._fresh, self._used = {}, {}

    def close(self) -> None:
        """Let go of the file."""
        if self._database:
            self._database.close()


@contextmanager
def beside(folder: Path) -> Iterator[Kept]:
    """What is kept for the shop in `folder`; it is written at the end, if all went well."""
    kept = Kept(place(folder))
    try:
        yield kept
        kept.save()
    finally:
        kept.close()


def place(folder: Path) -> Path | None:
    """The file for the shop in `folder`: beside the nearest `mkdocs.yml` from there up."""
    own = folder.resolve()
    settings = next((p for p in (own, *own.parents) if (p / "mkdocs.yml").is_file()), None)
    return settings and settings / FOLDER / "kept.sqlite"


def _opened(file: Path) -> sqlite3.Connection | None:
    """The file, made anew where it cannot be read; None where it cannot be made either."""
    for _ in range(2):
        try:
            file.parent.mkdir(parents=True, exist_ok=True)
            (file.parent / ".gitignore").write_text("*\n", "utf-8")
            database = sqlite3.connect(file, timeout=2, check_same_thread=False)
            database.execute("PRAGMA synchronous = OFF")
            database.execute("CREATE TABLE IF NOT EXISTS kept (sort, key, value, PRIMARY KEY (sort, key))")
            database.execute("SELECT sort, key, value FROM kept LIMIT 1").fetchall()
        except (OSError, sqlite3.Error):
            with suppress(OSError):
                file.unlink(missing_ok=True)
        else:
            return database
    return None


def _read(database: sqlite3.Connection, sort: str, key: str) -> Any | None:
    try:
        row = database.execute("SELECT value FROM kept WHERE sort = ? AND key = ?", (sort, key)).fetchone()
        seal, value = row[0][:SIZE], row[0][SIZE:]
        return _Known(io.BytesIO(value)).load() if seal == _seal(sort, key, value) else None
    except Exception:  # whatever is wrong with it, it is not there
        return None


def _keys(database: sqlite3.Connection, sort: str) -> set[str]:
    try:
        return {key for (key,) in database.execute("SELECT key FROM kept WHERE sort = ?", (sort,))}
    except sqlite3.Error:
        return set()


def _write(database: sqlite3.Connection, fresh: dict[tuple[str, str], bytes], used: dict[str, set[str]]) -> None:
    rows = ((sort, key, _seal(sort, key, value) + value) for (sort, key), value in fresh.items())
    with database:
        for sort, keys in used.items():
            gone = [(sort, key) for key in _keys(database, sort) - keys]
            database.executemany("DELETE FROM kept WHERE sort = ? AND key = ?", gone)
        database.executemany("REPLACE INTO kept VALUES (?, ?, ?)", rows)


def _seal(sort: str, key: str, value: bytes) -> bytes:
    """What stands before a value: it is whole, and was kept for that sort and digest."""
    return bytes.fromhex(digest(generator(), sort, key, value))


def _written(value: object) -> bytes:
    raw = io.BytesIO()
    _Writing(raw, pickle.HIGHEST_PROTOCOL).dump(value)
    return raw.getvalue()


class _Ways(dict[type, Callable[[Any], tuple[Any, ...]]]):
    """How each kind of the house's data is written: as itself and its values, so that it is read as it was made."""

    def __missing__(self, kind: type) -> Callable[[Any], tuple[Any, ...]]:
        values = tuple if issubclass(kind, tuple) else _values(kind)
        self[kind] = lambda obj: (kind, values(obj))
        return self[kind]


def _values(kind: type) -> Callable[[Any], tuple[Any, ...]]:
    if not is_dataclass(kind):
        raise KeyError(kind)
    names = [field.name for field in fields(kind)]
    return attrgetter(*names) if len(names) > 1 else lambda obj: tuple(getattr(obj, name) for name in names)


class _Writing(pickle.Pickler):
    dispatch_table = _Ways()


class _Known(pickle.Unpickler):
    """Reads the house's own kinds of data and no others, so that a file from elsewhere runs nothing."""

    def find_class(self, module: str, name: str) -> Any:
        found = super().find_class(module, name) if module.startswith("hooks.") and "." not in name else None
        if isinstance(found, type) and found.__module__ == module:
            return found
        raise pickle.UnpicklingError(f"{module}.{name} is not kept")
