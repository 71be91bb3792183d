"""The indexes: machines, symptoms, parts, tools and calculators, each with its pages."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from hooks.library.entries import (
    CalculatorUse,
    Entry,
    Machine,
    PartUse,
    ReadingUse,
    Symptom,
    ToolUse,
)
from hooks.library.words import key
from hooks.model import Appliance, Kind, Page, Shop
from hooks.parse.front_matter import ANY_MODEL


def machines(shop: Shop, pages: Sequence[Page], entries: Sequence[Entry]) -> tuple[Machine, ...]:
    """The shop's machines first, in its order, then those that only a page declares."""
    known = {a.id: a for a in shop.appliances}
    kept: dict[str, list[tuple[Page, Entry]]] = {a.id: [] for a in shop.appliances}
    for page, entry in zip(pages, entries, strict=True):
        if entry.machine:
            kept.setdefault(entry.machine, []).append((page, entry))
    found = (_machine(id, known.get(id), both) for id, both in kept.items())
    return tuple(m for m in found if m.entries)


def _machine(id: str, known: Appliance | None, both: list[tuple[Page, Entry]]) -> Machine:
    facts = [known] if known else [page for page, _ in both]
    kinds = defaultdict(list)
    for _, entry in both:
        kinds[entry.kind].append(entry)
    return Machine(
        id=id,
        title=known.title if known else next((e.appliance for _, e in both), id),
        models=tuple(dict.fromkeys(m.name for f in facts for m in f.models if m.name != ANY_MODEL)),
        does=(known.does if known else None) or next((e.does for _, e in both if e.does), ""),
        energies=tuple(dict.fromkeys(e.name for f in facts for e in f.energies)),
        procedures=_by_title(kinds[Kind.PROCEDURE]),
        self_checks=_by_title(kinds[Kind.SELF_CHECK]),
    )


def symptoms(entries: Iterable[Entry]) -> tuple[Symptom, ...]:
    """Every symptom once, by its words."""
    return tuple(Symptom(*one) for one in _by_words((e, e.symptoms) for e in entries))


def parts(entries: Iterable[Entry]) -> tuple[PartUse, ...]:
    """Every part once: by its number, or by its name where it has none."""
    numbers: dict[str, str] = {}
    names: dict[str, dict[str, str]] = defaultdict(dict)
    found: dict[str, list[Entry]] = defaultdict(list)
    for entry in entries:
        for part in entry.parts:
            same = key(part.number or part.name)
            numbers.setdefault(same, part.number or "")
            names[same].setdefault(key(part.name), part.name)
            found[same].append(entry)
    made = [PartUse(numbers[k], tuple(names[k].values()), _by_title(found[k])) for k in found]
    return tuple(sorted(made, key=lambda p: (key(p.names[0]), p.number)))


def tools(entries: Iterable[Entry]) -> tuple[ToolUse, ...]:
    """Every tool once, by its name."""
    return tuple(ToolUse(*one) for one in _by_words((e, e.tools) for e in entries))


def _by_words(said: Iterable[tuple[Entry, Iterable[str]]]) -> Iterator[tuple[str, tuple[Entry, ...]]]:
    """Each text once, as it was first written, with the entries that say it."""
    texts: dict[str, str] = {}
    found: dict[str, list[Entry]] = defaultdict(list)
    for entry, written in said:
        for text in written:
            texts.setdefault(key(text), text)
            found[key(text)].append(entry)
    return ((texts[k], _by_title(found[k])) for k in sorted(found))


def calculators(pages: Sequence[Page], entries: Sequence[Entry]) -> tuple[CalculatorUse, ...]:
    """Every calculator that some reading names, with those readings."""
    found: dict[str, list[ReadingUse]] = defaultdict(list)
    for page, entry in zip(pages, entries, strict=True):
        for step in page.steps:
            for reading in step.readings:
                if reading.calculator:
                    use = ReadingUse(reading.label, step.number, step.id, entry)
                    found[reading.calculator].append(use)
    return tuple(CalculatorUse(id, tuple(found[id])) for id in sorted(found))


def _by_title(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    once = {e.name: e for e in entries}
    return tuple(sorted(once.values(), key=lambda e: (key(e.title), e.name)))
