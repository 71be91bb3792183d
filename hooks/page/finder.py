"""What search looks through: two scripts that are fetched when someone opens it.

The first has what pages are found by: symptoms, parts, models, titles, and the tools; the second
has the titles of steps. What is said inside the steps a published site looks up in an index of its
texts (see `text_index`). They are scripts and not data, so that search also works where the pages
are opened as files; and strings cut up when they are asked, so that a slow device has little to read.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from calculators._lib.declare import Calculator
from hooks.library.entries import Entry, Library
from hooks.library.translations import path_in
from hooks.library.words import slug
from hooks.model import Kind, ORIGINAL
from hooks.page.first_minute import signs
from hooks.page.generated import GeneratedPage
from hooks.page.languages import Language, language

Found = dict[str, object]
TABLES = ("sort", "appliance", "stage", "about", "language", "symptoms", "codes")
SORT = {Kind.PROCEDURE: "procedure", Kind.SELF_CHECK: "self-check"}


def pages(
    library: Library,
    calculators: Sequence[Calculator] = (),
    generated: Iterable[GeneratedPage] = (),
    text_index: str = "",
    translated: Iterable[Entry] = (),
) -> str:
    """`find-pages.js`; `text_index` is the address of the index of texts, where there is one."""
    found = [*_entries(library), *_machines(library), *_parts(library), *_tools(library)]
    found += [sign for code in (ORIGINAL, *library.languages) for sign in _signs(language(code))]
    found += [_translated(e) for e in translated]
    found += [_calculator(c) for c in calculators]
    known = {one["address"] for one in found}
    found += [_page(page) for page in generated if page.address not in known]
    return _script("shelve", _shelved(found), *[text_index] * bool(text_index))


def steps(library: Library) -> str:
    """`find-steps.js`: by title, id and stage of steps, the places of their pages among the library's."""
    known: dict[tuple[str, str, str], list[int]] = {}
    for at, entry in enumerate(library.entries):
        for step in entry.steps:
            known.setdefault((step.title, step.id, step.stage), []).append(at)
    lines = zip(known, _distances(known.values()), strict=True)
    table = "\n".join("\t".join((_line(title), on, id, _line(stage))) for (title, id, stage), on in lines)
    return _script("shelveSteps", table)


def _script(name: str, *given: object) -> str:
    texts = (json.dumps(one, ensure_ascii=False, separators=(",", ":")) for one in given)
    return f"window.stillbench.{name}({','.join(texts)});\n"


def _shelved(found: Sequence[Found]) -> dict[str, str]:
    """Addresses and titles as lines; all else as tables: each text once, with the places of what has it.

    An address that ends at its `#` goes on with the number of its part, in small letters; a title that ends in ": "
    with the name of its machine.
    """
    givers = [at for at, one in enumerate(found) if one.get("on")]
    on = zip(_distances([at] for at in givers), _distances(found[at]["on"] for at in givers), strict=True)
    whole = {"address": "\n".join(_line(str(one["address"])) for one in found), "title": "\n".join(map(_title, found))}
    return {**whole, **{name: _table(_having(found, name)) for name in TABLES}, "on": _lines(on)}


def _title(one: Found) -> str:
    title, machine = _line(str(one["title"])), _line(str(one.get("appliance", "")))
    return title.removesuffix(machine) if machine and title.endswith(f": {machine}") else title


def _having(found: Sequence[Found], name: str) -> dict[str, list[int]]:
    """By each text that stands under `name`, the places of those that have it."""
    having: dict[str, list[int]] = {}
    for at, one in enumerate(found):
        given = one.get(name) or ()
        for text in dict.fromkeys([given] if isinstance(given, str) else given):
            having.setdefault(_line(text), []).append(at)
    return having


def _table(having: Mapping[str, Sequence[int]]) -> str:
    return _lines(zip(having, _distances(having.values()), strict=True))


def _lines(pairs: Iterable[tuple[str, str]]) -> str:
    return "\n".join(f"{text}\t{places}" for text, places in pairs)


def _distances(lines: Iterable[Sequence[int]]) -> Iterator[str]:
    """Each place as its distance from the one before, the first of a line from the first of the line before it.

    Small numbers, and often the same ones, pack well.
    """
    first = 0
    for places in lines:
        yield " ".join(str(b - a) for a, b in pairwise((first, *places)))
        first = places[0]


def _line(text: str) -> str:
    return " ".join(text.split())


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


def _entries(library: Library) -> Iterator[Found]:
    """The pages. What all models of a machine are called, and parts, stand once: with the machine and the part."""
    models = {m.id: m.models for m in library.machines}
    for entry in library.entries:
        yield {
            "address": entry.address,
            "title": entry.title,
            "sort": SORT.get(entry.kind, "page"),
            "appliance": entry.appliance,
            "stage": entry.stage,
            "symptoms": entry.symptoms,
            "codes": entry.models if entry.models != models.get(entry.machine) else (),
        }


def _machines(library: Library) -> Iterator[Found]:
    places = _places_of(library)
    for machine in library.machines:
        yield {
            "address": f"machines/{machine.id}.html",
            "title": machine.title,
            "sort": "machine",
            "about": "all its pages",
            "codes": machine.models,
            "on": sorted(places[e.address] for e in machine.entries if e.models in ((), machine.models)),
        }


def _parts(library: Library) -> Iterator[Found]:
    places = _places_of(library)
    for part in library.parts:
        name = " / ".join(part.names)
        anchor = slug(part.number or name)
        address = f"parts-and-tools.html#{'' if anchor == part.number.lower() else anchor}"
        codes = [part.number] if part.number else []
        on = sorted(places[e.address] for e in part.entries)
        yield {"address": address, "title": name, "sort": "part", "codes": codes, "on": on}


def _places_of(library: Library) -> dict[str, int]:
    return {entry.address: at for at, entry in enumerate(library.entries)}


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
