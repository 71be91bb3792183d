"""Cases as text: a page or shop facts, then every finding they deserve.

    :: the name of the case
    the text of the file
    ::
    line:column rule words of the message
    sound

A text that begins with `---`, or whose name begins with `bare:` or `shop:`, is a whole file.
Any other is the body of a page: it gets `HEAD` above it, and its lines count from the first one
below that. The last line, `sound`, stands where the steps and energies can be trusted in spite
of the findings. What is not listed must not be found.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).parent
HEAD = """---
title: A page
page: procedure
appliance: Test machine
models: {A1: [], A2: [hot-fill]}
energies:
  electricity: {points: [plug]}
  water: {points: [tap], trapped: true}
  heat: {points: [], charged-by: electricity}
---
"""


@dataclass(frozen=True)
class Case:
    name: str
    text: str
    shift: int
    """How many lines stand above the text as it is written in the case."""
    expected: tuple[str, ...]
    sound: bool


def cases(name: str) -> list[Case]:
    """The cases of one file of this folder."""
    text = (HERE / name).read_text("utf-8")
    return [_case(part) for part in re.split(r"(?m)^:: ", text)[1:]]


def _case(part: str) -> Case:
    name, _, rest = part.partition("\n")
    text, _, findings = rest.rpartition("\n::\n")
    lines = [line for line in findings.split("\n") if line]
    whole = text.startswith("---") or name.startswith(("shop:", "bare:"))
    head = "" if whole else HEAD
    expected = tuple(line for line in lines if line != "sound")
    return Case(
        name, head + text + "\n", head.count("\n"), expected, not expected or "sound" in lines
    )
