"""The site that was built before: what of it is the same is moved into the next one, and not made again."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

from hooks.device.edition import Listed, digest_of

ASIDE = ".before"
"""Where the last site lies, in the folder of the next one, while that is being built."""


class LastSite:
    """The files of the folder `site`, set aside before it is emptied."""

    def __init__(self, site: Path) -> None:
        self._site, self._aside = site, site / ASIDE
        self.taken: dict[str, Listed] = {}
        """What was moved back, by its path in the site."""
        self.drop()
        if site.is_dir():
            self._aside.mkdir()
            for path in self._shown():
                path.rename(self._aside / path.name)

    def _shown(self) -> Iterator[Path]:
        """What MkDocs would delete: hidden files stay where they are."""
        return (path for path in list(self._site.iterdir()) if not path.name.startswith("."))

    def take(self, path: str, listed: Callable[[], Listed | None]) -> bool:
        """Move a file into the new site; False where the last site has none that is just as it was listed."""
        file = self._aside / path
        known = listed() if file.is_file() else None
        if known is None or digest_of(file.read_bytes()) != known.digest:
            return False
        (self._site / path).parent.mkdir(parents=True, exist_ok=True)
        file.rename(self._site / path)
        self.taken[path] = known
        return True

    def drop(self) -> None:
        """Throw away what was not taken."""
        shutil.rmtree(self._aside, ignore_errors=True)
