"""A small page around a piece of one, so that an example in the text of a rule can be run.

A piece may begin with keys of the front matter and a blank line. What it links to and does not hold is put
behind it; the machine has the energies that the piece names.
"""

from __future__ import annotations

import re

from hooks.check import examine
from hooks.check.rules import Rule
from hooks.model import Shop
from hooks.parse import drawn, page
from hooks.parse.pictures import picture
from hooks.parse.result import ParsedShop
from hooks.parse.whole_page import slug
from hooks.source import from_text

KEYS = {
    "title": "A page",
    "page": "procedure",
    "id": "page",
    "revision": "1",
    "reviewed": "2026-11-02",
    "appliance": "Test machine",
    "models": "{A1: [], A2: [hot-fill]}",
    "people": "{number: 1, skill: live testing}",
    "time": "9 h",
    "protect": "none",
    "tools": "none",
    "supplies": "none",
    "parts": "none",
    "before": "none",
    "after": "none",
}
ENERGIES = {
    "electricity": "{points: [plug]}",
    "water": "{points: [tap], trapped: true}",
    "hot-water": "{points: [tap], trapped: true, only: hot-fill}",
    "heat": "{points: [], charged-by: electricity}",
    "fuel": "{points: [fuel valve]}",
}
SHARED = {
    "cord-and-tap": """---
title: Cord and tap
page: shared-steps
id: cord-and-tap
tools: [voltage tester, bucket]
---
### Look at the cord and the tap {#look check}
Dry, and whole.
"""
}
DRAWN = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 360 240">{}</svg>'
PICTURES = {
    "stop-valve.svg": DRAWN.format('<path d="M0 0h9"/>'),
    "tube-and-valve.svg": DRAWN.format("<text>1</text><text>2</text>"),
    "with-a-script.svg": DRAWN.format("<script/>"),
}
NAMING = re.compile(
    r'(?:isolate|release|verify|restore|test|without)="([^"]*)"|^!!! \w+ (.*) "|holds: (\{.*?\})', re.MULTILINE
)
STEP = re.compile(r"^### (.*?)(?: \{(?:#([\w-]+))?.*)?$", re.MULTILINE)
READING = """### Take the reading {{#take-{0} check}}
```reading
id: {0}
label: It
unit: ohm
limits: [1, 2]
```
"""
LOST = "jump-lost"
"""The rule whose example leads to a step that is not there on purpose."""
SAID = "Unplug it if the plug is dry, else keep away. Ring us."
KEY = re.compile(r"([a-z-]+):(.*(?:\n .*)*)\n?")


def pages(piece: str, rule: str) -> dict[str, str]:
    """By name the page around a piece, those that it brings along under `(name)`, and one of shared steps."""
    first, *others = re.split(r"^\((\w[\w-]*)\)\n", piece, flags=re.MULTILINE)
    energies = _energies(piece)
    named = zip(("page", *others[::2]), (first, *others[1::2]), strict=True)
    return {name: _hosted(text, rule, KEYS | {"id": name, "energies": energies}) for name, text in named} | SHARED


def _hosted(piece: str, rule: str, usual: dict[str, str]) -> str:
    keys, body = _parts(piece)
    if customers := rule.startswith("customer-"):
        usual = {key: usual[key] for key in ("title", "page", "id", "revision", "reviewed", "appliance", "models")}
        usual |= {"page": "self-check"}
    front = usual | keys
    told = "" if customers or not body.startswith("###") else _opening(front["energies"])
    written = "".join(f"{key}: {value.removeprefix(' ')}\n" for key, value in front.items())
    behind = "" if rule == LOST else _behind(body, customers)
    return f"---\n{written}---\n{told}{body}\n{behind}"


def _parts(piece: str) -> tuple[dict[str, str], str]:
    keys, at = {}, 0
    while found := KEY.match(piece, at):
        keys[found[1]], at = found[2], found.end()
    body = piece[at:].strip("\n")
    before = '### Measure it {#measure check}\n' if body.startswith("```") else ""
    return keys, before + body + ("" if "###" in before + body else "\n\n### Look {#look check}\nLook at the lamp.")


def _energies(piece: str) -> str:
    named = set(re.findall(r"[\w-]+", " ".join(a or b or c for a, b, c in NAMING.findall(piece))))
    named |= {"electricity"} if "heat" in named else set()
    made = [f"\n  {name}: {facts}" for name, facts in ENERGIES.items() if name in named]
    return "".join(made) or "{}"


def _opening(energies: str) -> str:
    names = re.findall(r"^  ([\w-]+):", energies, re.M)
    return f'!!! warning {" ".join(names)} "Danger"\n    It can kill. Prove first.\n\n' if names else ""


def _behind(body: str, customers: bool) -> str:
    """The readings that are judged and the steps that the piece leads to, where it does not hold them."""
    there = {id or slug(title) for title, id in STEP.findall(body)}
    wanted = [id for id in dict.fromkeys(re.findall(r"\(#([\w-]+)\)", body)) if id not in there]
    readings = [id for id in re.findall(r'judges="(\w+)"', body) if f"id: {id}" not in body]
    taken = "".join(READING.format(id) for id in readings)
    return taken + "".join(_end(id, customers) for id in wanted)


def _end(id: str, customers: bool) -> str:
    end = ("stop using it" if id == "stop" else "book a repair") if customers else "stopped"
    return f'### Go on with it {{#{id} end="{end}"}}\n{SAID}\n'


def found(piece: str, rule: Rule) -> set[str]:
    """The rules that report something on the pages around a piece."""
    made = pages(piece, rule.name)
    parsed = tuple(page(from_text(text, f"{name}.md"), Shop(None)) for name, text in made.items())
    pictures = {name: picture(name, text.encode(), name) for name, text in PICTURES.items()}
    findings = examine(ParsedShop(Shop(None), drawn(parsed), (), pictures=pictures)).findings
    return {finding.rule for finding in findings if finding.page not in {f"{name}.md" for name in SHARED}}
