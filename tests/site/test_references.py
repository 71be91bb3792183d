"""What a page may lead to without anybody having written it."""

from __future__ import annotations

from pathlib import Path

from hooks import check, parse
from hooks.check.rules.reference_lost import is_there
from hooks.page.site import Site

PROCEDURES = Path(__file__).parents[2] / "procedures"


def test_no_page_that_the_site_makes_counts_as_lost() -> None:
    parsed = parse.folder(PROCEDURES)
    prefix = parse.shown(PROCEDURES / parse.FACTS, PROCEDURES).removesuffix(parse.FACTS)
    made = Site(parsed, check.examine(parsed), prefix, False).generated
    names = [f"{prefix}{page.path}".removesuffix(".md") for page in made]
    assert names
    assert [name for name in names if not is_there(name, parsed.names)] == []
