"""Whether a drawing (SVG) shows and nothing else: no script, no address, no movement, letters that can be read.

It is read as a browser reads it, and only what is on the lists below may stand in it.
"""

from __future__ import annotations

import re
from xml.parsers.expat import ExpatError, ParserCreate

SVG = "http://www.w3.org/2000/svg"
ELEMENTS = frozenset(
    "svg g defs title desc symbol use style path rect circle ellipse line polyline polygon text tspan textPath"
    " marker pattern clipPath mask linearGradient radialGradient stop".split()
)
"""What may stand in a drawing; no picture, link, script, movement, filter or piece of HTML does."""
PLAIN = "Save it as plain SVG, without what the drawing program adds for itself."
DRAW = "Take it out: a drawing has lines, areas and words alone."
PHONE = 296
"""Pixels that a figure gets on a phone 390 wide, beside the lines of two energies."""
SMALLEST = 11
"""Pixels that letters need there; look at it at arm's length."""
_ADDRESS = re.compile(r"url\(\s*(?![\"']?#)|@import|\\|javascript:|expression\(|image-set|src\(", re.IGNORECASE)
_SIZE = re.compile(r"font-size\s*:\s*([\d.]+)(?:px)?\s*(?:;|\}|$)")
_BOX = re.compile(r"\s*-?[\d.]+[\s,]+-?[\d.]+[\s,]+(\d+(?:\.\d+)?)[\s,]+(\d+(?:\.\d+)?)\s*")
_SPACE, _LANGUAGE, _LINK = (
    "http://www.w3.org/XML/1998/namespace space",
    "http://www.w3.org/XML/1998/namespace lang",
    "http://www.w3.org/1999/xlink href",
)


class Unfit(ValueError):
    """It cannot be shown; its second argument says how to mend it."""

    def __init__(self, what: str, help: str) -> None:
        super().__init__(what, help)


def drawing(content: bytes) -> tuple[int, int, tuple[int, ...]]:
    """Width, height and the numbers that stand alone in it, in order. Raises Unfit."""
    look = _Look()
    try:
        look.parser.Parse(content, True)
    except Unfit:
        raise
    except (ExpatError, LookupError, ValueError) as error:
        row = look.parser.CurrentLineNumber
        raise Unfit(f"it is no drawing, or it ends early, in its row {row}", "Save it again as SVG.") from error
    look.legible()
    return round(look.width), round(look.height), tuple(sorted(set(look.numbers)))


class _Look:
    """Goes through a drawing once."""

    def __init__(self) -> None:
        self.width = self.height = 0.0
        self.numbers: list[int] = []
        self.smallest = float("inf")
        self.scaled = False
        self.open: list[str] = []
        self.words = ""
        self.parser = parser = ParserCreate(namespace_separator=" ")
        parser.buffer_text = True
        parser.StartElementHandler, parser.EndElementHandler = self.start, self.end
        parser.CharacterDataHandler = self.text
        parser.StartDoctypeDeclHandler = lambda *_: self.no("a document type", PLAIN)
        parser.XmlDeclHandler = self.declared
        parser.ProcessingInstructionHandler = lambda *_: self.no("an instruction to a program", DRAW)

    def no(self, what: str, help: str) -> None:
        raise Unfit(f"{what} stands in its row {self.parser.CurrentLineNumber}", help)

    def declared(self, _: str, encoding: str | None, __: int) -> None:
        if (encoding or "utf-8").lower() != "utf-8":
            self.no(f"the encoding {encoding}", "Save it as UTF-8.")

    def start(self, name: str, attributes: dict[str, str]) -> None:
        space, _, tag = name.rpartition(" ")
        if space != SVG:
            self.no(f"`{tag}` of another kind than SVG", PLAIN if self.open else "Save it as SVG.")
        if tag not in ELEMENTS:
            self.no(f"`{tag}`", DRAW)
        if not self.open:
            self.sized(tag, attributes)
        self.words = "" if tag in ("text", "style") else self.words
        self.open.append(tag)
        for key, value in attributes.items():
            self.attribute(key, value)

    def sized(self, tag: str, attributes: dict[str, str]) -> None:
        box = _BOX.fullmatch(attributes.get("viewBox", ""))
        if tag != "svg" or not box or not (float(box[1]) and float(box[2])):
            raise Unfit("it does not say how wide and high it is", 'Write `viewBox="0 0 360 240"` at its first element.')
        self.width, self.height = float(box[1]), float(box[2])

    def attribute(self, key: str, value: str) -> None:
        if " " in key and key not in (_SPACE, _LANGUAGE, _LINK):
            self.no(f"`{key.rpartition(' ')[2]}`", PLAIN)
        if key.lower().startswith("on") or _ADDRESS.search(value):
            self.no(f"`{key}`, which does something or leads somewhere,", DRAW)
        if key in ("href", _LINK) and not value.strip().startswith("#"):
            self.no("a link to another file", DRAW)
        self.scaled |= "transform" in key.lower() and bool(re.search(r"scale|matrix", value))
        self.size(f"font-size:{value}" if key == "font-size" else value if key == "style" else "")

    def size(self, style: str) -> None:
        self.smallest = min([self.smallest, *(float(size) for size in _SIZE.findall(style) if size.count(".") < 2)])

    def text(self, words: str) -> None:
        self.words += words

    def end(self, _: str) -> None:
        tag = self.open.pop()
        if tag == "text" and re.fullmatch(r"\s*[1-9]\d?\s*", self.words):
            self.numbers.append(int(self.words))
        if tag == "style":
            if _ADDRESS.search(self.words):
                self.no("a style that leads elsewhere", DRAW)
            self.size(self.words)

    def legible(self) -> None:
        """Look at the letters on a phone; where the drawing scales parts of itself nobody can say how large they are."""
        shown = self.smallest * PHONE / self.width
        if shown < SMALLEST and not self.scaled:
            least = -(-SMALLEST * self.width // PHONE)
            raise Unfit(f"its letters are {shown:.0f} px high on a phone", f"Make them at least {least:.0f} high, or the drawing narrower.")
