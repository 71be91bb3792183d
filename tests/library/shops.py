"""Small shops for the tests, written as files and read as the build reads them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from hooks import parse
from hooks.library.collect import collect
from hooks.library.entries import Library
from hooks.page.generated import address
from hooks.parse.result import ParsedShop

FACTS = """
shop: {name: Test shop, phone: 555-0100, hours: always, about: Invented for a test.}
skills: [basic, live testing]
appliances:
  cabinet:
    title: Ice cabinet
    does: It drops ice.
    models: {IW40: [], IW60: []}
    energies: {electricity: {points: [plug]}}
  washer:
    title: Laundry machine
    models: {LM20: []}
    energies: {electricity: {points: [plug]}}
"""
FRONT = """---
title: '{title}'
page: {page}
id: {id}
revision: 1
reviewed: 2026-11-02
appliance: {appliance}
people: {{number: 1, skill: basic}}
protect: none
time: 10 min
tools: {tools}
supplies: none
parts: {parts}
before: none
after: none
symptoms: {symptoms}
---
# {title}

"""
USUAL = {"page": "procedure", "appliance": "cabinet", "tools": "none", "parts": "none", "symptoms": "none"}
STEPS = "### Look {#look check}\n\nLook.\n\n### Done {#done end=\"as found\"}\n"
READING = """### Read the coil {#read check}

```reading
id: coil
label: Ice coil
unit: ohm
limits: [100, 500]
calculator: coil
```

### Done {#done end="as found"}
"""


def page(id: str, title: str, steps: str = STEPS, **front: str) -> str:
    """The text of a page; what is not named is as usual."""
    return FRONT.format(id=id, title=title, **{**USUAL, **front}) + steps


def parsed(folder: Path, files: Mapping[str, str], facts: str = FACTS) -> ParsedShop:
    """A shop with these files below `folder`."""
    for name, text in {"shop.yml": facts, **files}.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    shop = parse.folder(folder)
    assert not [p.findings for p in shop.pages if p.page is None]
    return shop


def library(folder: Path, files: Mapping[str, str], facts: str = FACTS) -> Library:
    """Its library."""
    prefix = f"{folder.name}/"
    return collect(parsed(folder, files, facts), lambda name: address(name.removeprefix(prefix)))
