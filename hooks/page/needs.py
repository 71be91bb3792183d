"""What a page asks for, in one phrase."""

from __future__ import annotations

from hooks.library.entries import Entry
from hooks.page import words


def needs(entry: Entry) -> str:
    """Time and people: "45 min, one person, live testing"."""
    people = entry.people
    said = [entry.time, words.people(people.number) if people else ""]
    said.append(people.skill if people and people.skill != "basic" else "")
    return ", ".join(s for s in said if s)
