"""Lists the files of a finished site and lays the service worker beside them.

The list is one edition of the site: a device keeps files of one edition only, and knows each
by its digest. What every device keeps stands in the service worker; the list of all pages and
those of the sets that are kept on demand are files of their own, fetched when they are needed.
"""

from __future__ import annotations

import hashlib
import json
import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import unquote

KEEPER = Path(__file__).parent / "keeper"
PARTS = ("files.js", "sets.js", "editions.js", "answers.js", "events.js")
"""The service worker, in the order in which its parts are joined."""
WORKER = "sw.js"
"""Its place in the site: what stands in the root may answer for the whole site."""
FOLDER = "assets/offline"
"""Where the lists lie."""
OWN = "assets/stillbench"
SHELL = frozenset(
    {"index.html", "first-minute.html", "jobs.html", "job-sheet.html", "offline.html", "404.html", "manifest.webmanifest"}
)
"""The pages that every device keeps, beside all that lies in OWN itself."""
ASIDE = (f"{OWN}/", "assets/runtime/")
"""Where the site's own machinery lies: it is kept as a whole or not at all."""
LEFT_OUT = frozenset({WORKER, "sitemap.xml", "sitemap.xml.gz"})
DIGITS = 16
"""So many hexadecimal digits of a SHA-256 tell a file from another."""
_PICTURE = re.compile(rb'<(?:img|source|video)\s[^>]*?(?:src|poster)="([^"#?]+)"')
_TAGS = (b"<img", b"<source", b"<video")
_SIZES = re.compile(rb'<img\s[^>]*?srcset="([^"]+)"')


@dataclass(frozen=True, slots=True)
class Listed:
    """One file of the site."""

    digest: str
    size: int
    """Bytes, as they lie on a device."""
    pictures: tuple[str, ...]
    """What a page shows of other files, by their paths in the site."""


def listed(site: Path, known: Mapping[str, Listed]) -> dict[str, Listed]:
    """Each file of a finished site by its path; `known` are those that were written or read just now."""
    return {path: known.get(path) or read((site / path).read_bytes(), path) for path in _walk(site)}


def publish(site: Path, sets: Mapping[str, Iterable[str]], files: Mapping[str, Listed] | None = None) -> str:
    """Write the lists and the service worker into `site`; gives the name of the edition.

    `sets` are the paths of what is kept together, by id: a page in it brings its pictures along. `files`
    is what `listed` gives, where that is known already.
    """
    files = listed(site, {}) if files is None else files
    shell = {path: one for path, one in files.items() if _in_shell(path)}
    pages = {path: one for path, one in files.items() if path not in shell and not path.startswith(ASIDE)}
    lists = {"pages": pages, **{id: _together(paths, files, shell) for id, paths in sets.items()}}
    written = {id: _write(site / FOLDER / f"{id}.json", _list(those)) for id, those in lists.items()}
    facts = {
        "shell": _list(shell) | {f"{FOLDER}/pages.json": written["pages"]},
        "sets": {id: _facts(lists[id], written[id]) for id in sets},
    }
    code = "".join((KEEPER / part).read_text("utf-8") for part in PARTS)
    name = digest_of(f"{_json(facts)}{code}".encode())
    (site / WORKER).write_text(f"const EDITION = {_json({'name': name, **facts})};\n{code}", "utf-8")
    return name


def withdraw(site: Path) -> None:
    """Lay a service worker into `site` that takes away the one that an earlier site left behind."""
    (site / WORKER).write_text((KEEPER / "withdraw.js").read_text("utf-8"), "utf-8")


def _walk(site: Path) -> Iterator[str]:
    paths = (path.relative_to(site).as_posix() for path in sorted(site.rglob("*")) if path.is_file())
    return (path for path in paths if path not in LEFT_OUT and not path.startswith(f"{FOLDER}/"))


def read(content: bytes, path: str) -> Listed:
    """What is listed of a file that stands at `path` in the site."""
    may_show = path.endswith(".html") and any(tag in content for tag in _TAGS)  # most pages show none
    shown = [*_PICTURE.findall(content), *_sizes(content)] if may_show else ()
    folder = posixpath.dirname(path)
    pictures = (posixpath.normpath(posixpath.join(folder, unquote(one.decode()))) for one in shown)
    return Listed(digest_of(content), len(content), tuple(pictures))


def _sizes(content: bytes) -> Iterator[bytes]:
    """Each size of each picture: which of them a device asks for, it may decide anew when it is turned."""
    return (size.split()[0] for sizes in _SIZES.findall(content) for size in sizes.split(b","))


def _in_shell(path: str) -> bool:
    return path in SHELL or posixpath.dirname(path) == OWN


def _together(paths: Iterable[str], files: Mapping[str, Listed], shell: Mapping[str, Listed]) -> dict[str, Listed]:
    known = [path for path in paths if path in files]
    whole = dict.fromkeys(one for path in known for one in (path, *files[path].pictures))
    return {path: files[path] for path in whole if path in files and path not in shell}


def _list(files: Mapping[str, Listed]) -> dict[str, tuple[str, int]]:
    return {path: (one.digest, one.size) for path, one in files.items()}


def _facts(files: Mapping[str, Listed], written: tuple[str, int]) -> dict[str, object]:
    pages = sum(path.endswith(".html") for path in files)
    return {"list": written, "bytes": sum(one.size for one in files.values()), "pages": pages}


def _write(file: Path, listed: Mapping[str, tuple[str, int]]) -> tuple[str, int]:
    content = _json(listed).encode()
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(content)
    return digest_of(content), len(content)


def digest_of(content: bytes) -> str:
    """What a file of the site is known by."""
    return hashlib.sha256(content).hexdigest()[:DIGITS]


def _json(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
