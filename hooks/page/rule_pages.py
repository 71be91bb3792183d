"""A page for each rule, for the writer: a preview has them, and its findings lead there; the shop's site has none."""

from __future__ import annotations

from hooks.check.explained import EXPLAINED
from hooks.check.rules import PARTS
from hooks.page.generated import GeneratedPage
from hooks.page.templates import draw

INDEX = "rules/index.md"


def generated() -> tuple[GeneratedPage, ...]:
    """The list of all rules, and each rule with its docstring."""
    pages = (_page(f"rules/{name}.md", name, "rule/rule.html", name=name, rules=EXPLAINED[name], parts=PARTS) for name in EXPLAINED)
    return (_page(INDEX, "Rules", "rule/index.html", explained=EXPLAINED), *pages)


def address(rule: str, root: str) -> str:
    """The link to the page of a rule from one whose way to the site's first folder is `root`."""
    return f"{root}rules/{rule}.html"


def _page(path: str, title: str, template: str, **context: object) -> GeneratedPage:
    return GeneratedPage(path, title, draw(template, **context), {"page": "", "title": title}, writers=True)
