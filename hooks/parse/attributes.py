"""The attribute list of a step line, `{#id word key="value"}`, with exact columns.

Markdown's own reading of it fails open: a lost quote or a comma silently becomes another
attribute, and a repeated key keeps the last. Here every character must have its place.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import NamedTuple

from hooks.parse.notes import Notes, choose
from hooks.parse.words import BY_NAME, Takes
from hooks.source import Span

_NAME = re.compile(r"[A-Za-z][\w-]*")
_BARE = re.compile(r"[^\s}]*")
_ID_CHARACTERS = re.compile(r"[^\s}\",=]*")
_EQUALS = re.compile(r"\s*=\s*")
_ID = re.compile(r"[^\W_][\w-]*")
_LOOKS_LIKE_A_LIST = re.compile(
    r"\{\s*:?\s*(?:#|\.[A-Za-z]|[A-Za-z][\w-]*\s*=|%s(?=[\s,}]|$))"
    % ("(?:" + "|".join(BY_NAME) + ")")
)
_CURLY = "“”„‟«»‘’"


class Attribute(NamedTuple):
    """One word of the list; `value` is None where it stands alone."""

    name: str
    value: str | None
    span: Span
    """The word with its value."""
    value_span: Span
    """What stands between the quotes; the word where nothing does."""


@dataclass(frozen=True, slots=True)
class Attributes:
    """A whole list."""

    id: str | None
    id_span: Span
    words: tuple[Attribute, ...]


def like_a_list(text: str) -> int | None:
    """Where something begins that can only be meant as an attribute list (from 0)."""
    found = _LOOKS_LIKE_A_LIST.search(text)
    return found.start() if found else None


def list_start(text: str) -> int | None:
    """Where the attribute list of a step line begins (from 0), None where there is none."""
    found = like_a_list(text)
    if found is not None:
        return found
    return text.rindex("{") if ends_like_a_list(text) and "{" in text else None


def ends_like_a_list(text: str) -> bool:
    """Whether a heading ends in `}`, the marks that may close it left out."""
    return text.rstrip().rstrip("#").rstrip().endswith("}")


def read(text: str, line: int, start: int, notes: Notes) -> Attributes:
    """The list that begins at `start` of that line; what is wrong with it is written down."""
    scan = _Scan(text, line, start + 1, notes)
    scan.all(start)
    return Attributes(
        scan.id, scan.id_span or Span.in_line(line, start, start + 1), tuple(scan.words)
    )


def _after(pattern: re.Pattern[str], text: str, at: int) -> int:
    """Where what matches at `at` ends; there, where nothing does."""
    found = pattern.match(text, at)
    return found.end() if found else at


class _Scan:
    def __init__(self, text: str, line: int, at: int, notes: Notes) -> None:
        self.text = text.rstrip()
        self.line = line
        self.at = at
        self.notes = notes
        self.id: str | None = None
        self.id_span: Span | None = None
        self.words: list[Attribute] = []

    def all(self, start: int) -> None:
        if start and self.text[start - 1] not in " \t":
            self.error(start, start + 1, "no space before `{`", "Put a space before it.")
        while self.skip_space() and self.text[self.at] != "}":
            if not self.one():
                return
        if self.at >= len(self.text):
            self.error(
                start, start + 1, "this `{` is never closed", "Put `}` at the end of the line."
            )
            return
        rest = self.text[self.at + 1 :].rstrip("#").rstrip()
        if rest:
            begin = self.at + 1 + len(rest) - len(rest.lstrip())
            mend = "Put it into the title, before `{`."
            self.error(begin, self.at + 1 + len(rest), "text stands after the `}`", mend)

    def skip_space(self) -> bool:
        while self.at < len(self.text) and self.text[self.at] in " \t":
            self.at += 1
        return self.at < len(self.text)

    def one(self) -> bool:
        """Read one word; False where what follows cannot be made sense of."""
        char = self.text[self.at]
        if char == "#":
            return self.read_id()
        if found := _NAME.match(self.text, self.at):
            return self.read_word(found)
        end = self.at + 1
        if char == ",":
            self.error(self.at, end, "a comma stands between words", "Put a space between words.")
        elif char == ":":
            self.error(self.at, end, "`{:` is not the form", "Write `{#id …}`, without the colon.")
        elif char == ".":
            end = _after(_BARE, self.text, self.at)
            self.error(self.at, end, "a step line has no classes", "Take it out.")
        elif char in "\"'=" or char in _CURLY:
            self.error(self.at, end, f"`{char}` stands without its word", 'Write `word="value"`.')
            return False
        elif char.isspace():
            what = f"the character U+{ord(char):04X} is not a plain space"
            self.error(self.at, end, what, "Write a plain space.")
        else:
            end = max(_after(_BARE, self.text, self.at), end)
            self.error(self.at, end, f"`{self.text[self.at : end]}` is not a word", "Take it out.")
        self.at = end
        return True

    def read_id(self) -> bool:
        start = self.at
        end = _after(_ID_CHARACTERS, self.text, start + 1)
        name = self.text[start + 1 : end]
        self.at = end
        if self.id is not None:
            self.error(start, end, "the step has two ids", "Keep one of them.")
        elif not _ID.fullmatch(name):
            mend = "Use letters, digits and hyphens, beginning with a letter or digit."
            self.error(start, max(end, start + 1), f"`#{name}` is not an id", mend)
        else:
            self.id, self.id_span = name, Span.in_line(self.line, start, end)
        return self.separated()

    def read_word(self, found: re.Match[str]) -> bool:
        start, self.at = found.span()
        name = found[0]
        word = BY_NAME.get(name)
        spaced = _EQUALS.match(self.text, self.at)
        if word is None:
            self.unknown(name, start)
        if spaced is None:
            self.add(start, name, None, self.at, self.at)
            return self.separated()
        if len(spaced[0]) > 1:
            self.error(*spaced.span(), "space stands beside `=`", f'Write {name}="…".')
        self.at = spaced.end()
        return self.read_value(name, start)

    def read_value(self, name: str, start: int) -> bool:
        opened = self.at
        quote = self.text[opened : opened + 1]
        if quote != '"':
            return self.not_quoted(name, quote)
        end = self.text.find('"', opened + 1)
        value = self.text[opened + 1 : end]
        if end < 0 or re.search(r"[{}]|\s[\w-]+=$", value):
            self.error(opened, opened + 1, "this quote is never closed", f'Write {name}="…".')
            return False
        self.at = end + 1
        self.add(start, name, value, opened + 1, end)
        return self.separated()

    def not_quoted(self, name: str, quote: str) -> bool:
        end = _after(_BARE, self.text, self.at)
        start = min(self.at, len(self.text) - 1)
        if quote == "'" or (quote and quote in _CURLY):
            what = "single quotes stand here" if quote == "'" else f"`{quote}` is not a plain quote"
            self.error(start, start + 1, what, f'Write {name}="…", in plain double quotes.')
            return False
        meant = self.text[start:end].strip('"') or "…"
        self.error(start, max(end, start + 1), f"the value of `{name}` has no quotes", f'Write {name}="{meant}".')
        self.at = end
        return end > start

    def unknown(self, name: str, start: int) -> None:
        meant = "Write `#` and the id: {#id}." if name == "id" else choose(name, BY_NAME)
        what = f"`{name}` is not a word of the step line"
        self.error(start, start + len(name), what, meant)

    def add(
        self, start: int, name: str, value: str | None, value_start: int, value_end: int
    ) -> None:
        word = BY_NAME.get(name)
        if word is None:
            return
        span = Span.in_line(self.line, start, self.at)
        inner = Span.in_line(self.line, value_start, value_end) if value else span
        if any(other.name == name for other in self.words):
            self.notes.error(span, f"`{name}` stands twice", "Keep one of them.")
        elif value is None and word.takes is not Takes.NOTHING:
            mend = f'Write {name}="…": {word.takes.value}.'
            self.notes.error(span, f"`{name}` needs a value", mend)
        elif value is not None and word.takes is Takes.NOTHING:
            self.notes.error(span, f"`{name}` takes no value", f"Write `{name}` alone.")
        elif value is not None and not value.strip():
            self.notes.error(
                span, f"`{name}` is empty", f"Write {word.takes.value}, or take it out."
            )
        else:
            self.words.append(Attribute(name, value, span, inner))

    def separated(self) -> bool:
        """Whether what follows can be read on; a finding where no space parts the words."""
        following = self.text[self.at : self.at + 1]
        if not following.isalnum() and following not in tuple("\"'=#._-" + _CURLY):
            return True
        what = f"`{following}` follows without a space"
        self.error(self.at, self.at + 1, what, "Put a space between words.")
        return following.isalnum() or following in "#._-"

    def error(self, start: int, end: int, what: str, mend: str) -> None:
        self.notes.error(Span.in_line(self.line, start, end), what, mend)
