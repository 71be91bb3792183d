"""The index of texts of a published site: what stands inside its pages, found in small pieces.

Pagefind makes it from plain copies of the pages: titles and words, each step under its own
heading. The search asks it for what the list of pages does not know (see `finder`).
"""

from __future__ import annotations

import posixpath
import subprocess
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from urllib.parse import quote

import pagefind_bin
from markupsafe import Markup, escape

from hooks.library.entries import Entry
from hooks.library.stages import of_step
from hooks.model import Message, Page, Step
from hooks.parse.links import plain

FOLDER = "assets/stillbench/pagefind/"
SCRIPT = f"{FOLDER}pagefind.js"
LANGUAGE = "en"
LISTED = 40
"""So many pages a search lists at most (MOST in `search.js`)."""
ALWAYS = ("pagefind.js", "pagefind-entry.json", f"wasm.{LANGUAGE}.pagefind", "*.pf_meta")


@dataclass(frozen=True, slots=True)
class IndexFiles:
    """The files of the index, as addresses in the site. `pagefind-entry.json` is asked for with a query."""

    always: tuple[str, ...]
    """Needed by every search: program, entry, list of pages."""
    words: tuple[str, ...]
    """Which pages each word is on; a search fetches one for each of its words."""
    texts: tuple[str, ...]
    """The texts of the pages; a search fetches those of its best pages."""


def files(site: Path) -> IndexFiles:
    """The files of the index in the site that was built into `site`; none in a preview."""
    folder = site / FOLDER

    def those(*patterns: str) -> tuple[str, ...]:
        found = (path for pattern in patterns for path in folder.glob(pattern))
        return tuple(sorted(path.relative_to(site).as_posix() for path in found))

    return IndexFiles(those(*ALWAYS), those("index/*"), those("fragment/*"))


def write(copies: Mapping[str, str], drawn: Iterable[str], site: Path) -> IndexFiles:
    """Make the index in `site` from plain copies of pages, and from pages that are drawn there.

    `copies` is HTML by address, `drawn` is addresses. Raises CalledProcessError where Pagefind fails.
    """
    with TemporaryDirectory() as name:
        texts = {**copies, **{address: (site / address).read_text("utf-8") for address in drawn}}
        for folder in {posixpath.dirname(address) for address in texts}:
            Path(name, folder).mkdir(parents=True, exist_ok=True)
        for address, text in texts.items():
            Path(name, address).write_bytes(text.encode())
        _run(Path(name), site / FOLDER)
    made = files(site)
    kept = {site / path for path in (*made.always, *made.words, *made.texts)}
    for path in (site / FOLDER).rglob("*"):
        if path.is_file() and path not in kept:
            path.unlink()
    return made


def _run(texts: Path, to: Path) -> None:
    where = ("--site", str(texts), "--output-path", str(to))
    how = ("--root-selector", "#page", "--force-language", LANGUAGE, "--keep-index-url", "--quiet")
    subprocess.run([str(pagefind_bin.get_executable()), *where, *how], check=True, stdout=subprocess.DEVNULL)


class Copies:
    """Makes the plain copies of the pages with steps, one after the other.

    A shop warns, asks and answers in the same words in many steps, and words that are in all of them lead to none: of
    the steps with one title or text the first stand for all, as many as a search lists.
    """

    def __init__(self) -> None:
        self._said: Counter[str] = Counter()

    def copy(self, page: Page, entry: Entry) -> str:
        """The plain copy of a page. A heading's id is the step's id, stage and title, quoted, with bars between."""
        known = (entry.appliance, *entry.models, *entry.symptoms)
        front = [f'<h1>{escape(page.title)}</h1><p data-pagefind-weight="3">{escape(". ".join(known))}</p>']
        front += [f"<p>{self._telling((*_messages(page.messages), page.intro))}</p>"]
        steps = (self._step(page, step) for step in page.steps)
        return f'<!doctype html><html><body><div id="page">{"".join((*front, *steps))}</div></body></html>'

    def _step(self, page: Page, step: Step) -> str:
        ways = (*step.ways, *([step.next] if step.next else ()))
        labels = (reading.label for reading in step.readings)
        text = self._telling((*_messages(step.messages), step.told, *labels, *(way.words for way in ways), *step.needs))
        title = self._telling([step.title])
        about = "|".join(map(quote, (step.id, of_step(page, step), step.title)))
        return f'<h3 id="{about}">{title}</h3><p>{text}</p>' if title or text else ""

    def _telling(self, texts: Iterable[str]) -> Markup:
        """The words of those texts that not as many steps have said before."""
        self._said.update(texts := list(filter(None, texts)))
        return escape(" · ".join(plain(text) for text in texts if self._said[text] <= LISTED))


def _messages(messages: Iterable[Message]) -> Iterator[str]:
    return (f"{message.title}. {message.text}" for message in messages)
