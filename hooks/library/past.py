"""The texts of a shop as they once were, read from its git repository."""

from __future__ import annotations

import io
import subprocess
import tarfile
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from hooks import parse
from hooks.parse import Contents
from hooks.source import from_text

Asked = tuple[str, str]
"""A day (YYYY-MM-DD), and the name of a file as its `Source` has it."""
Change = tuple[str, str]
"""The day and the revision of a commit."""
MARK = "\x01"


@dataclass(frozen=True, slots=True)
class Then:
    """What texts were on some days."""

    first: str = ""
    """The first day of which anything is known; empty where there is none."""
    touched: Mapping[Asked, str | None] = field(default_factory=dict)
    """Those that were touched since: as they were, or None where there was none. All others are as they are now."""

    def known(self, day: str) -> bool:
        """Whether anything is known of that day."""
        return bool(self.first) and self.first <= day


class NoPast(Exception):
    """The folder has no such past; the text says why."""


@dataclass(frozen=True, slots=True)
class Past:
    """What git knows of one shop's folder."""

    folder: Path

    def on(self, asked: Iterable[Asked]) -> Then:
        """Each text as it was when that day ended. Git is called three times, however much is asked."""
        try:
            changes, edited = self._changes(), self._edited()
            first = min((day for known in changes.values() for day, _ in known), default="")
            prefix = parse.shown(self.folder / parse.FACTS, self.folder).removesuffix(parse.FACTS)
            within = {(day, name): name.removeprefix(prefix) for day, name in asked}
            touched = {one: name for one, name in within.items() if _is_touched(changes, edited, one[0], name)}
            places = {one: _then(changes.get(name, ()), one[0], name) for one, name in touched.items()}
            texts = self._blobs({place for place in places.values() if place})
            return Then(first, {one: texts.get(place) for one, place in places.items()})
        except NoPast:
            return Then()

    def _changes(self) -> Mapping[str, list[Change]]:
        """By file the commits that changed it, the newest first."""
        told = self._git("log", "-z", "--relative", "--name-only", "--no-renames", f"--format={MARK}%H%x00%cs", "--", ".")
        found: dict[str, list[Change]] = defaultdict(list)
        revision = day = ""
        words = iter(told.decode("utf-8", "replace").split("\0"))
        for word in words:
            if word.startswith(MARK):
                revision, day = word.removeprefix(MARK), next(words, "")
            elif name := word.removeprefix("\n"):
                found[name].append((day, revision))
        return found

    def _edited(self) -> frozenset[str]:
        """The files that are not as they were committed last."""
        return frozenset(self._git("diff", "-z", "--relative", "--name-only", "HEAD", "--", ".").decode("utf-8", "replace").split("\0"))

    def _blobs(self, places: Iterable[str]) -> Mapping[str, str]:
        """The texts at `revision:./name`; none where there was no such file."""
        asked = sorted(places)
        told = io.BytesIO(self._git("cat-file", "--batch", given="".join(f"{place}\n" for place in asked)) if asked else b"")
        return {place: text for place in asked if (text := _next(told)) is not None}

    def texts(self, revision: str) -> Mapping[str, str]:
        """The pages and the shop facts at a revision, by their names in the folder. Raises NoPast where there is no such one."""
        known = self._git("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}").decode().strip()
        with tarfile.open(fileobj=io.BytesIO(self._git("archive", "--format=tar", known, "."))) as archive:
            files = [one for one in archive if one.isfile() and (one.name.endswith(".md") or one.name == parse.FACTS)]
            return {one.name: archive.extractfile(one).read().decode("utf-8", "replace") for one in files}

    def contents(self, revision: str) -> Contents:
        """The same as a shop that can be checked, its files named as those of today."""
        texts = {name: from_text(text, parse.shown(self.folder / name, self.folder)) for name, text in self.texts(revision).items()}
        facts = texts.pop(parse.FACTS, None)
        return Contents(facts, (), tuple(texts[name] for name in sorted(texts)), ())

    def _git(self, *arguments: str, given: str = "") -> bytes:
        try:
            return subprocess.run(["git", *arguments], cwd=self.folder, input=given.encode(), capture_output=True, check=True).stdout
        except FileNotFoundError as error:
            raise NoPast("git is not installed, so nothing is known of earlier days") from error
        except subprocess.CalledProcessError as error:
            said = error.stderr.decode(errors="replace").strip() or f"there is no revision {arguments[-1].removesuffix('^{commit}')}"
            raise NoPast(said.partition("\n")[0]) from error


def _is_touched(changes: Mapping[str, list[Change]], edited: frozenset[str], day: str, name: str) -> bool:
    return name in edited or name not in changes or changes[name][0][0] > day


def _then(changes: Iterable[Change], day: str, name: str) -> str:
    """Where the text of a file at the end of a day is found; empty where the file was not there."""
    return next((f"{revision}:./{name}" for changed, revision in changes if changed <= day and "\n" not in name), "")


def _next(told: io.BytesIO) -> str | None:
    """The next text of a batch, None for one that is missing."""
    *_, kind, size = told.readline().decode().split() or ("", "missing", "")
    if not size.isdigit() or kind != "blob":
        return None
    return told.read(int(size) + 1)[:-1].decode("utf-8", "replace")
