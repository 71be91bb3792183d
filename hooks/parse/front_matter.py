"""The front matter, between two lines `---` at the top of a page, cannot be read as written.

Why:
    The kind of page, its machine, its models and energies are what every check stands on.
    A page without front matter is refused too: a first line such as `Warning: hot` would be
    taken for a setting and vanish.

Example reported:
    time: 2:30

Example mended:
    time: 2 h 30 min
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace
from pathlib import PurePosixPath

from hooks.model import Appliance, Condition, Energy, Front, Item, Kind, Model, Part, People, Shop
from hooks.parse import machine, tree
from hooks.parse.fields import front_matter_of
from hooks.parse.fit import fit
from hooks.parse.notes import Notes, choose, nearest
from hooks.parse.tree import Items, Mapping, Text
from hooks.source import Source, Span

_LISTS = ("protect", "tools", "supplies", "before", "after", "symptoms")
ANY_MODEL = "any"
"""The one model of a page that names none and needs none: a self-check, shared steps."""


@dataclass(frozen=True, slots=True)
class Machine:
    """The machine a page is about."""

    title: str
    id: str | None
    models: tuple[Model, ...]
    energies: tuple[Energy, ...]
    off_limit: str | None


@dataclass(frozen=True, slots=True)
class Head:
    """The front matter of one page."""

    kind: Kind
    id: str
    title: str
    title_span: Span
    front: Front
    machine: Machine


def body_start(source: Source) -> int | None:
    """The number of the first line after the front matter; None where there is none."""
    if source.line(1).rstrip() != "---":
        return None
    ends = (n for n in range(2, len(source.lines) + 1) if source.line(n).rstrip() in ("---", "..."))
    end = next(ends, None)
    return end + 1 if end else None


def head(source: Source, shop: Shop, notes: Notes) -> Head | None:
    """The front matter; None where not even the kind of page could be read."""
    notes = notes.by(__name__)
    node = _tree(source, notes)
    kind = _kind(source, node, notes) if node else None
    if node is None or kind is None:
        return None
    fitted = fit(front_matter_of(kind), node, notes.aside(), "the front matter")
    facts = fitted if isinstance(fitted, Mapping) else Mapping((), node.span)
    title = facts.get("title")
    return Head(
        kind=kind,
        id=facts.text("id") or PurePosixPath(source.name).stem,
        title=title.text if isinstance(title, Text) else PurePosixPath(source.name).stem,
        title_span=title.span if title else source.whole_line(1),
        front=replace(_front(facts, node), condition=_condition(kind, facts, notes)),
        machine=_machine(kind, facts, node, shop, notes),
    )


def _tree(source: Source, notes: Notes) -> Mapping | None:
    start = body_start(source)
    if start is None:
        opened = source.line(1).rstrip() == "---"
        what = "the front matter is not closed" if opened else "the page has no front matter"
        notes.error(
            source.whole_line(1), what, "Put it between two lines `---`, the first on line 1."
        )
        return None
    if source.line(start - 1).rstrip() == "...":
        notes.error(source.whole_line(start - 1), "the front matter ends in `...`", "Write `---`.")
    node = tree.read(source.lines[1 : start - 2], 2, notes)
    if node is not None and not isinstance(node, Mapping):
        notes.error(node.span, "the front matter has no keys", "Write `key: value` on each line.")
    if node is None and not notes.found:
        notes.error(
            source.whole_line(1), "the front matter is empty", "Write `title:` and `page:`."
        )
    return node if isinstance(node, Mapping) else None


def _kind(source: Source, node: Mapping, notes: Notes) -> Kind | None:
    known = [kind.value for kind in Kind]
    written = node.get("page")
    if written is None:
        key = next(
            (k for k, _ in node.entries if k.text.lower() in ("kind", "type", "pages")), None
        )
        span = key.span if key else source.whole_line(1)
        notes.error(
            span, "the kind of page is not said", f"Write `page:` and one of: {', '.join(known)}."
        )
    elif not isinstance(written, Text) or written.text not in known:
        shown = written.text if isinstance(written, Text) else ""
        notes.error(written.span, f"`page`: `{shown}` is not a kind of page", choose(shown, known))
    else:
        return Kind(written.text)
    return None


def _condition(kind: Kind, facts: Mapping, notes: Notes) -> Condition | None:
    """The one condition that another page makes true; a second could undo what the first needs."""
    before = facts.get("before")
    found = [one for one in (before.items if isinstance(before, Items) else ()) if isinstance(one, Mapping)]
    counts = kind is Kind.PROCEDURE
    for entry in found[counts:]:
        what = "one other page only" if counts else "no other page"
        mend = "Write it as a sentence; this page must isolate and prove by itself."
        notes.flaw(entry.span, f"a page of kind `{kind.value}` counts on {what}", mend)
    holds = found[0].get("holds") if found and counts else None
    if not isinstance(holds, Mapping):
        return None
    held = tuple((key.text, value.text, key.span) for key, value in holds.entries if isinstance(value, Text))
    return Condition(found[0].text("page") or "", held, found[0].span)


def _front(facts: Mapping, written: Mapping) -> Front:
    people = facts.get("people")
    return Front(
        revision=facts.text("revision"),
        reviewed=facts.text("reviewed"),
        people=_people(people) if isinstance(people, Mapping) else None,
        time=facts.text("time"),
        does=facts.text("does"),
        parts=_parts(facts.get("parts")),
        spans={key.text: key.span for key, _ in written.entries},
        **{name: _items(facts, name) for name in _LISTS},
    )


def _items(facts: Mapping, name: str) -> tuple[Item, ...] | None:
    if facts.get(name) is None:
        return None
    return tuple(Item(entry.text, entry.span) for entry in facts.items(name))


def _people(node: Mapping) -> People | None:
    number, skill = node.text("number"), node.text("skill")
    return People(int(number), skill) if number and skill else None


def _parts(node: tree.Node | None) -> tuple[Part, ...] | None:
    if not isinstance(node, Items):
        return None
    entries = (entry for entry in node.items if isinstance(entry, Mapping) and entry.text("name"))
    return tuple(
        Part(e.text("name") or "", e.text("number"), int(e.text("quantity") or 1), e.span)
        for e in entries
    )


def _machine(kind: Kind, facts: Mapping, written: Mapping, shop: Shop, notes: Notes) -> Machine:
    named = facts.text("appliance") or ""
    known = next((a for a in shop.appliances if named in (a.id, a.title)), None)
    if known is not None:
        return _of_the_shop(kind, facts, known, notes)
    models = facts.get("models")
    fitted = machine.models(models) if isinstance(models, Mapping) else ()
    energies = facts.get("energies")
    made = machine.energies(energies, fitted, notes) if isinstance(energies, Mapping) else ()
    _one_off(kind, written, fitted, shop, notes)
    if not fitted and kind in (Kind.SELF_CHECK, Kind.SHARED_STEPS):
        fitted = (Model(ANY_MODEL, frozenset(), facts.span),)
    return Machine(named, None, fitted, made, facts.text("off-limit"))


def _meant(name: str, fitted: tuple[Model, ...], shop: Shop) -> Appliance | None:
    """The appliance of the shop that is spelled almost so, or whose models are named."""
    models = {_spelled(model.name) for model in fitted}
    return next(
        (
            a
            for a in shop.appliances
            if _spelled(name) in (_spelled(a.id), _spelled(a.title))
            or models.intersection(_spelled(m.name) for m in a.models)
        ),
        None,
    )


def _spelled(name: str) -> str:
    """A name without what people write differently: case, spaces, hyphens, an `s` at its end."""
    return re.sub(r"[\W_]+", "", unicodedata.normalize("NFKC", name).casefold()).removesuffix("s")


def _one_off(
    kind: Kind, written: Mapping, fitted: tuple[Model, ...], shop: Shop, notes: Notes
) -> None:
    """Write down what a page about a machine that is not in the shop facts lacks."""
    named = written.get("appliance")
    span = named.span if named else written.span
    name = written.text("appliance") or ""
    meant = _meant(name, fitted, shop)
    lacks = " and ".join(f"`{key}`" for key in ("models", "energies") if written.get(key) is None)
    if meant:
        what = f"`{name}` is no name in the shop facts, but seems to mean `{meant.title}`"
        mend = f"Write `{meant.id}`, without `energies`, or name machine and models otherwise."
        notes.error(span, what, mend)
    elif name in shop.unread:
        what = f"the facts of `{name}` in the shop facts have errors, so they are left out"
        notes.error(span, what, "Mend them there first.")
    elif isinstance(written.get("models"), Items):
        what = "the models are a list, but the appliance is not in the shop facts"
        notes.error(span, what, "Write each model and its options: {A1: []}.")
    elif kind is Kind.PROCEDURE and lacks:
        what = f"the appliance is not in the shop facts, and the page lacks {lacks}"
        close = nearest(name, [n for a in shop.appliances for n in (a.id, a.title)])
        known = ", ".join(a.id for a in shop.appliances)
        first = f"Write `{close}`" if close else f"Write one of: {known}" if known else "Name it in the shop facts, and mend them if they cannot be read"
        mend = f"{first}, or declare {lacks} here."
        notes.error(span, what, mend)


def _of_the_shop(kind: Kind, facts: Mapping, known: Appliance, notes: Notes) -> Machine:
    for key in ("energies", "off-limit"):
        if (node := facts.get(key)) is not None:
            what = f"`{key}` of `{known.title}` is said in the shop facts"
            notes.error(node.span, what, "Take it out here.")
    energies = () if kind in (Kind.SELF_CHECK, Kind.TEXT) else known.energies
    return Machine(known.title, known.id, _narrowed(facts, known, notes), energies, known.off_limit)


def _narrowed(facts: Mapping, known: Appliance, notes: Notes) -> tuple[Model, ...]:
    models = facts.get("models")
    if models is None:
        return known.models
    names = [model.name for model in known.models]
    if isinstance(models, Mapping):
        mend = f"Write the models the page holds for: [{', '.join(names)}]."
        notes.error(models.span, f"the options of `{known.title}` are said in the shop facts", mend)
        return known.models
    wanted = facts.items("models")
    for entry in wanted:
        if entry.text not in names:
            what = f"`{entry.text}` is not a model of `{known.title}`"
            notes.error(entry.span, what, choose(entry.text, names))
    if not wanted:
        notes.error(
            models.span, "the page holds for no model", "Name its models, or take the key out."
        )
    return tuple(model for model in known.models if model.name in {e.text for e in wanted})
