"""Links in running text, with their places; code spans hold none, and images are none."""

from __future__ import annotations

import html
import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from pathlib import PurePosixPath
from posixpath import dirname, normpath, splitext
from typing import NamedTuple
from urllib.parse import unquote

from hooks.parse.lines import code_span
from hooks.source import Span

_BRACKET = re.compile(r"[\[\]]")
_TITLE = re.compile(r"""\s+("[^"]*"|'[^']*')\s*$""")
_ELSEWHERE = re.compile(r"(?!https?:(?!//))(?:[A-Za-z][A-Za-z0-9+.-]*:|//)", re.IGNORECASE)
_ANCHOR = re.compile(r"<[a-z][^>]*?\bhref\s*=\s*[\"']?([^\"'\s>]*)", re.IGNORECASE)
_DEFINITION = re.compile(r"\[[^\[\]]*\]:\s*<?([^\s>]+)")
_NOT_AS_WRITTEN = re.compile(r"[`\\]")
_ESCAPED = re.compile(r"\\(?=[^\w\s])")
_PAGES = ("", ".md", ".html", ".htm")
_BARE = re.compile(r"<([A-Za-z][A-Za-z0-9+.-]*:[^\s<>]*)>")
_MARKS = re.compile(r"\*+|__+|(?<!\w)_|_(?!\w)|`+|\\(?=[^\w\s])")
_LINK = re.compile(r"!?\[([^\[\]]*)\]\([^()]*\)")
_MARKED = re.compile(r"[\[\]<>*_`\\&]")


class Stretch(NamedTuple):
    """Some lines of a file as one text."""

    text: str
    line: int
    """The number of the first line."""

    def span(self, start: int, end: int) -> Span:
        """The place in the file of the characters `start` to `end`, end exclusive."""
        return Span(*self._place(start), *self._place(end))

    def _place(self, at: int) -> tuple[int, int]:
        line_start = self.text.rfind("\n", 0, at) + 1
        return self.line + self.text.count("\n", 0, at), at - line_start + 1


@dataclass(frozen=True, slots=True)
class Link:
    """`[label](target)`, a definition or an `<a href>`."""

    label: str
    target: str
    start: int
    end: int
    inline: bool = True
    """Whether it is written `[label](target)`."""

    @property
    def jumps(self) -> bool:
        """Whether it leads to a place on this page."""
        return self.target.startswith("#")

    @property
    def lands_in_a_page(self) -> bool:
        """Whether it leads to a place on another page of the shop."""
        place, mark, _ = self.target.partition("#")
        return bool(place and mark) and PurePosixPath(_page(place)).suffix.lower() in _PAGES

    def leads_back(self, file: str) -> bool:
        """Whether it leads to the top of `file`, the page it stands on."""
        if "#" in self.target:
            return False
        place = _page(self.target)
        within = normpath(f"{dirname(file) or '.'}/{place}")
        return not place or splitext(within)[0] == splitext(file)[0]

    @property
    def id(self) -> str:
        """The id that a jump leads to."""
        return unicodedata.normalize("NFC", unquote(self.target[1:])).strip()


def _page(address: str) -> str:
    """The file that an address names; one that is elsewhere counts as a file of another kind."""
    if _ELSEWHERE.match(address):
        return "elsewhere.url"
    path = unquote(address).partition("?")[0].replace("\\", "/")
    return re.sub(r"^https?:", "", path, flags=re.IGNORECASE)


@lru_cache(maxsize=256)
def links(text: str) -> tuple[Link, ...]:
    """The links of a text, in order; of nested ones both."""
    if "[" not in text and "<" not in text:
        return ()
    plain = without_code(text)
    found = [*_inline(plain, text)]
    # A definition holds wherever it stands, also in a quotation, a list or between two backticks.
    for pattern, where in ((_ANCHOR, plain), (_DEFINITION, text)):
        found += [
            Link("", _target(m[1]), m.start(), m.end(), inline=False)
            for m in pattern.finditer(where)
        ]
    return tuple(sorted(found, key=lambda link: link.start))


def without_code(text: str) -> str:
    """The text with what stands in code spans, and what is escaped, blanked out."""
    if "`" not in text and "\\" not in text:
        return text
    kept, at = list(text), 0
    while found := _NOT_AS_WRITTEN.search(text, at):
        at = found.start()
        if text[at] == "\\":
            kept[at : at + 2] = "  "[: len(text) - at]
            at += 2
        else:
            code, end = code_span(text, at)
            if code:
                kept[at:end] = ("\n" if c == "\n" else " " for c in text[at:end])
            at = end
    return "".join(kept)


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    """The words of a piece of Markdown, without its marks."""
    if not _MARKED.search(text):
        return " ".join(text.split())
    return " ".join(html.unescape(_MARKS.sub("", _LINK.sub(r"\1", text))).split())


def _inline(text: str, written: str) -> list[Link]:
    found: list[Link] = []
    opened: list[int] = []
    for bracket in _BRACKET.finditer(text):
        at = bracket.start()
        if bracket[0] == "[":
            opened.append(at)
        elif opened:
            start = opened.pop()
            end = _closing(text, at + 1)
            if end and (start == 0 or text[start - 1] != "!"):
                target = _TITLE.sub("", written[at + 2 : end - 1]).strip().strip("<>").strip()
                found.append(Link(plain(written[start + 1 : at]), _target(target), start, end))
    return found


def _target(text: str) -> str:
    """Where a link leads, as a browser will take it."""
    return html.unescape(_ESCAPED.sub("", text)).strip()


def _closing(text: str, at: int) -> int | None:
    """Where the `(…)` that begins at `at` ends; None where none does.

    Where a title holds an unpaired bracket, the first `)` counts: the target stands before it.
    """
    if text[at : at + 1] != "(":
        return None
    depth = 0
    for here in range(at, min(len(text), at + 2000)):
        depth += (text[here] == "(") - (text[here] == ")")
        if depth == 0:
            return here + 1
    return text.find(")", at) + 1 or None
