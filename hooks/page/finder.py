"""What search looks through: two scripts that are fetched when someone opens it.

The first has what pages are found by: symptoms, parts, models, tools, titles. The second
adds the titles of steps, and where each part and tool is used. They are scripts and not
data, so that search also works where the pages are opened as files.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence

from calculators._lib.declare import Calculator
from hooks.library.entries import Entry, Library, Machine
from hooks.library.words import slug
from hooks.model import Kind
from hooks.page.first_minute import SIGNS
from hooks.page.needs import needs

Found = dict[str, object]
SORT = {Kind.PROCEDURE: "procedure", Kind.SELF_CHECK: "self-check"}


def pages(library: Library, calculators: Sequence[Calculator] = ()) -> str:
    """`find-pages.js`."""
    found: list[Found] = [*_signs()]
    found += [_machine(m) for m in library.machines]
    found += [_entry(e) for e in library.entries]
    found += [_calculator(c) for c in calculators]
    return _script(found)


def more(library: Library) -> str:
    """`find-more.js`: a step that is found leads to it, not to the top of its page."""
    steps = (
        {"address": f"{e.address}#{id}", "title": title, "sort": "step", "about": f"Step on: {e.title}"}
        for e in library.entries
        for id, title in e.steps
    )
    return _script((*_parts(library), *_tools(library), *steps))


def _script(found: Iterable[Found]) -> str:
    kept = [{k: v for k, v in one.items() if v} for one in found]
    text = json.dumps(kept, ensure_ascii=False, separators=(",", ":"))
    return f"window.stillbench.shelve({text});\n"


def _signs() -> Iterator[Found]:
    for sign in SIGNS:
        address = f"first-minute.html#{sign.id}"
        about = "What to do in the first minute"
        yield {"address": address, "title": sign.title, "sort": "first minute", "about": about}


def _machine(machine: Machine) -> Found:
    return {
        "address": f"machines/{machine.id}.html",
        "title": machine.title,
        "sort": "machine",
        "about": f"{', '.join(machine.models)}: all its pages",
        "codes": machine.models,
    }


def _entry(entry: Entry) -> Found:
    return {
        "address": entry.address,
        "title": entry.title,
        "sort": SORT.get(entry.kind, "page"),
        "about": ", ".join(filter(None, (_kind(entry), needs(entry)))),
        "symptoms": entry.symptoms,
        "codes": entry.models,
        "parts": [[p.number or "", p.name] for p in entry.parts],
        "tools": entry.tools,
    }


def _kind(entry: Entry) -> str:
    customers = entry.kind is Kind.SELF_CHECK
    return f"{entry.appliance}, for customers" if customers else entry.appliance


def _parts(library: Library) -> Iterator[Found]:
    for part in library.parts:
        name = " / ".join(part.names)
        address = f"parts-and-tools.html#{slug(part.number or name)}"
        title = " ".join(filter(None, (part.number, name)))
        codes = [part.number] if part.number else []
        yield {"address": address, "title": title, "sort": "part", "about": "Part: where it is used", "codes": codes}


def _tools(library: Library) -> Iterator[Found]:
    for tool in library.tools:
        address = f"parts-and-tools.html#{slug(tool.name)}"
        about = "Tool: where it is used"
        yield {"address": address, "title": tool.name, "sort": "tool", "about": about}


def _calculator(calculator: Calculator) -> Found:
    return {
        "address": f"calculators/{calculator.id}.html",
        "title": calculator.title,
        "sort": "calculator",
        "about": "Calculator",
    }
