"""What a rule hands back: a finding without the name and the file that its caller knows."""

from __future__ import annotations

from dataclasses import dataclass

from hooks.diagnostics import Finding, Level, PathStep, StepRef
from hooks.model import Page, Step
from hooks.source import Span


@dataclass(frozen=True, slots=True)
class Found:
    """One fault in one place of a page."""

    span: Span
    message: str
    help: str
    step: Step | None = None
    energy: str | None = None
    models: tuple[str, ...] = ()
    """The models concerned; empty means all of the page."""
    path: tuple[PathStep, ...] = ()
    level: Level = Level.ERROR

    def finding(self, rule: str, page: Page) -> Finding:
        """The finding as the rest of the house sees it."""
        return Finding(
            rule,
            self.level,
            (self.step.file if self.step else "") or page.source.name,
            self.span,
            self.message,
            self.help,
            reference(self.step) if self.step else None,
            self.energy,
            self.models,
            None,
            self.path,
            self.step.used if self.step else (),
        )


def reference(step: Step) -> StepRef:
    """What a finding says of its step."""
    return StepRef(step.id, step.title)


def line(number: int, file: str, seen_from: str) -> str:
    """A line as one says it in a finding of the file `seen_from`: "line 24", "line 24 of safe.md"."""
    return f"line {number}" if file == seen_from else f"line {number} of {file}"


def listed(names: tuple[str, ...] | list[str], last: str = "and") -> str:
    """Names as one says them: "water", "water and heat", "power, water and heat"."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"
