"""What every block of a page draws from: the page, what its analysis found, and the ways to other pages."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from hooks.check.analysis import Analysis, State
from hooks.model import Energy, Guard, Page, Shop, Step


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture as a page shows it."""

    src: str
    sources: str
    """Its sizes, as a `srcset` has them; empty where there is one."""
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Links:
    """Where other pages lie, seen from the page that is drawn."""

    pages: Mapping[str, tuple[str, str]] = field(default_factory=dict)
    """By page id: address and title."""
    address: str = ""
    """Where the page that is drawn stands in the site."""
    root: str = "./"
    """The way from it to the site's first folder, with a slash at its end."""
    readers: str = ""
    """The language of its readers, where it is another than that of the page."""
    figures: Mapping[str, Shown] = field(default_factory=dict)
    """By the name of the file: each picture on the page that can be shown."""


class Line(NamedTuple):
    """One energy at one step; a state of None means that nothing is known."""

    energy: Energy
    arriving: State | None
    leaving: State | None

    @property
    def worst(self) -> State | None:
        """The state to act on while the step is being done."""
        _, arriving, leaving = self
        if arriving is None or leaving is None:
            return None
        return arriving if arriving <= leaving else leaving


@dataclass(frozen=True, slots=True)
class View:
    """All that the blocks of one page may look at."""

    page: Page
    analysis: Analysis | None
    shop: Shop
    links: Links
    by_step: tuple[tuple[Line, ...], ...]
    """The energies at each step, in page order."""

    def lines(self, step: Step) -> tuple[Line, ...]:
        """The energies that can be there at this step, in the page's order."""
        return self.by_step[step.number - 1]

    def proofs(self, step: Step) -> dict[str, tuple[Step, ...]]:
        """Per energy that is proved on arriving: the steps whose proof covers it."""
        reached = self.analysis.at(step.number) if self.analysis else None
        covering = reached.proofs if reached else ()
        return {name: tuple(self.page.steps[n - 1] for n in numbers if n) for name, numbers in covering}

    def proved_before(self, step: Step) -> frozenset[str]:
        """The energies for which, on some way to the step, the proof of the page before is the one that covers."""
        reached = self.analysis.at(step.number) if self.analysis else None
        return frozenset(name for name, numbers in (reached.proofs if reached else ()) if 0 in numbers)

    @property
    def earlier(self) -> tuple[str, str] | None:
        """Address (empty where it has none) and title of the page that this one counts on; None for most."""
        condition = self.page.front.condition
        return self.links.pages.get(condition.page, ("", condition.page)) if condition else None

    def next_proof(self, energy: str, step: Step) -> Step | None:
        """The nearest step from here on that proves this energy; None where there is none."""
        seen, queue = {step.number}, deque([step.number])
        while queue:
            here = queue.popleft()
            if energy in self.page.steps[here - 1].verify:
                return self.page.steps[here - 1]
            onward = self.analysis.onward(here) if self.analysis else ()
            fresh = [n for n in onward if n not in seen and n <= len(self.page.steps)]
            seen.update(fresh)
            queue.extend(fresh)
        return None

    def following(self, step: Step) -> Step | None:
        """The step after this one on the page."""
        steps = self.page.steps
        return steps[step.number] if step.number < len(steps) else None

    def lacking(self, guard: Guard) -> tuple[str, ...]:
        """The models that have not what is guarded."""
        return tuple(m.name for m in self.page.models if not guard.holds(m.options))

    def only(self, energy: Energy) -> str:
        """Which models have this energy, where not all have it."""
        if energy.only is None or not self.lacking(energy.only):
            return ""
        return guarded(energy.only)


def guarded(guard: Guard) -> str:
    """A guard in words: "hot-fill only", "only without hot-fill"."""
    return f"only without {guard.option}" if guard.negated else f"{guard.option} only"


def look(page: Page, analysis: Analysis | None, shop: Shop | None, links: Links | None) -> View:
    """The view of a page; a shop or links that are not known are empty ones."""
    known = tuple(_lines(page, analysis, step) for step in page.steps)
    return View(page, analysis, shop or Shop(None), links or Links(), known)


def _lines(page: Page, analysis: Analysis | None, step: Step) -> tuple[Line, ...]:
    reached = analysis.at(step.number) if analysis else None
    if reached is None:
        return tuple(Line(e, None, None) for e in page.energies)
    models = [m for m in page.models if m.name in reached.models]
    there = {e.name for m in models for e in page.fitted(m)} if models else None
    arriving, leaving = dict(reached.arriving), dict(reached.leaving)
    return tuple(
        Line(e, arriving.get(e.name, State.ON), leaving.get(e.name, State.ON))
        for e in page.energies
        if there is None or e.name in there
    )
