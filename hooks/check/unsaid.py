"""What the front matter must say, and a page leaves out."""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found, listed
from hooks.model import Page
from hooks.parse.fields import PAGE, PageField
from hooks.parse.shapes import Many


def unsaid(page: Page, rule: str) -> Iterator[Found]:
    """One finding for all keys that this rule asks of the page and that are not there."""
    asked = (key for key in PAGE if key.unsaid == rule and page.kind in key.asked)
    lacking = [key for key in asked if key.name not in page.front.spans]
    if lacking:
        names = listed([f"`{key.name}`" for key in lacking])
        means = "; ".join(f"`{key.name}:`, {key.says}{_or_none(key)}" for key in lacking)
        top = page.front.spans.get("title", page.span)
        yield Found(top, f"the front matter does not say {names}", f"Write {means}.")


def _or_none(key: PageField) -> str:
    return ", or `none`" if isinstance(key.shape, Many) else ""
