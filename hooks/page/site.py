"""The whole site as pages and files: what the build asks for, one page at a time."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from calculators._lib.declare import Calculator
from hooks.check import Report
from hooks.diagnostics import Finding
from hooks.export import editor
from hooks.kept import Kept, digest, generator
from hooks.library.collect import collect
from hooks.library.entries import Entry, Library
from hooks.library.past import Past
from hooks.library.review import due
from hooks.library.translations import in_language, path_in
from hooks.model import Kind, Page, Picture
from hooks.page import bundle, calculator_pages, finder, finding, photos, procedure, rule_pages, self_check, site_pages, text_index, theme, versions
from hooks.page.generated import GeneratedPage, address, links_from
from hooks.page.view import Links, Shown
from hooks.parse.result import ParsedPage, ParsedShop

TEXTS = ("about", "calculator")
"""The generated pages that are more than lists of pages."""
RENDER = {Kind.PROCEDURE: procedure.render, Kind.SELF_CHECK: self_check.render}


@dataclass(frozen=True)
class Site:
    """A shop's site, drawn from what parsing and checking gave."""

    parsed: ParsedShop
    report: Report
    prefix: str
    """How the name of every source begins: the shop's folder, as it is shown."""
    preview: bool
    """Whether the writer is looking: findings stand inside their steps."""
    kept: Kept = field(default_factory=Kept)
    """Articles that were drawn before."""
    carried: tuple[GeneratedPage, ...] | None = None
    """The pages that no one wrote, where they are those of the site before."""
    past: Past | None = None
    """What the shop was on earlier days, where its pages to look at again are to be listed."""

    @cached_property
    def library(self) -> Library:
        """All pages together."""
        return collect(self.parsed, lambda name: address(self._path(name)))

    @cached_property
    def generated(self) -> tuple[GeneratedPage, ...]:
        """The pages that no one wrote, without those that the shop has written itself."""
        if self.carried is not None:
            return self.carried
        own = {self._path(p.source.name) for p in self.parsed.pages}
        reviews = due(self.parsed, self.past.on, self.report.findings) if self.past and not self.preview else ()
        told = digest(generator(), repr((self.library.led_to, self.parsed.shop.source, bool(reviews))))
        lists = self.kept.of("lists", told, lambda: self._lists(bool(reviews)))
        review = [site_pages.review(self.library, reviews)] if reviews else []
        stand_ins = (GeneratedPage(path, *one) for path, one in self._stand_ins.items())
        made = (*lists, *review, *stand_ins, *(rule_pages.generated() if self.preview else ()))
        return tuple(p for p in made if p.path not in own)

    def _lists(self, reviewed: bool) -> tuple[GeneratedPage, ...]:
        library, shop = self.library, self.parsed.shop
        return (*site_pages.generated(library, shop, reviewed), *calculator_pages.generated(library))

    @cached_property
    def _stand_ins(self) -> Mapping[str, tuple[str, str, dict[str, object]]]:
        """Title, HTML and meta of the pages that are not yet translated, by their paths."""
        found = versions.stand_ins(self.library)
        return {path_in(self._path(e.name), code): self._stand_in(e, code) for e, code in found}

    def _stand_in(self, entry: Entry, code: str) -> tuple[str, str, dict[str, object]]:
        path = self._path(entry.name)
        meta = {"page": entry.kind.value, "title": entry.title, "machine": self._machines[entry.name], **self._in_languages(path, code)}
        return entry.title, versions.stand_in(self._drawn(path, "", code), code), meta

    @cached_property
    def _machines(self) -> Mapping[str, str]:
        """The page of each file's machine."""
        return {e.name: f"machines/{e.machine}.html" for e in self.library.entries if e.machine}

    def _in_languages(self, original: str, code: str) -> dict[str, object]:
        return versions.meta(self.library, self.parsed.shop, address(original), code)

    @cached_property
    def by_path(self) -> Mapping[str, ParsedPage]:
        """The pages that someone wrote, by their paths."""
        return {self._path(p.source.name): p for p in self.parsed.pages}

    @cached_property
    def _findings(self) -> Mapping[str, tuple[Finding, ...]]:
        found: dict[str, list[Finding]] = {}
        for one in self.report.findings:
            for name in dict.fromkeys((one.page, one.file)):
                found.setdefault(self._path(name), []).append(one)
        return {path: tuple(ones) for path, ones in found.items()}

    @property
    def _on_page(self) -> Mapping[str, tuple[Finding, ...]]:
        """Each finding once: those of shared steps on the page that uses them."""
        both = self._findings.items()
        return {path: tuple(f for f in found if self._path(f.page) == path) for path, found in both}

    @cached_property
    def _made(self) -> Mapping[str, GeneratedPage]:
        return {page.path: page for page in self.generated}

    @property
    def nav(self) -> list[dict[str, str]]:
        """The sections, for MkDocs."""
        return site_pages.nav(self.library)

    def is_text(self, path: str) -> bool:
        """Whether the page at `path` is an ordinary one, drawn by Markdown alone."""
        page = None if path in self._made else self.by_path[path].page
        return page is not None and page.kind is Kind.TEXT

    @property
    def drawn_in(self) -> tuple[str, ...]:
        """The paths of the pages of shared steps: a site has none of them, a preview says what is wrong there."""
        known = self.by_path.items()
        return tuple(path for path, one in known if one.page and one.page.kind is Kind.SHARED_STEPS)

    def made_of(self, path: str) -> str:
        """Another one whenever the page at `path` has to be drawn again, as far as its own text and findings go."""
        one = self.by_path[path]
        whole = self.report.digests.get(one.name)
        followed = bool(one.page and one.page.id in self.report.analyses)
        made = whole or self.parsed.digests.get(one.name) or repr(one)
        return digest(made, str(whole is None), str(followed), repr(self._findings.get(path, ())))

    @property
    def step_titles(self) -> tuple[str, bytes]:
        """The script that search finds steps by, and its place in the site."""
        return "assets/stillbench/find-steps.js", finder.steps(self.library).encode()

    def html(self, path: str, drawn: str) -> str:
        """The article of the page written at `path`, from the shop's folder.

        `drawn` is its Markdown as MkDocs draws it, which is all that an ordinary page needs.
        """
        return self._made[path].html if path in self._made else self._drawn(path, drawn)

    def _drawn(self, path: str, drawn: str, readers: str = "") -> str:
        parsed, found = self.by_path[path], self._findings.get(path, ())
        to, root = links_from(path), _root(path)
        if parsed.page is None:
            return finding.unreadable(found, parsed.source, root)
        if parsed.page.kind is Kind.SHARED_STEPS:
            users = ((to(e.address), e.title) for e in self.library.entries if parsed.page.id in e.shared)
            return finding.shared(found, parsed.page, users, root)
        if parsed.page.kind not in RENDER:
            return (finding.render(found, parsed.page, root)[1] if self.preview else "") + photos.measured(drawn, path, self._pictures, to)
        links = replace(self._links(path, parsed.page), readers=readers)
        made = self.drawn_from(path, links) if self.preview else None
        return self.kept.text("article", made, lambda: self._article(path, links)) if made else self._article(path, links)

    def drawn_from(self, path: str, links: Links | None = None) -> str | None:
        """The digest of all that the article of a procedure or a self-check comes of; None for what has none."""
        page = self.by_path[path].page if path in self.by_path else None
        made = self.report.digests.get(page.source.name) if page and page.kind in RENDER else None
        if page is None or made is None:
            return None
        followed, found = str(page.id in self.report.analyses), repr(self._findings.get(path, ()))
        return digest(made, followed, found, repr(links or self._links(path, page)), str(self.preview))

    def _article(self, path: str, links: Links) -> str:
        page, found = self.by_path[path].page, self._findings.get(path, ())
        by_step, whole = finding.render(found, page, links.root) if self.preview else ({}, "")
        return RENDER[page.kind](
            page,
            self.report.analyses.get(page.id),
            found,
            self.parsed.shop,
            links,
            finding_html=by_step,
            page_findings=whole,
            preview=self.preview,
        )

    @cached_property
    def _by_id(self) -> Mapping[str, Entry]:
        return {entry.id: entry for entry in self.library.entries}

    def _links(self, path: str, page: Page) -> Links:
        """The links to the pages on which this one goes on, or which it counts on; all of them would be N times N."""
        to = links_from(path)
        condition = page.front.condition
        ids = (*(step.then for step in page.steps), condition.page if condition else None)
        named = (self._by_id.get(id or "") for id in ids)
        own = address(path)
        pages = {e.id: (to(e.address), e.title) for e in named if e}
        return Links(pages, own, _root(path), figures=dict(self._figures(page, to)))

    def _figures(self, page: Page, to: Callable[[str], str]) -> Iterator[tuple[str, Shown]]:
        for file in (figure.file for _, figures in page.figured() for figure in figures):
            if shown := photos.shown(self._path(file), self._pictures, to):
                yield file, shown

    @cached_property
    def _pictures(self) -> Mapping[str, Picture]:
        """The shop's pictures by their paths."""
        return {self._path(name): picture for name, picture in self.parsed.pictures.items()}

    def pictures(self, names: Iterable[str], folder: Path, cache: Path) -> Mapping[str, Path | None]:
        """For the files of `folder` that are pictures: what is published at each address, None for nothing."""
        return photos.published(names, self._pictures, folder, cache)

    def meta(self, path: str) -> dict[str, Any]:
        """What the theme has to know of the page at `path`."""
        if path in self._made:
            made = self._made[path]
            return {**made.meta, **({"banner": self._overview(path)} if self.preview and not made.writers else {})}
        page = self.by_path[path].page
        found = self._findings.get(path, ())
        shown = self.preview and (found or page is None or page.kind is not Kind.SHARED_STEPS)
        banner = finding.banner(found, page) if shown else ""
        if page is None:
            return {"page": "unreadable", "title": path, "banner": banner}
        kind = page.kind.value if page.kind in RENDER else ""
        machine = self._machines.get(page.original, "") if kind else ""
        others = self._in_languages(self._path(page.original), page.language) if page.kind is Kind.SELF_CHECK else {}
        return {"page": kind, "title": page.title, "banner": banner, "machine": machine, **others}

    def _overview(self, path: str) -> str:
        to = links_from(path)
        titles = {p: one.page.title if one.page else p for p, one in self.by_path.items()}
        return finding.overview((to(address(p)), titles[p], found) for p, found in self._on_page.items() if p in titles)

    def files(self, scripts: Iterable[Path], jobs: Iterable[Path], font: Path) -> Mapping[str, bytes]:
        """The site's own styles, scripts and typeface, by their place in the site.

        `scripts` go before those of the blocks, on every page; `jobs` on the pages about jobs.
        """
        calculators = calculator_pages.all_calculators()
        schema = json.dumps(json.loads(theme.JOB_SCHEMA.read_text("utf-8")), separators=(",", ":"))
        apart = (*_texts(jobs), f"stillbench.jobSchema = {schema};")
        joined = {
            theme.STYLES: bundle.css(),
            theme.SCRIPT: bundle.js(_texts(scripts)),
            theme.JOBS_STYLES: bundle.css(apart=True),
            theme.JOBS_SCRIPT: bundle.js(apart, apart=True),
        }
        return {
            **{bundle.named(path, text.encode()): text.encode() for path, text in joined.items()},
            theme.MANIFEST: theme.manifest(self.parsed.shop),
            "assets/stillbench/find-pages.js": self._finder(calculators).encode(),
            **dict([self.step_titles]),
            **{f"schemas/{name}": text.encode() for name, text in editor.files().items()},
            "assets/stillbench/text.woff2": font.read_bytes(),
        }

    def _finder(self, calculators: tuple[Calculator, ...]) -> str:
        index = "" if self.preview else text_index.SCRIPT
        listed = [p for p in self.generated if p.path not in self._stand_ins and not p.writers and not p.meta.get("noindex")]
        return finder.pages(self.library, calculators, listed, index, self._translated)

    @property
    def _translated(self) -> list[Entry]:
        """The translated pages, with their machines' names in their languages."""
        shops = (in_language(self.library, self.parsed.shop, code) for code in self.library.languages)
        return [e for shop in shops for e in shop.entries if e.translates]

    def index_texts(self, site: Path) -> tuple[str, ...]:
        """Make the index of texts in the finished site; gives its files. A preview goes without."""
        if self.preview:
            return ()
        known = {p.source.name: p.page for p in self.parsed.pages}
        entries = [(known[e.name], e) for e in (*self.library.entries, *self._translated)]
        plain = text_index.Copies()
        copies = {e.address: plain.copy(page, e) for page, e in entries if page and page.kind in RENDER}
        made = [p.address for p in self.generated if p.meta["page"] in TEXTS]
        index = text_index.write(copies, [*made, *(e.address for e in self.library.texts)], site)
        return (*index.always, *index.words, *index.texts)

    def _path(self, name: str) -> str:
        return name.removeprefix(self.prefix)


def _root(path: str) -> str:
    """The way from the page at `path` to the site's first folder."""
    return links_from(path)(".").rstrip("/") + "/"


def _texts(paths: Iterable[Path]) -> tuple[str, ...]:
    return tuple(path.read_text("utf-8") for path in paths)
