"""The words on screens: names of energies, states, closing states, small lists."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from hooks.check import found
from hooks.check.analysis import State

NAMES = {"electricity": "Power", "hot-water": "Hot water"}
LET_OUT = {
    "charge": "discharged",
    "gas": "vented",
    "heat": "cooled",
    "hot-water": "drained",
    "refrigerant": "recovered",
    "spring": "let go",
    "water": "drained",
}
CLOSING = {
    "in service": "In service",
    "left safe": "Left safe: everything proved off, tag hung",
    "stopped": "Stopped: it could not be made safe",
    "as found": "As found: nothing was changed",
}
STOPS = frozenset({"stopped", "stop using it"})
"""The ends that tell the reader to leave the machine alone."""
COUNT = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
TIMES = ("never", "once", "twice")
UNITS = {"min": "minute", "h": "hour", "s": "second", "d": "day"}


def name(energy: str) -> str:
    """An energy's name as it stands on the board: "Power", "Hot water"."""
    return NAMES.get(energy) or energy.replace("-", " ").capitalize()


def names(energies: Iterable[str]) -> str:
    """Several energies in running text: "power, water and hot water"."""
    return listed([name(e).lower() for e in energies])


def listed(words: Iterable[str]) -> str:
    """A list in running text: "a, b and c"."""
    return found.listed(tuple(words))


def capital(text: str) -> str:
    """The text with its first letter large, the rest as it is."""
    return text[:1].upper() + text[1:]


def count(number: int) -> str:
    """A small number in words: "two"."""
    return COUNT[number] if 0 <= number < len(COUNT) else str(number)


def times(number: int) -> str:
    """How often: "twice", "three times"."""
    return TIMES[number] if number < len(TIMES) else f"{count(number)} times"


def people(number: int) -> str:
    """How many people: "one person", "two people"."""
    return f"{count(number)} {'person' if number == 1 else 'people'}"


@lru_cache
def time(text: str) -> str:
    """A time as the writer put it, with its units spelled out: "1 hour 30 minutes"."""

    def spelled(match: re.Match[str]) -> str:
        amount, unit = match.groups()
        return f"{amount} {UNITS[unit]}{'' if amount == '1' else 's'}"

    return re.sub(r"([\d.]+) *(min|h|s|d)\b", spelled, text)


def figure(value: float) -> str:
    """A number as it was most likely written: 100, 0.5."""
    return f"{value:.10g}"


def limits(low: float | None, high: float | None) -> str:
    """A reading's limits in words: "limits 100 to 500", "at least 1.9"; empty where it has none."""
    if low is not None and high is not None:
        return f"limits {figure(low)} to {figure(high)}"
    if low is not None:
        return f"at least {figure(low)}"
    return f"at most {figure(high)}" if high is not None else ""


def state(energy: str, known: State) -> str:
    """What the board says of one energy."""
    if known is State.RELEASED:
        return f"{LET_OUT.get(energy, 'let out')}, NOT proved"
    return ("ON", "off, NOT proved", "", "proved off")[known]


def states(energies: Iterable[tuple[str, State]]) -> str:
    """What is known of all energies, in one or two short sentences."""
    known = tuple(energies)
    groups = (
        ("on", [e for e, s in known if s is State.ON]),
        ("off, not proved", [e for e, s in known if s in (State.OFF, State.RELEASED)]),
        ("proved off", [e for e, s in known if s is State.PROVED]),
    )
    said = [f"{names(group)} {word}" for word, group in groups if group]
    return capital("; ".join(said)) + "." if said else ""
