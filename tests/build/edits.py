"""A small shop whose pages lean on each other, and edits of all kinds for it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from random import Random

from tests.build import shop

SHARED = """\
---
title: Make it dead
page: shared-steps
id: make-it-dead
revision: 1
reviewed: 2026-11-02
---
# Make it dead

### Unplug it {#unplug isolate="electricity"}

Keep the plug in sight.

### Prove it {#prove verify="electricity" needs="voltage tester"}

Try the tester, test, try the tester.

- **Proved**: [Go on](#go-on)
- **Not proved**: [Stop](#stop)

### Go on {#go-on end="goes on"}

### Stop {#stop end="stopped"}

Tell the office.
"""
OWN = '### Unplug it {#unplug isolate="electricity"}\n\nKeep the plug in sight.'
TEXT = "---\ntitle: Notes\npage: text\nid: notes\n---\n# Notes\n\nSee [the switch](switch.md).\n"
DRAWING = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 200">{}</svg>'
DRAWN = ("", "<path d='M0 0h9'/>", "<text>1</text>", "<script/>")
Edit = Callable[[Path, Random], object]


def lay(folder: Path, how: str = "") -> Path:
    """The shop: three procedures, one of which goes on at another, and a page of text."""
    shop.lay(folder, how=how)
    _write(folder, "lamp.md", _named("lamp").replace('end="stopped"', 'end="stopped" then="switch"'))
    _write(folder, "cord.md", _named("cord"))
    _write(folder, "notes.md", TEXT)
    return folder


def _named(name: str) -> str:
    return shop.PAGE.replace("id: switch", f"id: {name}").replace("the switch", f"the {name}")


def _write(folder: Path, name: str, text: str) -> None:
    (folder / "procedures" / name).write_text(text, "utf-8")


def _pages(folder: Path) -> list[Path]:
    return sorted((folder / "procedures").glob("*.md"))


def change(old: str, new: str, name: str = "") -> Edit:
    """Other words in the file of that name, or in any page."""
    def edit(folder: Path, chance: Random) -> None:
        path = folder / "procedures" / name if name else chance.choice(_pages(folder))
        if path.is_file():
            path.write_text(path.read_text("utf-8").replace(old, new), "utf-8")

    return edit


EDITS: dict[str, Edit] = {
    "say more": change("One wire at a time.", "One wire at a time. Slowly."),
    "say less": change(" Slowly.", ""),
    "take a proof out": change(shop.PROVED, shop.UNPROVED),
    "put it back": change(shop.UNPROVED, shop.PROVED),
    "lose a page that one goes on at": change("id: switch", "id: lever", "switch.md"),
    "find it again": change("id: lever", "id: switch", "switch.md"),
    "another title": change("title: Change", "title: Swap"),
    "the same id twice": change("id: cord", "id: lamp", "cord.md"),
    "once again": change("id: lamp", "id: cord", "cord.md"),
    "no front matter": change("---\ntitle", "title"),
    "front matter": lambda folder, chance: [
        p.write_text("---\n" + p.read_text("utf-8"), "utf-8") for p in _pages(folder) if not p.read_text("utf-8").startswith("---")
    ],
    "another page": lambda folder, chance: _write(folder, f"more{chance.randint(1, 3)}.md", _named(f"more{chance.randint(1, 3)}")),
    "one page less": lambda folder, chance: chance.choice(_pages(folder)[1:] or _pages(folder)).unlink(),
    "the page back": lambda folder, chance: _write(folder, "switch.md", shop.PAGE),
    "another name": lambda folder, chance: _pages(folder)[-1].rename(folder / f"procedures/z{chance.randint(1, 3)}.md"),
    "shared steps": lambda folder, chance: _write(folder, "make-it-dead.md", SHARED),
    "use them": change(OWN, '### Make it dead {#dead uses="make-it-dead"}\n\n- Go on: [Prove it](#prove)'),
    "a proof less in them": change(shop.PROVED, shop.UNPROVED, "make-it-dead.md"),
    "another kettle": change("title: Kettle", "title: Big kettle", "shop.yml"),
    "an energy more": change("{points: [plug]}", "{points: [plug]}\n      water: {points: [tap]}", "shop.yml"),
    "an energy less": change("\n      water: {points: [tap]}", "", "shop.yml"),
    "a picture": lambda folder, chance: _write(folder, "a.txt", str(chance.random())),
    "a figure": change("One wire at a time.", "One wire at a time.\n\n![The plug](plug.svg)"),
    "no figure": change("\n\n![The plug](plug.svg)", ""),
    "its drawing": lambda folder, chance: _write(folder, "plug.svg", DRAWING.format(chance.choice(DRAWN))),
    "no drawing": lambda folder, chance: (folder / "procedures/plug.svg").unlink(missing_ok=True),
    "other words": change("See [the", "Look at [the", "notes.md"),
}
