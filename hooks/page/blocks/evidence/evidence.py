"""The evidence: which proof covers each step where hands go in, and which findings the writer silenced."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from hooks.diagnostics import Finding
from hooks.model import Step
from hooks.page import words
from hooks.page.view import View


class Cover(NamedTuple):
    """The proof of one energy at one step; no steps means that nothing covers it."""

    name: str
    steps: tuple[Step, ...]
    earlier: tuple[str, str] | None = None
    """Address and title of the page before, where its proof covers on some way."""


class Row(NamedTuple):
    """One step where hands go in."""

    step: Step
    covers: tuple[Cover, ...]


@dataclass(frozen=True, slots=True)
class Evidence:
    """What stands at the foot of a page."""

    rows: tuple[Row, ...]
    silenced: tuple[Finding, ...]
    analysed: bool


def of(view: View, findings: tuple[Finding, ...]) -> Evidence:
    """The evidence of a page."""
    rows = tuple(Row(s, _covers(view, s)) for s in view.page.steps if s.hands_on)
    silenced = tuple(f for f in findings if f.because)
    return Evidence(rows, silenced, view.analysis is not None)


def _covers(view: View, step: Step) -> tuple[Cover, ...]:
    proofs = view.proofs(step)
    there = (line.energy.name for line in view.lines(step))
    earlier = view.proved_before(step)
    return tuple(Cover(words.name(n), proofs.get(n, ()), view.earlier if n in earlier else None) for n in there)
