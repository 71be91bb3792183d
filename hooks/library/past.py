"""The texts of a shop as they once were, read from its git repository."""

from __future__ import annotations

import io
import subprocess
import tarfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from hooks import parse
from hooks.parse import Contents
from hooks.source import from_text


class NoPast(Exception):
    """The folder has no such past; the text says why."""


@dataclass(frozen=True, slots=True)
class Past:
    """What git knows of one shop's folder."""

    folder: Path

    def on(self, day: str) -> Mapping[str, str] | None:
        """The texts at the end of that day (YYYY-MM-DD); None where nothing is known of it."""
        try:
            revision = self._git("rev-list", "-1", f"--before={day}T23:59:59", "HEAD").decode().strip()
            return self.texts(revision) if revision else None
        except NoPast:
            return None

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

    def _git(self, *arguments: str) -> bytes:
        try:
            return subprocess.run(["git", *arguments], cwd=self.folder, capture_output=True, check=True).stdout
        except FileNotFoundError as error:
            raise NoPast("git is not installed, so nothing is known of earlier days") from error
        except subprocess.CalledProcessError as error:
            said = error.stderr.decode(errors="replace").strip() or f"there is no revision {arguments[-1].removesuffix('^{commit}')}"
            raise NoPast(said.partition("\n")[0]) from error
