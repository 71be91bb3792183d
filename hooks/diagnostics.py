"""A finding is data: what is wrong, where, by which path, and how to mend it.

Rules and parsers make findings; only `hooks.report` and `hooks.page` show them.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from hooks.source import Place, Span


class Level(StrEnum):
    """How much a finding weighs. An error stops the build."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class StepRef:
    """The step a finding belongs to."""

    id: str
    title: str


@dataclass(frozen=True, slots=True)
class PathStep:
    """One step on the way to a breach."""

    file: str
    line: int
    step: StepRef
    way_out: str
    """The words of the way out taken here; empty where the path fell through, and at its end."""
    skipped: str
    """Empty, or why the step was passed over: "skipped", or "not on A2"."""
    energies: tuple[tuple[str, str], ...]
    """Each energy and its state in words on leaving the step; at the last step, on reaching it."""
    note: str = ""
    """What a reader of the path should see here: "turned on here", "hands-on here"."""
    used: tuple[Place, ...] = ()
    """For a step of shared steps the lines that use them, that of the page first."""


@dataclass(frozen=True, slots=True)
class Finding:
    """What a rule or a parser found in one place."""

    rule: str
    level: Level
    file: str
    span: Span
    message: str
    """One sentence in plain words."""
    help: str
    """How to mend it, one sentence."""
    step: StepRef | None = None
    energy: str | None = None
    models: tuple[str, ...] = ()
    """The models concerned; empty means all of the page."""
    because: str | None = None
    """The writer's reason, where the finding was silenced beside its step."""
    path: tuple[PathStep, ...] = ()
    """The shortest path that shows it, first step first; empty where no path is needed."""
    used: tuple[Place, ...] = ()
    """For a step of shared steps the lines that use them, that of the page first."""

    @property
    def fingerprint(self) -> str:
        """Stable while lines move: file, rule, step and energy, without the line.

        A finding without a step counts its message in, or two of them would be one.
        """
        place = self.step.id if self.step else self.message
        used = (place.file for place in self.used)
        text = "\0".join((self.file, self.rule, place, self.energy or "", *used))
        return hashlib.sha256(text.encode()).hexdigest()[:16]

    @property
    def page(self) -> str:
        """The file of the page that it is found on: for shared steps, the one that uses them."""
        return self.used[0].file if self.used else self.file

    @property
    def order(self) -> tuple[str, Span, tuple[Place, ...], str, str]:
        """Sorts findings by place, then rule: the same input gives the same report."""
        return (self.file, self.span, self.used, self.rule, self.energy or "")


def has_errors(findings: tuple[Finding, ...]) -> bool:
    """Whether any finding stops the build."""
    return any(f.level is Level.ERROR for f in findings)


def together(findings: Iterable[Finding]) -> Iterator[list[Finding]]:
    """The findings by place; those that share rule, place and path, in one list, are drawn once."""
    ordered = sorted(findings, key=lambda f: (f.order[:-1], _route(f), f.order[-1]))
    return (list(same) for _, same in groupby(ordered, key=_alike))


def _route(finding: Finding) -> tuple[tuple[int, str, str, str], ...]:
    return tuple((p.line, p.way_out, p.skipped, p.file) for p in finding.path)


def _alike(finding: Finding) -> tuple[object, ...]:
    # Without a path there is nothing to share: each finding stands alone.
    alone = () if finding.path else (finding.energy, finding.message)
    return (finding.order[:-1], _route(finding), finding.models, alone)
