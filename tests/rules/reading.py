"""Reads cases written as text: a heading, the pages, and the exact report.

A page begins with `~~~~ head [name]` and ends with `~~~~`; `heads/<head>.txt` is put before
it, and its lines count from 1 after that, so that those of the front matter are below 1. A picture that the
pages show stands between `~~~~ picture name` and `~~~~`. Where the
page begins with keys and a line `---`, they stand instead of those of the head, or `left out`. The
report, between `~~~~ report` and `~~~~`, has a line a finding,
`line:column level rule [energy] [(models)]: message`, under it how to mend it, why it is let stand, and the path as
`by line "words" > line (note)`. What is found in shared steps says in what page, and `used by`
which page and line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from hooks.check import STATE_LIMIT, examine
from hooks.diagnostics import Finding, PathStep
from hooks.model import Shop
from hooks.parse import drawn, page
from hooks.parse.pictures import picture
from hooks.parse.result import ParsedPage, ParsedShop
from hooks.source import from_text

HERE = Path(__file__).parent
KINDS = ("Reported", "Clean", "Made safe, then unmade")
CASE = re.compile(r"^# (?P<title>.+?)\n(?P<body>.*?)(?=^# |\Z)", re.M | re.S)
FENCE = re.compile(r"^~~~~ (?P<info>.+?)\n(?P<text>.*?)^~~~~$", re.M | re.S)


@dataclass(frozen=True)
class Case:
    """One case of one rule; `pages` are head, name and text."""

    rule: str
    title: str
    pages: tuple[tuple[str, str, str], ...]
    report: str
    pictures: tuple[tuple[str, str], ...] = ()
    """Name and text of each drawing."""

    @property
    def kind(self) -> str:
        """One of KINDS: how the title begins."""
        return next((kind for kind in KINDS if self.title.startswith(kind)), "")

    @property
    def limit(self) -> int:
        """The state limit that the title asks for."""
        asked = re.search(r"limit of (\d+)", self.title)
        return int(asked[1]) if asked else STATE_LIMIT


def cases() -> Iterator[Case]:
    """All cases of all rules."""
    for path in sorted(HERE.glob("*.md")):
        for found in CASE.finditer(path.read_text("utf-8")):
            fences = [(f["info"].split(), f["text"]) for f in FENCE.finditer(found["body"])]
            pages = tuple((i[0], (i[1:] or ["page"])[0], t) for i, t in fences if i[0] not in ("report", "picture"))
            report = next(t for i, t in fences if i[0] == "report")
            pictures = tuple((" ".join(i[1:]), t) for i, t in fences if i[0] == "picture")
            yield Case(path.stem, found["title"], pages, report, pictures)


def head(name: str, text: str = "") -> str:
    """The front matter that stands before a page of a case, with what the page says instead."""
    made = (HERE / "heads" / f"{name}.txt").read_text("utf-8")
    for said in _instead(text)[0].splitlines():
        key, _, value = said.partition(": ")
        made, found = re.subn(rf"^{key}:.*\n(?: .*\n)*", "" if value == "left out" else f"{said}\n", made, flags=re.M)
        assert found == 1, said
    return made


def _instead(text: str) -> tuple[str, str]:
    """What a page says instead of its head, and the rest of it."""
    keys, mark, rest = text.partition("---\n")
    return (keys, rest) if mark and not keys.startswith(("#", "!")) else ("", text)


def findings(case: Case) -> tuple[Finding, ...]:
    """What the pages of a case give, all of which can be read."""
    parsed = tuple(_parsed(*one) for one in case.pages)
    unsound = [p.findings for p in parsed if not p.sound]
    assert not unsound, unsound
    pictures = {name: picture(name, text.encode(), name) for name, text in case.pictures}
    return examine(ParsedShop(Shop(None), drawn(parsed), (), pictures=pictures), case.limit).findings


def reported(case: Case) -> str:
    """The report of a case, as it should stand in its file."""
    shift = {name: head(front, text).count("\n") for front, name, text in case.pages}
    return "".join(_finding(f, shift) for f in findings(case))


def whole(front: str, name: str, text: str) -> str:
    """A page of a case under its head."""
    return head(front, text).replace("id: page\n", f"id: {name}\n") + _instead(text)[1]


def _parsed(front: str, name: str, text: str) -> ParsedPage:
    return page(from_text(whole(front, name, text), name), Shop(None))


def _finding(found: Finding, shift: dict[str, int]) -> str:
    energy = f" {found.energy}" if found.energy else ""
    models = f" ({', '.join(found.models)})" if found.models else ""
    place = f"{found.span.line - shift[found.file]}:{found.span.column}"
    for use in reversed(found.used):
        place = f"{found.file} {place}" if use is found.used[-1] else place
        place += f" used by {use.file} {use.span.line - shift[use.file]}:{use.span.column}"
    because = f"  let stand: {found.because}\n" if found.because else ""
    words = f"{found.message}\n  fix: {found.help}\n{because}"
    words = re.sub(r"line (\d+)(?: of (\w+))?", lambda line: _line(line, found.file, shift), words)
    text = f"{place} {found.level} {found.rule}{energy}{models}: {words}"
    by = " > ".join(_step(step, shift) for step in found.path)
    return text + (f"  by {by}\n" if by else "")


def _line(said: re.Match[str], file: str, shift: dict[str, int]) -> str:
    number, of = said.groups()
    return f"line {int(number) - shift[of or file]}" + (f" of {of}" if of else "")


def _step(step: PathStep, shift: dict[str, int]) -> str:
    words = f' "{step.way_out}"' if step.way_out else f" {step.skipped}" if step.skipped else ""
    note = f" ({step.note})" if step.note else ""
    of = f"{step.file} " if step.used else ""
    return f"{of}{step.line - shift[step.file]}{words}{note}"
