"""YAML with positions: a small tree whose scalars all stay text.

Read from PyYAML's events, because its composed values lose what must be refused here:
repeated keys, anchors, tags, and the difference between `no` and "no".
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import yaml

from hooks.parse.notes import Notes
from hooks.source import Span

_LOADER = getattr(yaml, "CLoader", yaml.Loader)
_DEEPEST = 12
_UNPRINTABLE = re.compile("[^\x09\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_OTHER_LINE_ENDS = str.maketrans({"\x85": " ", "\u2028": " ", "\u2029": " "})
_HELP = (
    ("mapping values are not allowed", "Put text that holds a colon and a space in quotes."),
    ("could not find expected ':'", "Write `key: value`, with a colon and a space."),
    ("',' or", "Close the bracket, and put a comma between its entries."),
    ("while scanning a quoted scalar", "Close the quote."),
    ("cannot start any token", "Put text that begins with this character in quotes."),
    ("", "Indent entries of one list alike, and put text with : # or { in quotes."),
)


class Text(NamedTuple):
    """A scalar, as written."""

    text: str
    plain: bool
    """Whether it stands without quotes."""
    span: Span


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    items: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys and what they hold; no key stands twice."""

    entries: tuple[tuple[Text, Node], ...]
    span: Span

    def get(self, name: str) -> Node | None:
        """What the key holds."""
        return next((node for key, node in self.entries if key.text == name), None)

    def text(self, name: str) -> str | None:
        """The text that the key holds, None where it is missing."""
        node = self.get(name)
        return node.text if isinstance(node, Text) else None

    def items(self, name: str) -> tuple[Text, ...]:
        """The texts of the list that the key holds; empty where it is missing."""
        node = self.get(name)
        entries = node.items if isinstance(node, Items) else ()
        return tuple(entry for entry in entries if isinstance(entry, Text))


Node = Text | Items | Mapping


def read(lines: Sequence[str], first_line: int, notes: Notes) -> Node | None:
    """The tree of these lines, of which the first is line `first_line` of the file.

    None, with a finding, where it is no YAML; None without one where nothing is written.
    """
    if _refused(lines, first_line, notes):
        return None
    text = "\n".join(lines).translate(_OTHER_LINE_ENDS) + "\n"
    builder = _Builder(lines, first_line, notes, yaml.parse(text, Loader=_LOADER))
    try:
        return builder.document()
    except yaml.MarkedYAMLError as error:
        _syntax(error, lines, first_line, notes)
        return None


def _refused(lines: Sequence[str], first_line: int, notes: Notes) -> bool:
    before = len(notes.found)
    for number, line in enumerate(lines, first_line):
        if "\t" in line:
            at = line.index("\t")
            notes.error(Span.in_line(number, at, at + 1), "a tab stands here", "Use spaces.")
        if bad := _UNPRINTABLE.search(line):
            what = f"the character U+{ord(bad[0]):04X} cannot be printed"
            notes.error(Span.in_line(number, *bad.span()), what, "Take it out.")
    return len(notes.found) > before


def _syntax(
    error: yaml.MarkedYAMLError, lines: Sequence[str], first_line: int, notes: Notes
) -> None:
    mark = error.problem_mark or error.context_mark
    row = min(mark.line, len(lines) - 1)
    at = min(mark.column, len(lines[row])) if mark.line == row else len(lines[row])
    words = " ".join(part for part in (error.context, error.problem) if part)
    help = next(advice for part, advice in _HELP if part in words)
    span = Span.in_line(first_line + row, at, at + 1)
    notes.error(span, f"this cannot be read: {error.problem or words}", help)


@dataclass(slots=True)
class _Builder:
    lines: Sequence[str]
    first_line: int
    notes: Notes
    events: Iterator[yaml.Event]

    def document(self) -> Node | None:
        node = None
        for event in self.events:
            if isinstance(event, yaml.DocumentStartEvent):
                if node is not None:
                    self.notes.error(
                        self.span(event), "a second document begins here", "Take it out."
                    )
                    return None
                node = self.node(next(self.events), 0)
        return node

    def node(self, event: yaml.Event, depth: int) -> Node:
        if isinstance(event, yaml.AliasEvent):
            self.notes.error(self.span(event), "an alias (`*name`) stands here", "Write it out.")
            return Text("", False, self.span(event))
        self.plainly(event)
        if isinstance(event, yaml.ScalarEvent):
            return Text(event.value, not event.style, self.span(event))
        if depth > _DEEPEST:
            raise yaml.MarkedYAMLError(problem="nested too deep", problem_mark=event.start_mark)
        if isinstance(event, yaml.SequenceStartEvent):
            return self.items(event, depth)
        return self.mapping(event, depth)

    def plainly(self, event: yaml.Event) -> None:
        if event.anchor is not None:
            self.notes.error(self.span(event), "an anchor (`&name`) stands here", "Take it out.")
        if event.tag is not None and not self.is_bare(event):
            self.notes.error(self.span(event), f"a tag (`{event.tag}`) stands here", "Take it out.")

    @staticmethod
    def is_bare(event: yaml.Event) -> bool:
        return event.tag == "!" and isinstance(event, yaml.ScalarEvent) and event.implicit[1]

    def items(self, start: yaml.Event, depth: int) -> Items:
        items: list[Node] = []
        while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
            items.append(self.node(event, depth + 1))
        last = items[-1].span if items and not start.flow_style else self.span(event)
        return Items(tuple(items), _from_to(self.span(start), last))

    def mapping(self, start: yaml.Event, depth: int) -> Mapping:
        entries: dict[str, tuple[Text, Node]] = {}
        last = self.span(start)
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            key = self.node(event, depth + 1)
            value = self.node(next(self.events), depth + 1)
            last = value.span
            if isinstance(key, Text) and self.is_key(key, entries):
                entries[key.text] = (key, value)
            elif not isinstance(key, Text):
                self.notes.error(key.span, "this key is not a word", "Write `word: value`.")
        last = self.span(event) if start.flow_style else last
        return Mapping(tuple(entries.values()), _from_to(self.span(start), last))

    def is_key(self, key: Text, seen: dict[str, tuple[Text, Node]]) -> bool:
        if not key.text.strip():
            self.notes.error(key.span, "this key is empty", "Write `word: value`.")
        elif key.plain and key.text == "<<":
            self.notes.error(key.span, "a merge key (`<<`) stands here", "Write the entries out.")
        elif key.plain and (kind := not_text(key.text)):
            self.notes.error(
                key.span, f"this key is {kind}, not text", f'Write "{key.text}", in quotes.'
            )
        elif key.text in seen:
            line = seen[key.text][0].span.line
            what = f"`{key.text}` stands twice; the first is on line {line}"
            self.notes.error(key.span, what, "Keep one of them.")
        else:
            return True
        return False

    def span(self, event: yaml.Event) -> Span:
        start, end = event.start_mark, event.end_mark
        if start.line == end.line < len(self.lines):
            return Span.in_line(self.first_line + start.line, start.column, end.column)
        row, column = min(end.line, len(self.lines) - 1), end.column
        if end.line > row:
            column = len(self.lines[row])
        elif end.column == 0 and row > start.line:
            row -= 1
            column = len(self.lines[row])
        first = min(start.line, len(self.lines) - 1)
        begin = start.column if first == start.line else len(self.lines[first])
        made = Span(self.first_line + first, begin + 1, self.first_line + row, column + 1)
        return max(made, Span(made.line, made.column, made.line, made.column))


def _from_to(start: Span, end: Span) -> Span:
    return Span(start.line, start.column, end.end_line, end.end_column)


_KINDS = (
    (re.compile(r"(?i)(y|n|yes|no|on|off)"), "yes or no to YAML"),
    (re.compile(r"(?i)(~|null)"), "nothing to YAML"),
    (re.compile(r"[-+]?\d[\d_]*(:[0-5]?\d)+(\.\d*)?"), "a number to base 60 in YAML"),
    (re.compile(r"\d{4}-\d\d?-\d\d?([Tt ].*)?"), "a date to YAML"),
    (re.compile(r"[-+]?0[0-9_]+|[-+]?0[box][0-9a-fA-F_]+"), "another number to YAML"),
    (re.compile(r"[-+]?\d[\d]*_[\d_]*"), "another number to YAML"),
    (re.compile(r"(?i)[-+]?\.(inf|nan)"), "no number"),
)
_NUMBER = re.compile(r"[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?")


@lru_cache(maxsize=4096)
def ambiguous(text: str) -> str | None:
    """What YAML readers take these plain characters for, where that is not what they look like."""
    return next((kind for pattern, kind in _KINDS if pattern.fullmatch(text)), None)


def not_text(text: str) -> str | None:
    """What a plain scalar is, where it is not text: also `true` and `20`."""
    if text.lower() in ("true", "false"):
        return "yes or no to YAML"
    return ambiguous(text) or ("a number" if _NUMBER.fullmatch(text) else None)
