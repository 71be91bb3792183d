"""Before the first step: one sentence to say aloud, and the lists behind it."""

from __future__ import annotations

from dataclasses import dataclass

from hooks.model import Energy, Item, Page
from hooks.page import words
from hooks.page.view import View

SAID = 5
"""So many tools stand in the sentence; the rest stands in the list."""


@dataclass(frozen=True, slots=True)
class Fold:
    """One of the folded lists."""

    title: str
    short: str
    entries: tuple[str, ...]


def lead(view: View) -> str:
    """Who, how long, what to bring, where to cut: "One person, 45 minutes. Bring …; cut power at the plug."."""
    who = _who(view)
    moments = [str(s.number) for s in view.page.steps if (s.people or 0) > _number(view.page)]
    steps = "step" if len(moments) == 1 else "steps"
    more = f" {_most(view.page)} for a moment, at {steps} {words.listed(moments)}." if moments else ""
    parts = [p for p in (_bring(view.page), _cut(view)) if p]
    who = " ".join(filter(None, (earlier(view), who)))
    return f"{who}{more} {words.capital('; '.join(parts))}." if parts else f"{who}{more}"


def earlier(view: View) -> str:
    """What another page has made true, in a sentence; empty where nothing has to be."""
    if view.earlier is None or view.page.front.condition is None:
        return ""
    held: dict[str, list[str]] = {}
    for name, word, _ in view.page.front.condition.holds:
        held.setdefault(HELD[word], []).append(name)
    said = words.listed([f"{words.names(names)} {word}" for word, names in held.items()])
    return f"Only after “{view.earlier[1]}”, which leaves {said}."


HELD = {"proved": "proved off", "released": "let out, not proved", "off": "off, not proved"}


def _number(page: Page) -> int:
    return page.front.people.number if page.front.people else 1


def _most(page: Page) -> str:
    return words.capital(words.count(max(s.people or 0 for s in page.steps)))


def _who(view: View) -> str:
    people, time = view.page.front.people, view.page.front.time
    said = words.people(people.number) if people else ""
    if people and people.skill in view.shop.live_skills:
        said += " allowed to test live" if _live(view.page) else ""
    told = [p for p in (said, words.time(time) if time else "") if p]
    return f"{words.capital(', '.join(told))}." if told else ""


def _live(page: Page) -> bool:
    return any("electricity" in s.test for s in page.steps)


def _bring(page: Page) -> str:
    tools = [item.text for item in page.front.tools or ()]
    if not tools:
        return "" if page.front.tools is None else "no tools"
    rest = len(tools) - SAID
    if rest > 1:
        tools = [*tools[:SAID], f"{words.count(rest)} more"]
    return f"bring {words.listed(tools)}"


def _cut(view: View) -> str:
    """Where each supply is cut; several that share a guard or a point are said one by one."""
    said = [_point(view, e) for e in view.page.energies if _is_cut(view.page, e)]
    stored = [e.name for e in view.page.energies if any(e.name in s.release for s in view.page.steps) and e.stored]
    cut = f"cut {words.listed(said)}" if said else ""
    out = f"let the {words.names(stored)} out" if stored else ""
    return "; ".join(p for p in (cut, out) if p)


def _is_cut(page: Page, energy: Energy) -> bool:
    return any(energy.name in s.isolate for s in page.steps)


def _point(view: View, energy: Energy) -> str:
    first = next(s for s in view.page.steps if energy.name in s.isolate)
    point = first.at or (energy.points[0] if energy.points else "")
    only = view.only(energy)
    where = f"{words.name(energy.name).lower()} at the {point}" if point else words.name(energy.name).lower()
    return f"{where} ({only})" if only else where


def folds(page: Page) -> tuple[Fold, ...]:
    """The lists. One that the writer called `none` says so; one that was left out is not there."""
    front = page.front
    parts = None if front.parts is None else tuple(
        f"{p.name}{f' {p.number}' if p.number else ''}{f', {p.quantity} of them' if p.quantity > 1 else ''}"
        for p in front.parts
    )
    lists = (
        ("Tools", _texts(front.tools)),
        ("Supplies", _texts(front.supplies)),
        ("Parts", parts),
        ("Wear", _texts(front.protect)),
        ("Before you start", _texts(front.before)),
        ("Before you leave", _texts(front.after)),
        ("Models", tuple(_model(m.name, m.options) for m in page.models)),
    )
    return tuple(Fold(t, _short(entries), entries) for t, entries in lists if entries is not None)


def _texts(items: tuple[Item, ...] | None) -> tuple[str, ...] | None:
    return None if items is None else tuple(item.text for item in items)


def _model(name: str, options: frozenset[str]) -> str:
    return f"{name}, with {words.listed(sorted(options))}" if options else name


def _short(entries: tuple[str, ...]) -> str:
    if not entries:
        return "none"
    whole = ", ".join(entries)
    return whole if len(whole) <= 48 else str(len(entries))
