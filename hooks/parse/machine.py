"""Models and energies: read alike from the shop facts and from a page that declares its own."""

from __future__ import annotations

from collections.abc import Sequence

from hooks.model import Energy, Guard, Model
from hooks.parse.notes import Notes, choose
from hooks.parse.tree import Mapping, Text
from hooks.parse.words import SIGNAL_WORDS
from hooks.source import Span


def guard(text: str, span: Span) -> Guard | None:
    """`hot-fill` or `not hot-fill`; None where it is neither."""
    words = text.split()
    negated = len(words) == 2 and words[0] == "not"
    if len(words) != 1 + negated or words[-1] == "not":
        return None
    return Guard(words[-1], negated, span)


def models(node: Mapping) -> tuple[Model, ...]:
    """Each model and its options, of a tree that fits."""
    return tuple(
        Model(key.text, frozenset(option.text for option in node.items(key.text)), key.span)
        for key, _ in node.entries
    )


def energies(node: Mapping, fitted: Sequence[Model], notes: Notes) -> tuple[Energy, ...]:
    """The energies of a tree that fits, with what is wrong between them written down."""
    made = tuple(
        _energy(key, value, notes) for key, value in node.entries if isinstance(value, Mapping)
    )
    options = sorted({option for model in fitted for option in model.options})
    for energy in made:
        _fed(energy, {e.name: e for e in made}, notes)
        _fed_on_all(energy, {e.name: e for e in made}, fitted, notes)
        if energy.only and energy.only.option not in options:
            what = f"no model has the option `{energy.only.option}`"
            notes.error(energy.only.span, what, choose(energy.only.option, options))
    return made


def _energy(key: Text, facts: Mapping, notes: Notes) -> Energy:
    made = Energy(
        name=key.text,
        points=tuple(point.text for point in facts.items("points")),
        trapped=facts.text("trapped") == "true",
        charged_by=facts.text("charged-by"),
        only=_only(facts.get("only"), notes),
        lowest_word=facts.text("word"),
        file=notes.file,
        span=key.span,
    )
    if key.text in SIGNAL_WORDS:
        notes.error(key.span, f"`{key.text}` is a signal word, not an energy", "Name the energy.")
    points = facts.get("points")
    if points is not None and not made.stored and not made.points:
        mend = "Write where it is cut, or `charged-by` if another energy makes it."
        notes.error(points.span, f"`{key.text}` has no isolating point", mend)
    return made


def _only(node: object, notes: Notes) -> Guard | None:
    if not isinstance(node, Text):
        return None
    made = guard(node.text, node.span)
    if made is None:
        notes.error(node.span, f"`{node.text}` is not an option", "Write `option` or `not option`.")
    return made


def _fed_on_all(
    energy: Energy, by_name: dict[str, Energy], fitted: Sequence[Model], notes: Notes
) -> None:
    """What has no feeder on a model could be let out there with nothing shut off."""
    feeder = by_name.get(energy.charged_by or "")
    lacking = [m.name for m in fitted if feeder and _has(m, energy) and not _has(m, feeder)]
    if feeder and lacking:
        what = f"`{energy.name}` is charged by `{feeder.name}`, which {', '.join(lacking)} has not"
        notes.error(energy.span, what, "Let both hold for the same models, with `only`.")


def _has(model: Model, energy: Energy) -> bool:
    return energy.only is None or energy.only.holds(model.options)


def _fed(energy: Energy, by_name: dict[str, Energy], notes: Notes) -> None:
    seen, feeder = {energy.name}, energy.charged_by
    while feeder is not None:
        if feeder not in by_name:
            what = f"`{energy.name}` is charged by `{feeder}`, which is not declared"
            notes.error(energy.span, what, choose(feeder, [n for n in by_name if n != energy.name]))
            return
        if feeder in seen:
            what = f"`{energy.name}` is charged in a circle"
            notes.error(energy.span, what, "Let `charged-by` lead to an energy that has a supply.")
            return
        seen.add(feeder)
        feeder = by_name[feeder].charged_by
