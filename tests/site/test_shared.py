"""Shared steps in the writer's preview: findings stand on the page that uses them, and name both places."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from hooks.check import examine
from hooks.page.site import Site
from hooks.parse import folder

FACTS = "appliances: {kettle: {title: Kettle, models: {K1: []}, energies: {electricity: {points: [plug]}}}}\n"
SHARED = """---
title: Make it safe
page: shared-steps
id: safe
revision: 1
reviewed: 2026-11-02
---
### Prove it {#prove verify="electricity"}
- **Proved**: [It is off](#off)
- **Not proved**: [It is off](#off)
### It is off {#off end="goes on"}
"""
PAGE = """---
title: The switch
page: procedure
id: switch
revision: 1
reviewed: 2026-11-02
appliance: kettle
people: {number: 1, skill: basic}
time: 10 min
protect: none
tools: none
supplies: none
parts: none
before: none
after: none
---
!!! warning electricity "Shock"
    It can kill you. Prove it off before you touch it.

### Make it safe {#safe uses="safe"}
- It is off: [Swap it](#swap)
### Swap it {#swap work}
Two screws.
### Plug in {#on restore="electricity" clear}
Dry hands.
### Done {#done end="in service"}
Run it once.
"""


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Site:
    """A shop whose shared steps prove what is not off."""
    monkeypatch.chdir(tmp_path)
    for name, text in {"shop/shop.yml": FACTS, "shop/shared/safe.md": SHARED, "shop/switch.md": PAGE}.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    parsed = folder(Path("shop"))
    return Site(parsed, examine(parsed), "shop/", True)


def drawn(site: Site, path: str) -> BeautifulSoup:
    """A page as the writer sees it."""
    return BeautifulSoup(site.html(path, ""), "html.parser")


def words(found: BeautifulSoup) -> str:
    """The text with single spaces."""
    return " ".join(found.get_text(" ").split())


def test_a_finding_in_shared_steps_stands_in_its_step_and_names_both_places(site: Site) -> None:
    finding = drawn(site, "switch.md").select_one("#safe .finding")
    assert finding and "verify-before-isolate" in words(finding)
    assert "shop/shared/safe.md line 8, column 30, used by shop/switch.md line 20" in words(finding)
    row = finding.select_one(".path .row")
    assert row and words(row).startswith("20 1 Prove it In shop/shared/safe.md line 8.")


def test_the_page_of_shared_steps_says_what_is_wrong_with_them_and_who_uses_them(site: Site) -> None:
    page = drawn(site, "shared/safe.md")
    assert [a["href"] for a in page.select("ul a")] == ["../switch.html"]
    assert "proof \"Prove it\" can be reached with electricity ON" in words(page).replace("Proof", "proof")
    assert not page.select(".step")


def test_a_site_has_no_page_of_shared_steps(site: Site) -> None:
    assert site.drawn_in == ("shared/safe.md",)
    assert not site.is_text("shared/safe.md")
    assert [e.id for e in site.library.entries] == ["switch"]


def test_an_error_in_shared_steps_is_counted_on_the_page_that_uses_them(site: Site) -> None:
    overview = BeautifulSoup(site.meta("index.md")["banner"], "html.parser")
    errors = sum(f.level.value == "error" for f in site.report.findings)
    assert [(a["href"], a.text) for a in overview.select("a")] == [("switch.html", f"The switch: {errors}")]
