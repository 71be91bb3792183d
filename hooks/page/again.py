"""Which pages of a preview are to be drawn again after a change of the shop's files."""

from __future__ import annotations

from hooks.model import Kind
from hooks.page.site import Site
from hooks.parse.result import ParsedPage


def redrawn(before: Site, after: Site) -> tuple[str, ...] | None:
    """The paths of the pages that are others after a change.

    None where more changed than the inside of procedures: the whole site is drawn then.
    """
    old, new = before.by_path, after.by_path
    if before.parsed.shop != after.parsed.shop or list(old) != list(new):
        return None
    touched = [path for path in new if before.made_of(path) != after.made_of(path)]
    if not all(_procedure(old[path]) and _procedure(new[path]) for path in touched):
        return None
    if touched and before.library.led_to != after.library.led_to:
        return None
    overviews = [page.path for page in before.generated if not page.writers] if before.report.findings != after.report.findings else []
    return (*touched, *overviews)


def _procedure(one: ParsedPage) -> bool:
    return one.page is not None and one.page.kind is Kind.PROCEDURE
