"""What a parser writes down as it goes: the findings of one file."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cache

from hooks.diagnostics import Finding, Level, StepRef
from hooks.source import Span


@cache
def rule_of(module: str) -> str:
    """The name of the findings that a module makes: its own, with hyphens."""
    return module.rpartition(".")[2].replace("_", "-")


@dataclass(slots=True)
class Notes:
    """A notebook for one file; `by`, `within` and `aside` give other covers to the same pages."""

    file: str
    rule: str = ""
    step: StepRef | None = None
    weighs: bool = True
    """Whether an error here means that the steps and energies cannot be trusted."""
    found: list[Finding] = field(default_factory=list)
    broken: list[Finding] = field(default_factory=list)
    """Those of `found` that weigh."""

    def by(self, module: str) -> Notes:
        """The same notebook in the hands of another module (`__name__`)."""
        return Notes(self.file, rule_of(module), self.step, self.weighs, self.found, self.broken)

    def within(self, step: StepRef | None) -> Notes:
        """The same notebook, for findings of that step."""
        return Notes(self.file, self.rule, step, self.weighs, self.found, self.broken)

    def aside(self) -> Notes:
        """The same notebook, for errors that leave the steps and energies sound."""
        return self._weighing(False)

    def weighing(self) -> Notes:
        """The same notebook, for errors after which nothing can be trusted."""
        return self._weighing(True)

    def apart(self) -> Notes:
        """The same notebook with its own count of what is broken."""
        return Notes(self.file, self.rule, self.step, self.weighs, self.found, [])

    def _weighing(self, weighs: bool) -> Notes:
        if self.weighs is weighs:
            return self
        return Notes(self.file, self.rule, self.step, weighs, self.found, self.broken)

    def error(self, span: Span, message: str, help: str) -> None:
        """Write down what is wrong at `span`, and how to mend it."""
        made = Finding(self.rule, Level.ERROR, self.file, span, message, help, self.step)
        self.found.append(made)
        if self.weighs:
            self.broken.append(made)

    def flaw(self, span: Span, message: str, help: str) -> None:
        """Write down an error that leaves the steps and energies sound."""
        self.aside().error(span, message, help)


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that `word` was most likely meant to be."""
    close = difflib.get_close_matches(word.lower(), list(known), n=1, cutoff=0.6)
    return close[0] if close else None


def choose(word: str, known: Iterable[str]) -> str:
    """The sentence that helps after an unknown word."""
    words = list(known)
    close = nearest(word, words)
    if close:
        return f"Write `{close}`."
    listed = ", ".join(words)
    return f"Write one of: {listed}." if words else "Take it out."
