"""`stillbench new` and `stillbench schema`: what they are told, and what they say they wrote."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from hooks.export import editor
from hooks.new import checkout, pages, shop

PAGE_HELP = "its file, such as procedures/pumps/pump-out.md; it must lie in a shop's folder"


PAGES = {
    "procedure": "a procedure that can be built at once",
    "self-check": "a self-check that can be built at once",
    "shared-steps": "steps that several procedures use, which make their machine safe",
}


def add(commands: Any) -> None:
    """Put both among the commands of the program."""
    new = commands.add_parser("new", help="make a page, a shop, a calculator or a rule, to be filled in")
    kinds = new.add_subparsers(required=True, metavar="KIND")
    for kind, says in PAGES.items():
        of_page = kinds.add_parser(kind, help=says)
        of_page.add_argument("path", type=Path, metavar="FILE", help=PAGE_HELP)
        of_page.add_argument("--appliance", metavar="WORD", help="the machine, by its word or title in the shop facts")
        of_page.set_defaults(run=_told(lambda o, kind=kind: pages.make(kind, o.path, o.appliance)))
    of_shop = kinds.add_parser("shop", help="a shop of your own, in an empty folder")
    of_shop.add_argument("folder", type=Path, metavar="DIR")
    of_shop.set_defaults(run=_told(lambda o: shop.make(o.folder)))
    for kind, make in (("calculator", checkout.calculator), ("rule", checkout.rule)):
        own = kinds.add_parser(kind, help=f"a {kind} and its cases, in a checkout of the program")
        own.add_argument("name", metavar="NAME")
        own.set_defaults(run=_told(lambda o, make=make: make(o.name)))
    schema = commands.add_parser("schema", help="write, or renew, what an editor takes to complete keys and steps")
    schema.add_argument("folder", nargs="?", type=Path, default=Path(editor.FOLDER), metavar="DIR", help=f"else {editor.FOLDER}")
    schema.set_defaults(run=_told(lambda o: _renew(o.folder)))


def _told(make: Callable[[argparse.Namespace], tuple[Path, ...]]) -> Callable[[argparse.Namespace], int]:
    def run(options: argparse.Namespace) -> int:
        for path in make(options):
            print(f"wrote {path}")
        return 0

    return run


def _renew(folder: Path) -> tuple[Path, ...]:
    """The files are the program's own: those of an older version are replaced."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in editor.files().items():
        (folder / name).write_text(text, "utf-8")
    return tuple(folder / name for name in editor.files())
