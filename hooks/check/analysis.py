"""What the analysis of a page found, as the page and the reports need it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import IntEnum
from functools import cached_property


class State(IntEnum):
    """What is known of one energy; higher is safer, unknown counts as ON."""

    ON = 0
    OFF = 1
    RELEASED = 2
    PROVED = 3

    @property
    def words(self) -> str:
        """How a report says it."""
        return ("ON", "OFF, not proved", "RELEASED, not proved", "PROVED off")[self]


States = tuple[State, ...]
Energies = tuple[tuple[str, State], ...]


@dataclass(frozen=True, slots=True)
class Reached:
    """A step that some path reaches: the worst over all paths and models."""

    step: int
    """Its number on the page."""
    arriving: Energies
    """Each energy on reaching the step, in the page's order."""
    leaving: Energies
    """After what the step does, a proof taken as held."""
    proofs: tuple[tuple[str, tuple[int, ...]], ...]
    """Per energy that is PROVED on arriving: the numbers of the steps whose proof covers it; 0 for one of the page before."""
    models: tuple[str, ...]
    """The models on which it is reached."""


@dataclass(frozen=True, slots=True)
class Edge:
    """A way from one step to another that some path takes."""

    source: int
    """0 for the start."""
    target: int
    words: str
    """The words of the way out, "skipped", "not on A2", or empty for falling through."""
    models: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Visits:
    """Where the search went on machines that differ in nothing the page speaks of."""

    models: tuple[str, ...]
    spots: tuple[tuple[int, tuple[State, ...]], ...]
    """Number of a step and the states of the machine's energies on reaching it, each pair once."""


@dataclass(frozen=True)
class Analysis:
    """The part of the graph that the search reached."""

    reached: tuple[Reached, ...]
    """In page order; a step that is missing here is outside the graph."""
    edges: tuple[Edge, ...]
    visited: tuple[Visits, ...] = ()
    """One for each kind of machine."""

    def at(self, step: int) -> Reached | None:
        """What is known at that step, None outside the graph."""
        return self._by_step.get(step)

    def onward(self, step: int) -> tuple[int, ...]:
        """The numbers of the steps to which its ways lead, in page order."""
        return self._onward.get(step, ())

    @cached_property
    def _by_step(self) -> Mapping[int, Reached]:
        return {r.step: r for r in self.reached}

    @cached_property
    def _onward(self) -> Mapping[int, tuple[int, ...]]:
        found: dict[int, set[int]] = {}
        for edge in self.edges:
            found.setdefault(edge.source, set()).add(edge.target)
        return {source: tuple(sorted(targets)) for source, targets in found.items()}
