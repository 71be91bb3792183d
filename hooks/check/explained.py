"""What every rule says of itself: what `explain` prints, reports carry and the writer's preview shows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from hooks.check.rules import PARTS, RULES, Rule
from hooks.parse.rules import MODULES

FENCE = "~~~~~"
"""Around an example, which may hold fences of its own."""


def _by_name() -> Mapping[str, tuple[Rule, ...]]:
    found = [*(Rule(name, module) for name, module in MODULES.items()), *RULES]
    return {name: tuple(r for r in found if r.name == name) for name in sorted({r.name for r in found})}


EXPLAINED = _by_name()
"""All rules by name; two where parsing and checking report under the same one, that of parsing first."""


def listed() -> str:
    """Every rule with the first sentence of what it says."""
    wide = max(map(len, EXPLAINED))
    return "\n".join(("Rules:", *(f"    {name:{wide}}  {rules[0].summary}" for name, rules in EXPLAINED.items())))


def text(name: str) -> str:
    """The whole page of a rule as its writer wrote it. KeyError where there is no such rule."""
    return "\n\n".join(rule.text for rule in EXPLAINED[name])


def markdown(name: str) -> str:
    """The same as Markdown: its parts as headings, its examples as code."""
    return "\n\n".join(block for rule in EXPLAINED[name] for block in _blocks(rule))


def _blocks(rule: Rule) -> Iterator[str]:
    yield rule.summary
    for part in PARTS:
        said = rule.part(part)
        yield f"**{part}**"
        yield f"{FENCE}\n{said}\n{FENCE}" if part.startswith("Example") else said
