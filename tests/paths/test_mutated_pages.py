"""Real pages with slips of the pen: a finding with its line, or a clean page, never a traceback."""

from __future__ import annotations

from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hooks.check import examine
from hooks.model import Kind
from hooks.page import procedure, self_check
from hooks.parse import page, shop_facts
from hooks.parse.result import ParsedShop
from hooks.source import from_text

ROOT = Path(__file__).parents[2]
SHOP, _ = shop_facts(from_text((ROOT / "procedures/shop.yml").read_text("utf-8"), "shop.yml"))
FOLDERS = ("procedures", "tests/samples", "tests/cases", "tests/real")
PAGES = tuple(p.read_text("utf-8") for f in FOLDERS for p in sorted((ROOT / f).rglob("*.md")) if p.name.islower() or p.name[0] == "O")
SLIPS = (
    "{", "}", '"', "#", "- ", "](#", "`", "\n", "\t", "<!--", "-->", "```", ",", ":", "[", "]", "é", "\u2028", "0x1f",
    '!!! warning water "x"\n    y\n', "Next: ", "**Proved**", ' only="hot-fill"', " optional", "---", "&x", "*x", "|", "? ",
)  # fmt: skip
DRAW = {Kind.PROCEDURE: procedure.render, Kind.SELF_CHECK: self_check.render}


@st.composite
def slipped(draw: st.DrawFn) -> str:
    """A page with one to three things put in, left out or exchanged."""
    text = draw(st.sampled_from(PAGES))
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(text) - 1))
        lines = text.split("\n")
        row, other = (draw(st.integers(0, len(lines) - 1)) for _ in range(2))
        match draw(st.sampled_from(("put in", "left out", "line left out", "lines exchanged"))):
            case "put in":
                text = text[:at] + draw(st.sampled_from(SLIPS)) + text[at:]
            case "left out":
                text = (text[:at] + text[at + draw(st.integers(1, 12)) :]) or "x"
            case "line left out":
                text = "\n".join(lines[:row] + lines[row + 1 :]) or "x"
            case _:
                lines[row], lines[other] = lines[other], lines[row]
                text = "\n".join(lines)
    return text


@settings(max_examples=500, deadline=None, suppress_health_check=list(HealthCheck))
@given(slipped())
def test_a_slip_gives_findings_with_a_place_or_a_page_that_can_be_drawn(text: str) -> None:
    parsed = page(from_text(text, "a.md"), SHOP)
    report = examine(ParsedShop(SHOP, (parsed,), ()))
    for finding in report.findings:
        assert 1 <= finding.span.line <= len(parsed.source.lines)
        assert finding.message and finding.help
    assert parsed.sound or report.findings
    if parsed.page and parsed.page.kind in DRAW:
        drawn = DRAW[parsed.page.kind](parsed.page, report.analyses.get(parsed.page.id), report.findings, SHOP)
        assert drawn.count("<article") == 1


def test_the_pages_to_slip_on_are_many() -> None:
    assert len(PAGES) >= 25
    assert len(set(PAGES)) == len(PAGES)
