"""Fuzzes texts: a clean page, or findings that have a line; nothing else, and nothing is built that is not clean.

`python -m tests.torture.pages [COUNT] [SEED]` looks at so many shops in two processes, and prints the
seed, what was reached and how often each rule found something. It fails where a promise was not held,
and prints the slip of the pen by which.
"""

from __future__ import annotations

import gc
import logging
import random
import re
import shutil
import sys
import tempfile
import traceback
import zlib
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field, fields, replace
from html import escape
from math import ceil
from pathlib import Path

import hypothesis
from hypothesis.strategies import SearchStrategy
from markdown import Markdown
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError

from hooks import check, parse
from hooks.build import StillbenchPlugin
from hooks.check.explained import EXPLAINED
from hooks.check.paths import STATE_LIMIT
from hooks.diagnostics import Finding, has_errors
from hooks.kept import Kept
from hooks.model import Kind
from hooks.page import site_pages
from hooks.page.inert import Inert
from hooks.page.site import Site
from hooks.report import annotations, json, sarif
from hooks.source import Source
from tests.torture.shops import ROOT, SORTS, Fuzzed, slips

WHOLE, PROCESSES = 20_000, 2
FIRED = 20
"""So often each rule finds something, in a whole run."""
REACHED, CLEAN, OF_EACH_KIND = 0.30, 0.05, 0.002
"""Shares of all shops: whose changed file is on a page that was followed to its end, that are clean, that change such a file."""
ONE_IN = 200
"""So many of these shops are built by MkDocs, or refused by it, to the last file."""
SHOWN = 20
"""So many faults of each process are printed."""
DRAWING = "a drawing"
DRAWN = (Kind.PROCEDURE, Kind.SELF_CHECK)


@dataclass
class Tally:
    """What a run came to. Each shop counts once for a rule, however often that finds something."""

    looked: int = 0
    reached: int = 0
    clean: int = 0
    built: int = 0
    refused: int = 0
    kinds: Counter[str] = field(default_factory=Counter)
    rules: Counter[str] = field(default_factory=Counter)

    def __add__(self, other: Tally) -> Tally:
        return Tally(*(getattr(self, one.name) + getattr(other, one.name) for one in fields(self)))

    def broken(self, asked: int) -> list[str]:
        """The promises that were not held by a run that was asked for so many."""
        least = FIRED * asked // WHOLE
        kinds = (*map(str, Kind), parse.FACTS, DRAWING)
        return [
            *([f"{self.looked} of {asked} were looked at"] if self.looked < asked else []),
            *([f"{self.reached} reached the analysis, fewer than {REACHED:.0%}"] if self.reached < REACHED * asked else []),
            *([f"{self.clean} were clean, fewer than {CLEAN:.0%}"] if self.clean < CLEAN * asked else []),
            *([f"{self.built} built and {self.refused} refused by MkDocs"] if asked > 10 * ONE_IN and not (self.built and self.refused) else []),
            *(f"{self.kinds[kind]} were {kind}" for kind in kinds if self.kinds[kind] < OF_EACH_KIND * asked),
            *(f"{rule} found something {self.rules[rule]} times" for rule in EXPLAINED if self.rules[rule] < least),
        ]

    def __str__(self) -> str:
        told = [f"{self.looked} shops: {self.reached / max(self.looked, 1):.0%} reached the analysis, {self.clean} clean and drawn,"]
        told += [f"{self.built} of them built whole, {self.refused} refused by MkDocs"]
        listed = (f"{count:7} {name}" for counter in (self.kinds, self.rules) for name, count in sorted(counter.items()))
        return "\n".join((" ".join(told), *listed))


class Bench:
    """One folder in which shop after shop is laid, checked and built as far as is asked."""

    def __init__(self, folder: Path) -> None:
        self.settings, self.folder = folder / "mkdocs.yml", folder / "procedures"
        self.plugins: dict[str, StillbenchPlugin] = {}
        self.seen: set[int] = set()
        self.tally = Tally()
        self.drawer = Markdown(extensions=["toc", "tables", "fenced_code", Inert()])
        self.folder.mkdir()
        self.settings.write_text(f"site_name: Fuzz\ndocs_dir: procedures\nuse_directory_urls: false\nplugins: []\nhooks: ['{ROOT}/hooks/build.py']\n")
        self.config = self._config()

    def is_new(self, shop: Fuzzed) -> bool:
        """Whether no shop like it was looked at yet; from now on one was."""
        known, key = len(self.seen), hash((shop.changed, *shop.files.items()))
        self.seen.add(key)
        return len(self.seen) > known

    def look(self, shop: Fuzzed) -> None:
        """Check it, let the build take or refuse it, draw what is changed. AssertionError where a promise is not held."""
        self._lay(shop)
        plugin = self.plugins.setdefault(shop.sort, StillbenchPlugin())
        plugin.kept = plugin.kept or Kept()
        read = parse.contents(self.folder)
        findings = check.findings(read, plugin.kept)
        placed(findings, {source.name: source for source in read.sources})
        assert json.render(findings, len(read.pages)) and bool(annotations.render(findings)) is bool(findings)
        assert self._refused(plugin) is has_errors(findings)
        self._draw(shop, replace(plugin.site, preview=has_errors(findings), carried=()))
        if zlib.crc32(shop.text.encode()) % ONE_IN == 0:
            self._build(has_errors(findings))
            assert sarif.render(findings)
        self._count(shop, plugin.site, findings)

    def _config(self) -> MkDocsConfig:
        return load_config(str(self.settings))

    def _lay(self, shop: Fuzzed) -> None:
        shutil.rmtree(self.folder, ignore_errors=True)
        for name, text in shop.files.items():
            file = self.folder / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(text.encode())

    def _refused(self, plugin: StillbenchPlugin) -> bool:
        try:
            plugin.on_pre_build(config=self.config)
        except PluginError:
            return True
        finally:
            gc.unfreeze()  # a build ends; this goes on
        return False

    def _draw(self, shop: Fuzzed, site: Site) -> None:
        if shop.changed == parse.FACTS:
            site_pages.generated(site.library, site.parsed.shop)
        for path in _concerned(shop, site):
            page = site.by_path[path].page
            text = self.drawer.reset().convert("\n".join(site.by_path[path].source.lines)) if site.is_text(path) else ""
            drawn = site.html(path, text)
            if page and page.kind in DRAWN:
                assert drawn.count("<article") == 1
            if page and page.kind in DRAWN and not site.preview:
                assert all(len(re.findall(f' id="{re.escape(escape(step.id))}"', drawn)) == 1 for step in page.steps)

    def _build(self, errors: bool) -> None:
        site = self.folder.parent / "site"
        shutil.rmtree(site, ignore_errors=True)
        try:
            build(self._config())
        except (Abort, PluginError):
            assert errors and not site.exists()
            self.tally.refused += 1
        else:
            assert not errors and (site / "index.html").is_file()
            self.tally.built += 1

    def _count(self, shop: Fuzzed, site: Site, findings: tuple[Finding, ...]) -> None:
        tally = self.tally
        pages = (site.by_path[path].page for path in _concerned(shop, site))
        found = check.examine(site.parsed, shop.limit).findings if shop.limit < STATE_LIMIT else findings
        tally.looked += 1
        tally.reached += any(page and page.id in site.report.analyses for page in pages)
        tally.clean += not has_errors(findings)
        tally.kinds[_kind(shop, site)] += 1
        tally.rules.update({finding.rule for finding in found})


def placed(findings: tuple[Finding, ...], sources: dict[str, Source]) -> None:
    """Every finding, with its path, has a line that is there."""
    for one in findings:
        assert one.rule in EXPLAINED and one.message and one.help, one
        places = [(one.file, one.span.line), *((use.file, use.span.line) for use in one.used), *((p.file, p.line) for p in one.path)]
        assert all(1 <= line <= len(sources[file].lines) for file, line in places), one
        source = sources[one.file]
        assert (one.span.line, one.span.column) <= (one.span.end_line, one.span.end_column) <= (len(source.lines) + 1, 10**6), one
        assert 1 <= one.span.column <= len(source.line(one.span.line)) + 1, one


def _kind(shop: Fuzzed, site: Site) -> str:
    """Of what kind the changed file is."""
    if shop.changed not in site.by_path:
        return shop.changed if shop.changed == parse.FACTS else DRAWING
    page = site.by_path[shop.changed].page
    return str(page.kind) if page else "no kind of page"


def _concerned(shop: Fuzzed, site: Site) -> list[str]:
    """The paths of the pages on which the changed file stands."""
    if shop.changed not in site.by_path:
        name = shop.changed.rpartition("/")[2]
        return [path for path in site.by_path if shop.changed == parse.FACTS or name in shop.files[path]]
    changed = site.by_path[shop.changed].source.name
    using = (path for path, one in site.by_path.items() if one.page and any(s.source.name == changed for s in one.page.shared))
    return list(dict.fromkeys((shop.changed, *using)))


def fuzz(count: int, seed: int) -> tuple[Tally, list[str]]:
    """Look at so many shops, or some more; the tally, and what went wrong with which."""
    logging.getLogger("mkdocs").setLevel(logging.CRITICAL)
    told: list[str] = []
    whole = sum(weight for _, weight in SORTS)
    with tempfile.TemporaryDirectory() as name:
        bench = Bench(Path(name))
        for place, (shops, weight) in enumerate(SORTS):
            told += _some(bench, shops, ceil(count * weight / whole), seed * len(SORTS) + place)
    return bench.tally, told


def _some(bench: Bench, shops: SearchStrategy[Fuzzed], count: int, seed: int) -> list[str]:
    """What went wrong with so many of those shops."""
    told: list[str] = []
    how = hypothesis.settings(max_examples=count, phases=(hypothesis.Phase.generate,), database=None, deadline=None,
                              suppress_health_check=list(hypothesis.HealthCheck))  # fmt: skip

    @hypothesis.seed(seed)
    @how
    @hypothesis.given(slips(shops))
    def look(shop: Fuzzed) -> None:
        hypothesis.assume(bench.is_new(shop))
        try:
            bench.look(shop)
        except Exception:  # whatever it is, it is what was looked for
            told.append(f"{shop.slip}\n{traceback.format_exc()}")

    look()
    return told


def main() -> int:
    """Run from the command line."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else WHOLE
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else random.randrange(2**32)
    print(f"seed {seed}", flush=True)
    with ProcessPoolExecutor(PROCESSES) as processes:
        done = list(processes.map(fuzz, [count // PROCESSES] * PROCESSES, [seed, seed + 1]))
    whole = sum((tally for tally, _ in done), Tally())
    wrong = [told for _, faults in done for told in faults[:SHOWN]] + whole.broken(count // PROCESSES * PROCESSES)
    print(whole, *wrong, sep="\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
