"""The folder of a shop: its facts and every page in it."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from hooks.diagnostics import Finding
from hooks.kept import Kept, digest, generator
from hooks.model import Picture, Shop
from hooks.parse import front_matter, page_text
from hooks.parse.lasting import lasting
from hooks.parse.notes import Notes
from hooks.parse.pictures import SHOWN, picture
from hooks.parse.result import ParsedPage, ParsedShop
from hooks.parse.shared_page import drawn
from hooks.parse.shop_facts import shop_facts
from hooks.parse.whole_page import page
from hooks.source import NotText, Source, Span, read

FACTS = "shop.yml"
_PAGES = (".markdown", ".mdown", ".mkdn", ".mkd", ".md", ".html", ".htm", ".xhtml")
_START = Span.in_line(1, 0, 1)


def page_paths(path: Path) -> tuple[Path, ...]:
    """The pages of a shop's folder, in the order of their names; hidden ones left out."""
    return tuple(p for p in _visible(path) if p.suffix == ".md")


def shown(path: Path, folder: Path) -> str:
    """The name a file of the folder is shown by: from here if it lies below, with slashes."""
    within = path.relative_to(folder).as_posix()
    if folder.is_absolute():
        here = Path.cwd()
        folder = folder.relative_to(here) if folder.is_relative_to(here) else Path(folder.name)
    return within if folder == Path() else f"{folder.as_posix()}/{within}"


@dataclass(frozen=True, slots=True)
class PictureFile:
    """A file that a figure can show, not yet looked at."""

    name: str
    path: Path
    digest: str

    def look(self) -> Picture:
        """What it shows."""
        return picture(self.name, self.path.read_bytes(), self.digest)


@dataclass(frozen=True)
class Contents:
    """The files of a shop's folder, read and not yet parsed."""

    facts: Source | None
    facts_findings: tuple[Finding, ...]
    pages: tuple[Source | ParsedPage, ...]
    """In the order of their names; one that is not text is parsed for good."""
    findings: tuple[Finding, ...]
    """What is wrong with the files as such."""
    pictures: tuple[PictureFile, ...] = ()
    """In the order of their names."""

    @property
    def sources(self) -> tuple[Source, ...]:
        """Every file that was read."""
        pages = (one if isinstance(one, Source) else one.source for one in self.pages)
        return (*((self.facts,) if self.facts else ()), *pages)

    @cached_property
    def base(self) -> str:
        """The digest of what every page depends on: the shop facts, and what reads them."""
        return digest(generator(), _text(self.facts), repr(self.facts_findings))

    @cached_property
    def digest(self) -> str:
        """The digest of all that a report on the shop can depend on."""
        pages = (_text(one) if isinstance(one, Source) else repr(one) for one in self.pages)
        pictures = (repr((one.name, one.digest)) for one in self.pictures)
        return digest(self.base, repr(self.findings), *pictures, *pages)


def contents(path: Path) -> Contents:
    """Read all that stands in a shop's folder."""
    facts, wrong = _facts(path)
    start = shown(path / FACTS, path).removesuffix(FACTS)
    pages = tuple(_page(each, start + each.relative_to(path).as_posix()) for each in page_paths(path))
    return Contents(facts, wrong, pages, tuple(_misnamed(path)), tuple(_pictures(path, start)))


def folder(path: Path) -> ParsedShop:
    """All that stands in a shop's folder."""
    return whole(contents(path), Kept())


@lasting()
def whole(read: Contents, kept: Kept) -> ParsedShop:
    """The shop with those files; a page that was parsed before is taken from what is kept."""
    shop, findings = Shop(read.facts), read.facts_findings
    if read.facts and not findings:
        shop, findings = shop_facts(read.facts)
    digests = {one.name: digest(read.base, _text(one)) for one in read.pages if isinstance(one, Source)}

    def parsed(one: Source | ParsedPage) -> ParsedPage:
        return kept.of("page", digests[one.name], lambda: page(one, shop)) if isinstance(one, Source) else one

    pages = drawn(parsed(one) for one in read.pages)
    found = sorted((*findings, *read.findings, *_twice(pages)), key=lambda finding: finding.order)
    seen = {one.name: kept.of("picture", digest(generator(), one.name, one.digest), one.look) for one in read.pictures}
    return ParsedShop(shop, pages, tuple(found), digests, seen)


def _text(source: Source | None) -> str:
    return digest(source.name, "\n".join(source.lines)) if source else ""


def _visible(path: Path) -> tuple[Path, ...]:
    """Every file in the folder that is not hidden, in the order of names."""
    found: list[Path] = []
    for place, folders, files in os.walk(path):
        folders[:] = [name for name in folders if not name.startswith(".")]
        found += (Path(place, name) for name in files if not name.startswith("."))
    return tuple(sorted(found, key=lambda each: each.relative_to(path).as_posix()))


def _facts(path: Path) -> tuple[Source | None, tuple[Finding, ...]]:
    """The shop facts as text, and what is wrong where they are none."""
    file = path / FACTS
    name = shown(file, path)
    if not file.is_file():
        return None, ()
    try:
        return read(file, name), ()
    except NotText as error:
        notes = Notes(name).by(shop_facts.__module__)
        notes.error(error.span, str(error), "Save the file as UTF-8.")
        return Source(name, ()), tuple(notes.found)


def _page(file: Path, name: str) -> Source | ParsedPage:
    """A page as text; one that is not text is all that can be parsed of it."""
    try:
        return read(file, name)
    except NotText as error:
        notes = Notes(name).by(page_text.__name__)
        notes.error(error.span, str(error), "Save the file as UTF-8.")
    except OSError as error:
        notes = Notes(name).by(page_text.__name__)
        what = f"this page cannot be read: {error.strerror}"
        notes.error(_START, what, "Put the file itself here, or take its name away.")
    return ParsedPage(Source(name, ()), None, tuple(notes.found), False)


def _pictures(path: Path, start: str) -> Iterator[PictureFile]:
    """The pictures of the folder; what a link brings in from elsewhere is none of the shop's."""
    for file in _visible(path):
        if file.suffix.lower() in SHOWN and not file.is_symlink():
            yield PictureFile(start + file.relative_to(path).as_posix(), file, digest(file.read_bytes()))


def _linked(path: Path) -> tuple[Path, ...]:
    """Links to folders: the build draws what is in them, and nothing here reads it."""
    places = (Path(place, name) for place, folders, _ in os.walk(path) for name in folders)
    return tuple(sorted(place for place in places if place.is_symlink()))


def _misnamed(path: Path) -> list[Finding]:
    """Files that would be drawn as pages, or are meant as facts, and are not read."""
    found: list[Finding] = []
    for place in _linked(path):
        notes = Notes(shown(place, path), found=found).by(page_text.__name__)
        notes.error(_START, "a linked folder is not checked", "Put the pages themselves here.")
    for file in (f for f in _visible(path) if f.suffix != ".md"):
        notes = Notes(shown(file, path), found=found)
        if file.suffix.lower() in _PAGES:
            what = f"a page named `{file.suffix}` is not checked"
            notes.by(page_text.__name__).error(_START, what, "Let its name end in `.md`.")
        if file.name.lower() in ("shop.yaml", "shop.yml") and file != path / FACTS:
            what = "the shop facts are not read from here"
            notes.by(shop_facts.__module__).error(
                _START, what, f"Name it `{shown(path / FACTS, path)}`."
            )
    return found


def _twice(pages: tuple[ParsedPage, ...]) -> list[Finding]:
    """Pages with one id."""
    found: list[Finding] = []
    first: dict[str, str] = {}
    for made in (parsed.page for parsed in pages if parsed.page):
        name = made.source.name
        if made.id in first:
            notes = Notes(name, found=found).by(front_matter.__name__)
            span = made.front.spans.get("id", made.span)
            what = f"the page id `{made.id}` is that of {first[made.id]} too"
            notes.error(span, what, "Give each page its own `id`.")
        first.setdefault(made.id, name)
    return found
