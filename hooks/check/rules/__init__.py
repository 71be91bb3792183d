"""The rules, found by folder: one file is one rule, and the file's name is the rule's.

A rule has one of five forms, told by the function it defines; one that is `breached` may look at words `on_page` too:

- `on_page(page, shop)` looks at one page and the pages around it;
- `on_before(page, made)` looks at what another page leaves, for a page that counts on it;
- `on_graph(walks)` looks at what the search reached;
- `breached(act, now, machine)` is asked at each act in ACTS, in each state that
  some path reaches, and gives the energies for which its condition is broken
  (None where no energy is concerned). `say(breach)` words it; `HERE` and
  `cause(move, breach)` note on the path what a reader should see;
- `on_findings(page, findings, known)` looks at what all others found on a page.

LEVELS names the levels of its findings, gravest first; without it all are errors.

The docstring is the rule's page: a summary, then `Why:`, `Example reported:`,
`Example mended:`.
"""

from __future__ import annotations

import pkgutil
import re
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from inspect import cleandoc
from types import ModuleType

from hooks.diagnostics import Level

PARTS = ("Why", "Example reported", "Example mended")


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule and the module that holds it."""

    name: str
    module: ModuleType

    @property
    def text(self) -> str:
        """The whole page of the rule, as its writer wrote it."""
        return cleandoc(self.module.__doc__ or "")

    @property
    def levels(self) -> tuple[Level, ...]:
        """What its findings can weigh, gravest first."""
        return getattr(self.module, "LEVELS", (Level.ERROR,))

    @property
    def mildest(self) -> Level:
        """The least that a finding of it can weigh."""
        return self.levels[-1]

    @property
    def summary(self) -> str:
        """What it reports, in one line."""
        return self.text.partition("\n")[0]

    def part(self, name: str) -> str:
        """One of PARTS; empty where the docstring lacks it."""
        found = re.search(rf"^{name}:\n?(.*?)(?=^(?:{'|'.join(PARTS)}):|\Z)", self.text, re.M | re.S)
        return cleandoc(found[1]).strip("\n") if found else ""


def _all() -> tuple[Rule, ...]:
    names = sorted(m.name for m in pkgutil.iter_modules(__path__))
    return tuple(Rule(n.replace("_", "-"), import_module(f"{__name__}.{n}")) for n in names)


@cache
def having(function: str) -> tuple[Rule, ...]:
    """The rules of one form, told by the function they define."""
    return tuple(rule for rule in RULES if hasattr(rule.module, function))


RULES = _all()
