"""Text with positions: what every element of a page is made of.

Lines and columns count from 1, in Unicode code points, from line 1 of the file
(the front matter included). The end of a span is exclusive.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple


class Span(NamedTuple):
    """A stretch of one file."""

    line: int
    column: int
    end_line: int
    end_column: int

    @classmethod
    def in_line(cls, line: int, start: int, end: int) -> Span:
        """The characters `start` to `end` (from 0, end exclusive) of one line."""
        return cls(line, start + 1, line, end + 1)


class Place(NamedTuple):
    """A stretch of a file that is named."""

    file: str
    span: Span


@dataclass(frozen=True, slots=True)
class Source:
    """One file of the shop, read once."""

    name: str
    """The path as it is shown to people: relative to the shop, with slashes."""
    lines: tuple[str, ...]
    """The lines without their ends; a byte-order mark and carriage returns are gone."""

    def line(self, number: int) -> str:
        """The text of line `number`, empty past the end of the file."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""

    def whole_line(self, number: int) -> Span:
        """The span of line `number` without the space before and after its text."""
        text = self.line(number)
        start = len(text) - len(text.lstrip())
        return Span.in_line(number, start, max(len(text.rstrip()), start + 1))


class NotText(ValueError):
    """The bytes are not UTF-8 text; `span` says where the first bad one stands."""

    def __init__(self, message: str, span: Span) -> None:
        super().__init__(message)
        self.span = span


def from_text(text: str, name: str) -> Source:
    """Cut `text` into lines; any of the three line ends will do."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    return Source(name, tuple(text.split("\n")))


def read(path: Path, name: str) -> Source:
    """Read a file as UTF-8.

    Raises NotText where it is not, and OSError where it cannot be read.
    """
    raw = path.read_bytes()
    try:
        return from_text(raw.decode("utf-8"), name)
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8", "replace")
        line = before.count("\n") + 1
        column = len(before) - (before.rfind("\n") + 1)
        what = f"byte {raw[error.start]:#04x} is not UTF-8 text"
        raise NotText(what, Span.in_line(line, column, column + 1)) from error
