"""A step line, `### Title {#id word key="value"}`, cannot be read as written.

Why:
    It says what the step does to energy. Markdown takes a lost quote or a comma in silence,
    and the step would lose its meaning, so the line is read strictly: words from a fixed
    list, separated by spaces; values in double quotes; energies separated by spaces; tools,
    parts and panels by commas.

Example reported:
    ### Shut the tap {#tap isolate="water, heat"}

Example mended:
    ### Shut the tap {#tap isolate="water heat"}
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from hooks.diagnostics import StepRef
from hooks.model import Kind
from hooks.parse import attributes, durations, machine
from hooks.parse.attributes import Attribute, Attributes
from hooks.parse.fit import NAME
from hooks.parse.notes import Notes, choose
from hooks.parse.words import BY_NAME, ENDS, OUTCOMES, OWN_ID, Takes
from hooks.source import Span

_OUTSIDE = re.compile(rf"(?<![\w-])(?:{'|'.join(BY_NAME)})\s*=\s*[\"'“”]")


@dataclass(frozen=True, slots=True)
class StepLine:
    """A step line once read; `facts` are fields of `Step`."""

    id: str | None
    title: str
    span: Span
    spans: tuple[tuple[str, Span], ...]
    facts: dict[str, Any]


def step_line(text: str, line: int, kind: Kind, notes: Notes) -> StepLine:
    """Read one `###` line of the file; what is wrong with it is written down."""
    start = attributes.list_start(text)
    title = plain_title(text[3:start] if start is not None else text[3:])
    notes = notes.by(__name__).within(StepRef("", title))
    whole = Span.in_line(line, 0, max(len(text.rstrip()), 1))
    listed = Attributes(None, whole, ())
    if start is not None:
        listed = attributes.read(text, line, start, notes)
    elif attributes.ends_like_a_list(text):
        at = text.rindex("}")
        notes.error(
            Span.in_line(line, at, at + 1), "this `}` is never opened", "Put `{` before the words."
        )
    if outside := _OUTSIDE.search(text[: start if start is not None else len(text)]):
        mend = 'Write `### Title {#id word="value"}`.'
        notes.error(
            Span.in_line(line, *outside.span()), "words of the step line stand outside `{}`", mend
        )
    if not title:
        notes.error(whole, "the step has no title", "Write what to do after `###`.")
    return _filled(listed, title, whole, kind, notes)


def plain_title(text: str) -> str:
    """The words of a heading, without the marks that may close it."""
    return re.sub(r"(^|\s)#+\s*$", "", text).strip()


def _filled(listed: Attributes, title: str, whole: Span, kind: Kind, notes: Notes) -> StepLine:
    notes = notes.within(StepRef(listed.id or "", title))
    spans: list[tuple[str, Span]] = [("id", listed.id_span)] if listed.id else []
    facts: dict[str, Any] = {}
    for word in listed.words:
        spans.append((word.name, word.span))
        value = _value(word, kind, notes, spans)
        if value is not None:
            facts[BY_NAME[word.name].field] = value
    id = unicodedata.normalize("NFC", listed.id) if listed.id else None
    if id and OWN_ID.fullmatch(id):
        what = f"the built page needs the id `{id}` for itself"
        notes.error(listed.id_span, what, "Choose another, without `--`.")
    return StepLine(id, title, whole, tuple(spans), facts)


def _value(word: Attribute, kind: Kind, notes: Notes, spans: list[tuple[str, Span]]) -> Any:
    takes = BY_NAME[word.name].takes
    if takes is Takes.NOTHING:
        return True
    if takes in _LISTS:
        parts = _LISTS[takes](word, notes)
        spans += ((f"{word.name} {name}", span) for name, span in parts)
        return tuple(name for name, _ in parts)
    if takes is Takes.END:
        return _one_of(ENDS.get(kind, ()), word, notes)
    return _SINGLE[takes](word, notes)


def _energies(word: Attribute, notes: Notes) -> list[tuple[str, Span]]:
    if "," in (word.value or ""):
        at = (word.value or "").index(",")
        mend = "Put spaces between them."
        notes.error(_within(word, at, at + 1), "a comma stands between energies", mend)
    found = [(m[0], _within(word, *m.span())) for m in re.finditer(r"[^\s,]+", word.value or "")]
    return _each_once([pair for pair in found if _is_name(*pair, notes)], notes)


def _names(word: Attribute, notes: Notes) -> list[tuple[str, Span]]:
    found: list[tuple[str, Span]] = []
    for part in re.finditer(r"(?:^|(?<=,))[^,]*", word.value or ""):
        name = part[0].strip()
        start = part.start() + len(part[0]) - len(part[0].lstrip())
        if name:
            found.append((name, _within(word, start, start + len(name))))
        else:
            at = min(part.start(), len(word.value or "") - 1)
            what = "nothing stands between two commas, or beside one"
            notes.error(_within(word, at, at + 1), what, "Take the comma out.")
    return _each_once(found, notes)


def _readings(word: Attribute, notes: Notes) -> list[tuple[str, Span]]:
    return [pair for pair in _names(word, notes) if _is_name(*pair, notes)]


def _is_name(name: str, span: Span, notes: Notes) -> bool:
    if NAME.fullmatch(name):
        return True
    mend = "Use letters, digits and hyphens" + (
        ", and commas between names." if " " in name else "."
    )
    notes.error(span, f"`{name}` is not one word", mend)
    return False


def _each_once(pairs: list[tuple[str, Span]], notes: Notes) -> list[tuple[str, Span]]:
    seen: dict[str, Span] = {}
    for name, span in pairs:
        if name in seen:
            notes.error(span, f"`{name}` stands twice", "Keep one of them.")
        seen.setdefault(name, span)
    return list(seen.items())


def _text(word: Attribute, notes: Notes) -> str:
    return (word.value or "").strip()


def _name(word: Attribute, notes: Notes) -> str | None:
    name = _text(word, notes)
    return name if _is_name(name, word.value_span, notes) else None


def _time(word: Attribute, notes: Notes) -> str | None:
    text = _text(word, notes)
    if durations.seconds(text) is not None:
        return text
    notes.error(word.value_span, f"`{text}` is not a time", durations.EXAMPLE)
    return None


def _count(word: Attribute, notes: Notes) -> int | None:
    text = _text(word, notes)
    if re.fullmatch(r"[1-9]\d{0,3}", text, re.ASCII):
        return int(text)
    notes.error(word.value_span, f"`{text}` is not a whole number from 1", "Write digits only.")
    return None


def _guard(word: Attribute, notes: Notes) -> Any:
    made = machine.guard(word.value or "", word.value_span)
    if made is None or not NAME.fullmatch(made.option):
        mend = 'Write only="option" or only="not option".'
        notes.error(word.value_span, f"`{word.value}` is not one option", mend)
        return None
    return made


def _one_of(known: tuple[str, ...], word: Attribute, notes: Notes) -> str | None:
    text = _text(word, notes)
    if text in known:
        return text
    what = f"`{text}` is not known for `{word.name}` on this kind of page"
    notes.error(word.value_span, what, choose(text, known))
    return None


def _outcome(word: Attribute, notes: Notes) -> str | None:
    return _one_of(OUTCOMES, word, notes)


def _within(word: Attribute, start: int, end: int) -> Span:
    begin = word.value_span.column - 1
    return Span.in_line(word.span.line, begin + start, begin + end)


_LISTS: dict[Takes, Callable[[Attribute, Notes], list[tuple[str, Span]]]] = {
    Takes.ENERGIES: _energies,
    Takes.NAMES: _names,
    Takes.READINGS: _readings,
}
_SINGLE: dict[Takes, Callable[[Attribute, Notes], Any]] = {
    Takes.NAME: _name,
    Takes.TEXT: _text,
    Takes.TIME: _time,
    Takes.COUNT: _count,
    Takes.GUARD: _guard,
    Takes.OUTCOME: _outcome,
}
