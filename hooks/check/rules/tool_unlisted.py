"""A step needs a tool that the page does not list, or a tool is listed that no step uses.

Why:
    The list is packed before the drive. What is missing there is missing in the cellar; what
    nobody uses is carried for nothing, or its step was forgotten. Informed by the support
    equipment of DITA (`supequip`) and S1000D.

Example reported:
    tools: [bucket]

    ### Open the panel {#open work needs="screwdriver"}
    Six screws.

Example mended:
    tools: [screwdriver]

    ### Open the panel {#open work needs="screwdriver"}
    Six screws.
"""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from hooks.check.found import Found
from hooks.check.unsaid import unsaid
from hooks.diagnostics import Level
from hooks.model import Page, Step
from hooks.parse.result import ParsedShop

LEVELS = (Level.ERROR, Level.WARNING)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """The list that is missing; else each tool that is missing in it, and each that is there for nothing."""
    yield from unsaid(page, "tool-unlisted")
    if page.front.tools is None:
        return
    lists = (page.front.tools, *(shared.front.tools or () for shared in page.shared))
    listed = {tool.text.casefold() for tools in lists for tool in tools}
    needed: set[str] = set()
    for step in page.steps:
        for tool in step.needs:
            needed.add(tool.casefold())
            if tool.casefold() not in listed:
                yield _unlisted(step, tool, [t.text for t in page.front.tools])
    idle = [tool for tool in page.front.tools if tool.text.casefold() not in needed]
    said = "\n".join((s.title + "\n" + s.prose).casefold() for s in page.steps) if idle else ""
    for tool in idle:
        if tool.text.casefold() not in said:
            what = f"no step uses the tool `{tool.text}`"
            yield Found(tool.span, what, "Name it with `needs` where it is used, or take it out.", level=Level.WARNING)


def _unlisted(step: Step, tool: str, known: list[str]) -> Found:
    near = get_close_matches(tool, known, 1)
    return Found(
        dict(step.spans).get(f"needs {tool}", step.span_of("needs")),
        f'"{step.title}" needs `{tool}`, which is not among the `tools`',
        f"Did you mean `{near[0]}`?" if near else "Add it to `tools`.",
        step,
    )
