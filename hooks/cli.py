"""The command `stillbench`.

Exit codes of `check`: 0 clean, 1 errors found, 2 could not run.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

import yaml

from hooks import check, parse
from hooks.check import calculators, explained
from hooks.diagnostics import Finding, has_errors
from hooks.kept import Kept, beside
from hooks.library.past import NoPast, Past
from hooks.library.review import due, listed
from hooks.new import CannotMake, command
from hooks.parse import Contents
from hooks.report import annotations, json, sarif, text
from hooks.report.rooted import below_root, rooted

CLEAN, ERRORS, COULD_NOT_RUN = 0, 1, 2
REPORTS = {
    "json": json.render,
    "sarif": lambda findings, _: sarif.render(rooted(findings, below_root(Path.cwd()))),
    "annotations": lambda findings, _: annotations.render(rooted(findings, below_root(Path.cwd()))),
}
"""The reports for machines, of the findings and the number of pages."""


class CannotRun(Exception):
    """The command was asked something it cannot do; the text says what to do instead."""


@dataclass(frozen=True, slots=True)
class Examined:
    """One shop, read and checked; `only` names the files that were asked for."""

    read: Contents
    findings: tuple[Finding, ...]
    only: frozenset[str] | None


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit code."""
    options = _parser().parse_args(arguments)
    try:
        return options.run(options)
    except (CannotRun, CannotMake, NoPast) as reason:
        print(f"stillbench: {reason}", file=sys.stderr)
        return COULD_NOT_RUN


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser("stillbench", description="Procedures that hold together.")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    checking = commands.add_parser("check", help="check a shop's pages without building the site")
    checking.add_argument("paths", nargs="*", type=Path, metavar="PATH", help=_PATH_HELP)
    checking.add_argument("--fresh", action="store_true", help="look at every page, whatever is known from before")
    checking.add_argument("--format", choices=("text", *REPORTS), default="text")
    checking.set_defaults(run=run_check)
    explaining = commands.add_parser("explain", help="say what a rule reports and why, or what a reading may say of a calculator")
    explaining.add_argument("name", nargs="?", metavar="NAME", help="of a rule, as a finding gives it, or of a calculator; without it, all of them")
    explaining.set_defaults(run=run_explain)
    command.add(commands)
    reviewing = commands.add_parser("review", help="list the pages to look at again, and what changed since they were")
    reviewing.add_argument("path", nargs="?", type=Path, metavar="DIR", help="a shop's folder")
    reviewing.add_argument("--since", metavar="REVISION", help="list the findings that are new since that git revision, too")
    reviewing.set_defaults(run=run_review)
    return parser


_PATH_HELP = "a shop's folder or one page; without it the docs_dir of mkdocs.yml, else procedures"


def run_check(options: argparse.Namespace) -> int:
    """`stillbench check`: parse, check, print."""
    shops = _by_shop(options.paths or [_usual_folder()])
    examined = [_examine(folder, only, options.fresh) for folder, only in shops.items()]
    findings = tuple(f for e in examined for f in e.findings if _asked_for(f, e.only))
    pages = sum(e.only is None or p.name in e.only for e in examined for p in e.read.pages)
    if report := REPORTS.get(options.format):
        sys.stdout.write(report(findings, pages))
    else:
        sources = {s.name: s for e in examined for s in e.read.sources}
        sys.stdout.write(text.render(findings, sources, pages))
    return ERRORS if has_errors(findings) else CLEAN


def run_explain(options: argparse.Namespace) -> int:
    """`stillbench explain`: the page of a rule, of parsing, checking or both; what a calculator takes; a list of both."""
    if options.name is None:
        print(explained.listed(), calculators.listed(), sep="\n\n")
    elif options.name in explained.EXPLAINED:
        print(explained.text(options.name))
    elif options.name in calculators.ids():
        print(calculators.text(options.name))
    else:
        near = get_close_matches(options.name, (*explained.EXPLAINED, *calculators.ids()), 1)
        hint = f"did you mean {near[0]}?" if near else "`stillbench explain` lists all"
        raise CannotRun(f"there is no rule and no calculator {options.name}; {hint}")
    return CLEAN


def run_review(options: argparse.Namespace) -> int:
    """`stillbench review`: pages by the day of their review, with what they rely on and is another since."""
    folder = _shop_of(options.path or _usual_folder())
    examined = _examine(folder, None, False)
    past = Past(folder)
    sys.stdout.write(listed(due(parse.whole(examined.read, Kept()), past.on)))
    if options.since:
        before = {found.fingerprint for found in check.findings(past.contents(options.since), Kept())}
        new = tuple(found for found in examined.findings if found.fingerprint not in before)
        sources = {source.name: source for source in examined.read.sources}
        sys.stdout.write(f"\nNew since {options.since}:\n\n{text.render(new, sources, len(examined.read.pages))}")
    return CLEAN


def _asked_for(found: Finding, only: frozenset[str] | None) -> bool:
    # A page asked for by name still depends on the shop facts: their errors belong to it.
    return only is None or not only.isdisjoint((found.file, found.page)) or found.file.endswith(parse.FACTS)


def _by_shop(paths: Sequence[Path]) -> dict[Path, frozenset[str] | None]:
    """The shop folder of each path, with the names of the pages asked for; None asks for all."""
    shops: dict[Path, frozenset[str] | None] = {}
    for path in paths:
        if (path / "mkdocs.yml").is_file():
            path = _usual_folder(path)
        if not path.exists():
            raise CannotRun(f"there is no file or folder {path}")
        folder = _shop_of(path)
        known = shops.get(folder, frozenset())
        whole = known is None or path.resolve() == folder.resolve()
        shops[folder] = None if whole else known | _names(path, folder)
    return shops


def _names(path: Path, folder: Path) -> frozenset[str]:
    """The names of the pages at `path`, a page or a part of the shop in `folder`."""
    pages = parse.page_paths(path) if path.is_dir() else (path,)
    if not pages:
        raise CannotRun(f"{path} holds no page (*.md)")
    within = (page.resolve().relative_to(folder.resolve()) for page in pages)
    return frozenset(parse.shown(folder / page, folder) for page in within)


def _shop_of(path: Path) -> Path:
    """The nearest folder from here up that holds shop facts, else this one or the page's own."""
    own = (path if path.is_dir() else path.parent).resolve()
    found = next((p for p in (own, *own.parents) if (p / parse.FACTS).is_file()), own)
    return Path(os.path.relpath(found))


def _examine(folder: Path, only: frozenset[str] | None, fresh: bool) -> Examined:
    read = parse.contents(folder)
    if not read.pages:
        raise CannotRun(f"{folder} holds no page (*.md)")
    with nullcontext(Kept()) if fresh else beside(folder) as kept:
        return Examined(read, check.findings(read, kept), only)


def _usual_folder(here: Path = Path()) -> Path:
    config = here / "mkdocs.yml"
    if config.is_file():
        try:
            # BaseLoader: the tags that MkDocs allows are nothing to us, and no code runs.
            settings = yaml.load(config.read_text("utf-8"), yaml.BaseLoader) or {}
        except (yaml.YAMLError, UnicodeDecodeError) as error:
            raise CannotRun(f"{config} cannot be read: {error}") from error
        return here / settings.get("docs_dir", "docs")
    if Path("procedures").is_dir():
        return Path("procedures")
    raise CannotRun("no mkdocs.yml and no folder procedures here; name a PATH")
