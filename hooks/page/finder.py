"""What search looks through: two scripts that are fetched when someone opens it.

The first has what pages are found by: symptoms, parts, models, titles, and the tools. The
second has the titles of steps; a published site has an index of its texts instead (see
`text_index`), and fetches the second script only where that index cannot be had. They are
scripts and not data, so that search also works where the pages are opened as files.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence

from calculators._lib.declare import Calculator
from hooks.library.entries import Entry, Library, Machine
from hooks.library.translations import path_in
from hooks.library.words import key, slug
from hooks.model import Kind, ORIGINAL
from hooks.page.first_minute import signs
from hooks.page.generated import GeneratedPage
from hooks.page.languages import Language, language

Found = dict[str, object]
SORT = {Kind.PROCEDURE: "procedure", Kind.SELF_CHECK: "self-check"}


def pages(
    library: Library,
    calculators: Sequence[Calculator] = (),
    generated: Iterable[GeneratedPage] = (),
    text_index: str = "",
    translated: Iterable[Entry] = (),
) -> str:
    """`find-pages.js`; `text_index` is the address of the index of texts, where there is one."""
    found: list[Found] = [sign for code in (ORIGINAL, *library.languages) for sign in _signs(language(code))]
    found += [_machine(m) for m in library.machines]
    found += [*_parts(library), *_tools(library)]
    found += [*_entries(library), *(_translated(e) for e in translated)]
    found += [_calculator(c) for c in calculators]
    known = {one["address"] for one in found}
    found += [_page(page) for page in generated if page.address not in known]
    kept = [{k: v for k, v in one.items() if v} for one in found]
    return _script("shelve", kept, *[text_index] * bool(text_index))


def more(library: Library) -> str:
    """`find-more.js`: by the address of a page, its steps as id, title and stage."""
    steps = {e.address: [(s.id, s.title, s.stage) for s in e.steps] for e in library.entries if e.steps}
    return _script("shelveSteps", steps)


def _script(name: str, *given: object) -> str:
    texts = (json.dumps(one, ensure_ascii=False, separators=(",", ":")) for one in given)
    return f"window.stillbench.{name}({','.join(texts)});\n"


def _signs(say: Language) -> Iterator[Found]:
    for sign in signs(say):
        address = f"{path_in('first-minute.html', say.code)}#{sign.id}"
        told = {"title": sign.title, "sort": "first minute", "symptoms": sign.said}
        yield {"address": address, **told, "language": _other(say.code)}


def _other(code: str) -> str:
    """The language of an entry, left out for the original."""
    return "" if code == ORIGINAL else code


def _translated(entry: Entry) -> Found:
    told = {"title": entry.title, "sort": SORT[entry.kind], "appliance": entry.appliance, "symptoms": entry.symptoms}
    return {"address": entry.address, **told, "codes": entry.models, "language": _other(entry.language)}


def _machine(machine: Machine) -> Found:
    return {
        "address": f"machines/{machine.id}.html",
        "title": machine.title,
        "sort": "machine",
        "about": "all its pages",
        "codes": machine.models,
    }


def _entries(library: Library) -> Iterator[Found]:
    """The pages. Models stand as their places in the list of their machine, left out where it is all of them;
    parts as theirs among the parts. The names of a large shop would else be half of what is fetched."""
    models = {m.id: m.models for m in library.machines}
    parts = {key(part.number or name): at for at, part in enumerate(library.parts) for name in part.names}
    for entry in library.entries:
        own = models.get(entry.machine, ())
        yield {
            "address": entry.address,
            "title": entry.title,
            "sort": SORT.get(entry.kind, "page"),
            "appliance": entry.appliance,
            "stage": entry.stage,
            "symptoms": entry.symptoms,
            "models": [own.index(m) for m in entry.models] if entry.models != own else [],
            "parts": [parts[key(p.number or p.name)] for p in entry.parts],
        }


def _parts(library: Library) -> Iterator[Found]:
    """The parts, before the pages that name them."""
    for part in library.parts:
        name = " / ".join(part.names)
        address = f"parts-and-tools.html#{slug(part.number or name)}"
        codes = [part.number] if part.number else []
        yield {"address": address, "title": name, "sort": "part", "codes": codes}


def _tools(library: Library) -> Iterator[Found]:
    for tool in library.tools:
        address = f"parts-and-tools.html#{slug(tool.name)}"
        yield {"address": address, "title": tool.name, "sort": "tool"}


def _calculator(calculator: Calculator) -> Found:
    return {
        "address": f"calculators/{calculator.id}.html",
        "title": calculator.title,
        "sort": "calculator",
        "about": calculator.summary,
    }


def _page(page: GeneratedPage) -> Found:
    told = {"address": page.address, "title": page.title, "sort": "page"}
    return told | {"language": _other(page.meta.get("language", ORIGINAL))}
