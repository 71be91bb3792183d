"""Whether a tree holds what its shape asks for: gives what does, writes down what does not."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from datetime import date
from typing import Any

from hooks.parse import durations
from hooks.parse.notes import Notes, choose, nearest
from hooks.parse.shapes import (
    Choice,
    Date,
    Duration,
    Either,
    Field,
    Keyed,
    Line,
    LineOr,
    Many,
    Name,
    Named,
    Number,
    Shape,
    Whole,
    YesNo,
)
from hooks.parse.tree import Items, Mapping, Node, Text, ambiguous
from hooks.source import Span

NAME = re.compile(r"[^\W_][\w-]*")
_CONTROL = re.compile("[\x00-\x1f\x7f-\x9f]")
_NUMBER = re.compile(r"[-+]?\d{1,15}(\.\d{1,15})?([eE][-+]?\d{1,2})?")


def fit(shape: Shape, node: Node, notes: Notes, what: str) -> Node | None:
    """The tree with only what fits, None where nothing does; `what` names it in findings."""
    return _FITS[type(shape)](shape, node, notes, what)


def number(text: str) -> float | None:
    """The number, None where it is none: `1,5`, `0x10`, `.inf`, `1e400`."""
    value = float(text) if _NUMBER.fullmatch(text) else math.nan
    return value if math.isfinite(value) else None


def _scalar(node: Node, notes: Notes, what: str) -> Text | None:
    if isinstance(node, Mapping):
        mend = "Put text that holds a colon and a space in quotes."
        notes.error(node.span, f"{what} must be text, and this has keys of its own", mend)
    elif isinstance(node, Items):
        notes.error(node.span, f"{what} must be text, and this is a list", "Take the brackets off.")
    elif not node.text.strip():
        notes.error(node.span, f"{what} is empty", "Write it, or take the key out.")
    elif len(node.text.splitlines()) > 1:
        notes.error(node.span, f"{what} must stand on one line", "Write it on one line.")
    elif _CONTROL.search(node.text):
        notes.error(node.span, f"{what} holds a control character", "Take it out.")
    else:
        text = node.text.strip()
        return node if text == node.text else node._replace(text=text)
    return None


def _line(shape: Line, node: Node, notes: Notes, what: str) -> Node | None:
    text = _scalar(node, notes, what)
    if text and text.plain and (kind := ambiguous(text.text)):
        mend = f'Write "{text.text}", in quotes.'
        notes.error(text.span, f"{what}: `{text.text}` without quotes is {kind}", mend)
        return None
    return text


def _name(shape: Name, node: Node, notes: Notes, what: str) -> Node | None:
    text = _line(Line(), node, notes, what)
    if not isinstance(text, Text) or NAME.fullmatch(text.text):
        return text
    mend = "Use letters, digits and hyphens, without spaces."
    notes.error(text.span, f"{what}: `{text.text}` is not one word", mend)
    return None


def _checked(
    works: Callable[[str], bool], wanted: str, mend: str
) -> Callable[[Any, Node, Notes, str], Node | None]:
    """A fit for scalars that `works` accepts."""

    def fits(shape: Shape, node: Node, notes: Notes, what: str) -> Node | None:
        text = _scalar(node, notes, what)
        if text is None or works(text.text):
            return text
        notes.error(text.span, f"{what}: `{text.text}` is not {wanted}", mend)
        return None

    return fits


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return re.fullmatch(r"\d{4}-\d\d-\d\d", text) is not None


def _choice(shape: Choice, node: Node, notes: Notes, what: str) -> Node | None:
    text = _line(Line(), node, notes, what)
    if not isinstance(text, Text) or text.text in shape.words:
        return text
    notes.error(text.span, f"{what}: `{text.text}` is not known", choose(text.text, shape.words))
    return None


def _many(shape: Many, node: Node, notes: Notes, what: str) -> Node | None:
    if isinstance(node, Text) and node.text == "none":
        return Items((), node.span)
    if not isinstance(node, Items):
        empty = isinstance(node, Text) and not node.text
        mend = "Write `none`, or fill it." if empty else "Write a list: [one, two]."
        notes.error(node.span, f"{what} is empty" if empty else f"{what} must be a list", mend)
        return None
    if not node.items and not shape.empty:
        notes.error(node.span, f"{what} is an empty list", "Write `none`, or fill it.")
        return None
    if shape.exactly is not None and len(node.items) != shape.exactly:
        mend = f"Write {shape.exactly}, with a point as the decimal mark."
        notes.error(node.span, f"{what} has {len(node.items)} entries", mend)
        return None
    fitted = (fit(shape.of, item, notes, f"an entry of {what}") for item in node.items)
    return Items(tuple(item for item in fitted if item is not None), node.span)


def _named(shape: Named, node: Node, notes: Notes, what: str) -> Node | None:
    if isinstance(node, Text) and node.text == "none" and shape.empty:
        return Mapping((), node.span)
    if not isinstance(node, Mapping):
        notes.error(node.span, f"{what} must have names with what they hold", "Write `name: …`.")
        return None
    if not node.entries and not shape.empty:
        notes.error(node.span, f"{what} names nothing", "Write at least one entry.")
        return None
    entries = []
    for key, value in node.entries:
        if shape.words and not NAME.fullmatch(key.text):
            mend = "Use letters, digits and hyphens, without spaces."
            notes.error(key.span, f"{what}: `{key.text}` is not one word", mend)
        elif (fitted := fit(shape.of, value, notes, f"`{key.text}`")) is not None:
            entries.append((key, fitted))
    return Mapping(tuple(entries), node.span)


def _either(shape: Either, node: Node, notes: Notes, what: str) -> Node | None:
    return fit(shape.mapping if isinstance(node, Mapping) else shape.listed, node, notes, what)


def _line_or(shape: LineOr, node: Node, notes: Notes, what: str) -> Node | None:
    names = [field.name for field in shape.keyed.fields]
    if isinstance(node, Mapping) and node.entries and not any(nearest(key.text, names) for key, _ in node.entries):
        notes.error(node.span, f"{what} is a sentence with a colon, which makes a key of its first words", "Put it in quotes.")
        return None
    return fit(shape.keyed if isinstance(node, Mapping) else Line(), node, notes, what)


def _keyed(shape: Keyed, node: Node, notes: Notes, what: str) -> Node | None:
    if not isinstance(node, Mapping):
        keys = ", ".join(field.name for field in shape.fields)
        notes.error(
            node.span, f"{what} must have keys", f"Write `key: value`; the keys are: {keys}."
        )
        return None
    known = {field.name: field for field in shape.fields}
    entries, meant = [], set()
    for key, value in node.entries:
        if key.text not in known:
            meant.add(_unknown(key, shape.fields, notes, what))
        elif (fitted := _entry(known[key.text], value, notes)) is not None:
            entries.append((key, fitted))
    made = Mapping(tuple(entries), node.span)
    _missing(shape, node, meant, notes, what)
    return made


def _entry(field: Field, value: Node, notes: Notes) -> Node | None:
    notes = notes.weighing() if field.weighs else notes
    if field.unsaid and isinstance(value, Items | Text) and not (value.items if isinstance(value, Items) else value.text):
        notes = notes.by(field.unsaid)
    return fit(field.shape, value, notes, f"`{field.name}`")


def _unknown(key: Text, fields: tuple[Field, ...], notes: Notes, what: str) -> str | None:
    meant = next((field.name for field in fields if key.text.lower() in field.mistaken), None)
    names = [field.name for field in fields]
    meant = meant or nearest(key.text, names)
    mend = f"Write `{meant}`." if meant else choose(key.text, names)
    notes.error(key.span, f"`{key.text}` is not a key of {what}", mend)
    return meant


def _missing(shape: Keyed, node: Mapping, meant: set[str | None], notes: Notes, what: str) -> None:
    for field in shape.fields:
        if field.must and field.name not in meant and node.get(field.name) is None:
            at = notes.weighing() if field.weighs else notes
            at = at.by(field.unsaid) if field.unsaid else at
            mend = f"Write `{field.name}:`, {field.says}."
            at.error(_first_word(node), f"{what} lacks `{field.name}`", mend)


def _first_word(node: Mapping) -> Span:
    return node.entries[0][0].span if node.entries else node.span


_FITS: dict[type, Callable[[Any, Node, Notes, str], Node | None]] = {
    Line: _line,
    Name: _name,
    Whole: _checked(
        lambda text: re.fullmatch(r"[1-9]\d{0,5}", text) is not None,
        "a whole number from 1",
        "Write digits only.",
    ),
    Number: _checked(
        lambda text: number(text) is not None,
        "a number",
        "Write digits, with a point as the decimal mark.",
    ),
    YesNo: _checked(
        lambda text: text in ("true", "false"), "true or false", "Write true or false."
    ),
    Date: _checked(_is_day, "a day that exists", "Write it as YYYY-MM-DD, like 2026-11-02."),
    Duration: _checked(
        lambda text: durations.seconds(text) is not None, "a time", durations.EXAMPLE
    ),
    Choice: _choice,
    Many: _many,
    Named: _named,
    Either: _either,
    LineOr: _line_or,
    Keyed: _keyed,
}
