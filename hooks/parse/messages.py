"""Safety messages: `!!! warning electricity "Shock"` and the lines indented below it."""

from __future__ import annotations

import re
from collections.abc import Collection

from hooks.model import Message
from hooks.parse.blocks import Block
from hooks.parse.fit import NAME
from hooks.parse.lines import Body
from hooks.parse.notes import Notes, choose, nearest
from hooks.parse.words import OTHER_ADMONITIONS, SIGNAL_WORDS
from hooks.source import Span

_HEAD = re.compile(r'!!!\s*(?P<words>[^"“”„\']*?)\s*(?:"(?P<title>[^"]*)")?\s*')
_FORM = 'Write !!! warning electricity "What can happen", energies separated by spaces.'


def is_message(body: Body, block: Block, energies: Collection[str], notes: Notes) -> bool:
    """Whether an admonition is a safety message; a finding where it was meant as one."""
    words = re.findall(r"[^\s\"“”„',]+", body.line(block.first)[3:])
    first = words[0] if words else ""
    if first in SIGNAL_WORDS:
        return True
    lower = first.lower().rstrip(":")
    meant = lower if lower in SIGNAL_WORDS else nearest(lower, SIGNAL_WORDS)
    if meant and lower not in OTHER_ADMONITIONS:
        notes.error(block.span(body), f"`{first}` is not a signal word", f"Write `{meant}`.")
    elif covered := [word for word in words[1:] if word in energies]:
        what = f"`{first}` names an energy, `{covered[0]}`, but is no signal word"
        notes.error(block.span(body), what, choose("", SIGNAL_WORDS))
    return False


def message(body: Body, block: Block, notes: Notes) -> Message | None:
    """The message, None with a finding where it is malformed."""
    head = body.line(block.first)
    whole = Span.in_line(block.first, 0, len(head.rstrip()))
    found = _HEAD.fullmatch(head)
    if found is None or found["words"].partition(" ")[0] not in SIGNAL_WORDS:
        notes.error(whole, "this message cannot be read: a quote or a word is out of place", _FORM)
        return None
    word, *energies = found["words"].split()
    bad = [name for name in energies if not NAME.fullmatch(name)]
    if bad:
        notes.error(whole, f"`{bad[0]}` is not the name of an energy", _FORM)
    if len(set(energies)) < len(energies):
        notes.error(whole, "the message names an energy twice", "Keep one of them.")
    if not (found["title"] or "").strip():
        notes.error(whole, "the message has no title", _FORM)
    _unindented(body, block, notes)
    text = "\n".join(_outdented(line) for line in block.shown(body)[1:]).strip("\n")
    title = (found["title"] or "").strip()
    return Message(word, tuple(energies), title, text, block.span(body))


def _unindented(body: Body, block: Block, notes: Notes) -> None:
    number = block.last + 1
    below = body.line(number) if number - body.start < len(body.lines) else ""
    if block.last == block.first and below.strip() and not below.startswith(("#", "!!!")):
        span = Span.in_line(number, 0, len(below.rstrip()))
        notes.error(span, "the text of the message is not indented", "Indent it by four spaces.")


def _outdented(line: str) -> str:
    return re.sub(r"^( {4}| {0,3}\t)", "", line)
