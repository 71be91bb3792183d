"""Snippets for editors that read the JSON form of VS Code: what a page begins with, each kind of step, readings, messages, figures.

They are made from the tables of keys and words, so that what a snippet writes is what the parser reads.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hooks.model import Kind
from hooks.parse.fields import PAGE, READING
from hooks.parse.shapes import Date, Duration, Keyed, Line, Many, Name, Number, Shape, Whole
from hooks.parse.words import ENDS, SIGNAL_WORDS, STEP_LINE, Takes, Word

Snippet = dict[str, Any]
MESSAGE = (
    '!!! ${10|warning,danger,caution|} ${3:electricity} "${11:Shock}"',
    "    ${12:What the danger is, what it does, what keeps one from it.}",
    "",
)
BODIES: dict[str, tuple[str, ...]] = {
    "release": MESSAGE,
    "verify": (*MESSAGE, "- **Proved**: [${13:The next step}](#${14:next})", "- **Not proved**: [${15:Stop}](#${16:stop})", ""),
    "test": MESSAGE,
    "uses": ("- ${13:Safe}: [${14:The next step}](#${15:next})", "- ${16:Not safe}: [${17:Stop}](#${18:stop})", ""),
    "decide": ("- ${13:Yes}: [${14:The one step}](#${15:one})", "- ${16:No}: [${17:The other step}](#${18:other})", ""),
}
"""What stands under the heading, by the word of the step."""
JUDGING = (
    "### ${1:What to do} {#${2:id} work decide reads=\"${3:reading}\" judges=\"${3:reading}\"}",
    "",
    "```reading",
    "id: ${3:reading}",
    "label: ${4:What is read}",
    "unit: ${5:ohm}",
    "limits: [${6:0}, ${7:1}]",
    "```",
    "",
    "- **In limits**: [${8:The one step}](#${9:one})",
    "- **Out of limits**: [${10:The other step}](#${11:other})",
    "- **Too close to call**: [${1:What to do}](#${2:id})",
    "",
    "$0",
)
VALUES = {
    Takes.ENERGIES: "${3:electricity}",
    Takes.END: "${3|" + ",".join(dict.fromkeys(end for ends in ENDS.values() for end in ends)) + "|}",
    Takes.NAME: "${3:page}",
}
SAID: dict[type, str] = {Line: "text", Name: "word", Whole: "1", Number: "1", Date: "2026-01-31", Duration: "30 min"}


FIGURE = {
    "scope": "markdown",
    "prefix": "figure",
    "description": "a figure, with the list of the numbers that are drawn in it",
    "body": ['![${1:What it shows}](${2:picture.svg} "${3:Seen from the left}")', "", "1. ${4:What is marked 1}", "$0"],
}


def snippets() -> dict[str, Snippet]:
    """All of them by their names."""
    return {**{f"page {kind}": _page(kind) for kind in Kind}, **dict(_steps()), "step that judges": _judging(), "reading": _reading(), "message": _message(), "figure": FIGURE}


def _snippet(prefix: str, says: str, lines: tuple[str, ...]) -> Snippet:
    return {"scope": "markdown", "prefix": prefix, "description": says, "body": list(lines)}


def _steps() -> Iterator[tuple[str, Snippet]]:
    for word in STEP_LINE:
        if word.effect:
            heading = f"### ${{1:What to do}} {{#${{2:id}} {_said(word)}}}"
            yield f"step {word.name}", _snippet(f"step-{word.name}", word.says, (heading, "", *BODIES.get(word.name, ()), "$0"))


def _said(word: Word) -> str:
    return word.name if word.takes is Takes.NOTHING else f'{word.name}="{VALUES[word.takes]}"'


def _page(kind: Kind) -> Snippet:
    rows = [row for row in PAGE if kind in (*row.must, *row.asked) and row.name != "page"]
    keys = [f"{row.name}: {_value(row.shape, 10 * place)}   # {row.says}" for place, row in enumerate(rows, 1)]
    return _snippet(f"page-{kind}", f"the front matter of a page of kind {kind}", ("---", f"page: {kind}", *keys, "---", "$0"))


def _reading() -> Snippet:
    rows = [field for field in READING.fields if field.must or field.name == "limits"]
    keys = [f"{field.name}: {_value(field.shape, 10 * place)}" for place, field in enumerate(rows, 1)]
    return _snippet("reading", "something that is read, with its limits", ("```reading", *keys, "```", "$0"))


def _judging() -> Snippet:
    return _snippet("step-judge", "a step at which something is read, and its verdict says where to go", JUDGING)


def _message() -> Snippet:
    first = f'!!! ${{1|{",".join(SIGNAL_WORDS)}|}} ${{2:electricity}} "${{3:Shock}}"'
    return _snippet("message", "a message: the first thing under a heading", (first, f"    {MESSAGE[1].strip()}", "$0"))


def _value(shape: Shape, place: int) -> str:
    """Places to fill in, which the parser takes as they stand; they are reached in the order of their numbers."""
    if isinstance(shape, Keyed):
        must = [field for field in shape.fields if field.must]
        return "{" + ", ".join(f"{field.name}: ${{{n}:{_usual(field.shape)}}}" for n, field in enumerate(must, place)) + "}"
    if isinstance(shape, Many) and shape.exactly:
        return "[" + ", ".join(f"${{{place + n}:{n}}}" for n in range(shape.exactly)) + "]"
    return f"${{{place}:{_usual(shape)}}}"


def _usual(shape: Shape) -> str:
    return "none" if isinstance(shape, Many) else SAID[type(shape)]
