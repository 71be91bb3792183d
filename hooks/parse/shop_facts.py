"""The shop facts, `shop.yml`, cannot be read as written.

Why:
    What is true of a machine is said there once, and every page about the machine stands on
    it. An unknown key, an energy that cannot be cut, or a word that YAML takes for something
    else could hide an energy from every check. A machine with an error is left out, so that
    no page is checked against half of its energies.

Example reported:
    appliances:
      tester:
        title: Test machine
        models: {A1: []}
        energies:
          water: {points: [], trapped: true}

Example mended:
    appliances:
      tester:
        title: Test machine
        models: {A1: []}
        energies:
          water: {points: [tap], trapped: true}
"""

from __future__ import annotations

from hooks.diagnostics import Finding, Level
from hooks.model import Appliance, Raised, Shop
from hooks.parse import machine, tree
from hooks.parse.fields import APPLIANCE, SHOP
from hooks.parse.fit import NAME, fit
from hooks.parse.notes import Notes, choose
from hooks.parse.tree import Mapping, Text
from hooks.source import Source, Span

_DEFAULT = Shop(None)


def shop_facts(source: Source) -> tuple[Shop, tuple[Finding, ...]]:
    """The shop of a `shop.yml`, as far as it can be read, and what is wrong with it."""
    notes = Notes(source.name).by(__name__)
    node = tree.read(source.lines, 1, notes)
    if isinstance(node, Mapping):
        return _shop(source, node, notes), tuple(notes.found)
    if not notes.found:
        mend = "Write `appliances:` with what is true of each machine."
        notes.error(source.whole_line(1), "the shop facts have no keys", mend)
    return Shop(source), tuple(notes.found)


def _shop(source: Source, node: Mapping, notes: Notes) -> Shop:
    rest = Mapping(tuple(e for e in node.entries if e[0].text != "appliances"), node.span)
    facts = _mapping(fit(SHOP, rest, notes, "the shop facts"), node.span)
    who = _mapping(facts.get("shop"), node.span)
    skills, live = _skills(facts, notes)
    entries = _entries(node, notes)
    made = [_appliance(key, value, notes.apart()) for key, value in entries]
    appliances = tuple(appliance for appliance in made if appliance)
    _alike(appliances, notes)
    return Shop(
        source=source,
        name=who.text("name") or "",
        phone=who.text("phone") or "",
        hours=who.text("hours") or "",
        mail=who.text("mail") or "",
        about=who.text("about") or "",
        clearing=facts.text("clearing") or _DEFAULT.clearing,
        away_limit=facts.text("away-limit") or _DEFAULT.away_limit,
        skills=skills,
        live_skills=live,
        reading_grade=int(facts.text("reading-grade") or _DEFAULT.reading_grade),
        trade_words=_texts(facts.get("trade-words")),
        raised=_raised(_mapping(facts.get("rules"), node.span)),
        appliances=appliances,
        translated=_translated(_mapping(who.get("translated"), node.span)),
        unread=tuple(
            name
            for entry, appliance in zip(entries, made, strict=True)
            if appliance is None
            for name in _names(*entry)
        ),
    )


def _translated(told: Mapping) -> tuple[tuple[str, str, str], ...]:
    languages = ((code.text, own) for code, own in told.entries if isinstance(own, Mapping))
    return tuple((code, key.text, own.text(key.text) or "") for code, own in languages for key, _ in own.entries)


def _mapping(node: tree.Node | None, span: Span) -> Mapping:
    return node if isinstance(node, Mapping) else Mapping((), span)


def _raised(rules: Mapping) -> tuple[Raised, ...]:
    return tuple(Raised(key.text, Level(rules.text(key.text)), key.span) for key, _ in rules.entries)


def _texts(node: tree.Node | None) -> tuple[tuple[str, str], ...]:
    entries = node.entries if isinstance(node, Mapping) else ()
    return tuple((key.text, value.text) for key, value in entries if isinstance(value, Text))


def _skills(facts: Mapping, notes: Notes) -> tuple[tuple[str, ...], tuple[str, ...]]:
    skills = tuple(skill.text for skill in facts.items("skills")) or _DEFAULT.skills
    live = facts.items("live-skills")
    for skill in live:
        if skill.text not in skills:
            what = f"`{skill.text}` is not one of the skills"
            notes.error(skill.span, what, choose(skill.text, skills))
    if facts.get("live-skills") is not None:
        return skills, tuple(skill.text for skill in live)
    return skills, tuple(s for s in skills if s in _DEFAULT.live_skills) or skills[-1:]


def _entries(node: Mapping, notes: Notes) -> tuple[tuple[Text, tree.Node], ...]:
    listed = node.get("appliances")
    if isinstance(listed, Mapping):
        return listed.entries
    if listed is not None:
        mend = "Write `word-for-it:` and its facts."
        notes.error(listed.span, "`appliances` must have names", mend)
    return ()


def _names(key: Text, node: tree.Node) -> tuple[str, ...]:
    title = node.text("title") if isinstance(node, Mapping) else None
    return (key.text, title) if title else (key.text,)


def _appliance(key: Text, node: tree.Node, notes: Notes) -> Appliance | None:
    facts = fit(APPLIANCE, node, notes, f"`{key.text}`")
    if not NAME.fullmatch(key.text):
        mend = "Use letters, digits and hyphens, without spaces."
        notes.error(key.span, f"`{key.text}` is not one word", mend)
    if not isinstance(facts, Mapping):
        return None
    models = machine.models(_mapping(facts.get("models"), key.span))
    energies = machine.energies(_mapping(facts.get("energies"), key.span), models, notes)
    told = _mapping(facts.get("translated"), key.span)
    if notes.broken:
        return None
    return Appliance(
        id=key.text,
        title=facts.text("title") or key.text,
        models=models,
        energies=energies,
        off_limit=facts.text("off-limit"),
        does=facts.text("does"),
        span=key.span,
        translated=tuple((c.text, t.text) for c, t in told.entries if isinstance(t, Text)),
    )


def _alike(appliances: tuple[Appliance, ...], notes: Notes) -> None:
    names: dict[str, Appliance] = {}
    for appliance in appliances:
        for name in {appliance.id, appliance.title}:
            if name in names:
                what = (
                    f"`{name}` names two appliances; the first is on line {names[name].span.line}"
                )
                notes.error(appliance.span, what, "Give each its own word and title.")
            names.setdefault(name, appliance)
