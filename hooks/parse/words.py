"""The one definition of every word that the body of a page knows."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from hooks.model import Kind

SIGNAL_WORDS = ("danger", "warning", "caution", "notice")
OTHER_ADMONITIONS = (
    "note",
    "abstract",
    "info",
    "tip",
    "success",
    "question",
    "failure",
    "bug",
    "example",
    "quote",
)
GOES_ON = "goes on"
"""The end of shared steps after which the page that uses them goes on."""
ENDS = {
    Kind.PROCEDURE: ("in service", "left safe", "stopped", "as found"),
    Kind.SELF_CHECK: ("solved", "book a repair", "stop using it"),
    Kind.SHARED_STEPS: ("in service", "left safe", "stopped", "as found", GOES_ON),
}
OWN_ID = re.compile(r".*--.*|i-.*|graph|page|search-(?:found|words)")
"""Ids that the built page needs for itself: a jump to a step of that id would land elsewhere."""
OUTCOMES = ("repaired", "needs part", "other trade", "no fault")


class Takes(StrEnum):
    """What stands between the quotes after a word of the step line."""

    NOTHING = "nothing"
    ENERGIES = "energies, separated by spaces"
    NAMES = "names, separated by commas"
    READINGS = "ids of readings, separated by commas"
    NAME = "one id"
    TEXT = "text"
    TIME = "a time such as 20 min"
    COUNT = "a whole number"
    GUARD = 'an option, or "not" and an option'
    END = "one of the closing states"
    OUTCOME = "one of the outcomes"


@dataclass(frozen=True, slots=True)
class Word:
    """One word of the step line."""

    name: str
    takes: Takes
    says: str
    """What it means, one phrase."""
    effect: bool = False
    """Whether it says what the step does, and so marks the step."""

    @property
    def field(self) -> str:
        """The name of the field of `Step` that it fills."""
        return self.name.replace("-", "_")


STEP_LINE = (
    Word("check", Takes.NOTHING, "look, listen, use the normal controls; nothing opened", True),
    Word("ready", Takes.NOTHING, "beside the machine: move it, lay towels; nothing opened", True),
    Word("isolate", Takes.ENERGIES, "cut the supply at its isolating point", True),
    Word("release", Takes.ENERGIES, "let out what is stored", True),
    Word("verify", Takes.ENERGIES, "prove that it is off", True),
    Word("work", Takes.NOTHING, "hands-on", True),
    Word("restore", Takes.ENERGIES, "turn on again", True),
    Word("test", Takes.ENERGIES, "read something while the energy is on", True),
    Word("end", Takes.END, "stop here", True),
    Word("decide", Takes.NOTHING, "the bullets are the ways out", True),
    Word("judges", Takes.NAME, "the reading that the ways out judge"),
    Word("reads", Takes.READINGS, "the readings that are taken here"),
    Word("at", Takes.TEXT, "the isolating point"),
    Word("opens", Takes.NAMES, "what is open from here on"),
    Word("closes", Takes.NAMES, "what is closed again"),
    Word("clear", Takes.NOTHING, "tools out, people back"),
    Word("for-test", Takes.NOTHING, "turned on for a test, so that something may be open"),
    Word("only", Takes.GUARD, "only on models with, or without, that option"),
    Word("optional", Takes.NOTHING, "may be passed over"),
    Word("time", Takes.TIME, "how long it takes"),
    Word("wait", Takes.TIME, "how long to wait; counts down"),
    Word("needs", Takes.NAMES, "tools"),
    Word("installs", Takes.NAMES, "parts"),
    Word("skill", Takes.TEXT, "what one must be able to do"),
    Word("people", Takes.COUNT, "how many people"),
    Word("uses", Takes.NAME, "the page of shared steps that stands here", True),
    Word("without", Takes.ENERGIES, "the energies that stay off at this end"),
    Word("outcome", Takes.OUTCOME, "what became of the job"),
    Word("cause", Takes.TEXT, "what was at fault"),
    Word("then", Takes.NAME, "the page that goes on from here"),
    Word("allow", Takes.NAMES, "the rules whose warnings are let stand here"),
    Word("because", Takes.TEXT, "the reason why they are let stand"),
)
BY_NAME = {word.name: word for word in STEP_LINE}
EFFECTS = tuple(word.name for word in STEP_LINE if word.effect)
