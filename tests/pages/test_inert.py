"""An ordinary page's Markdown: what may do something on a device is shown as text, or leads nowhere."""

from __future__ import annotations

import pytest
from bs4 import BeautifulSoup
from markdown import Markdown

from hooks.page import markdown
from hooks.page.inert import KEPT, Inert

EXTENSIONS = ["toc", "tables", "fenced_code", "attr_list", "md_in_html", "def_list"]
"""MkDocs' own, and what shops like to add."""
TAGS = [
    "<b>bold</b>",
    "<script>x()</script>",
    "Mind <img src=x onerror=y> here",
    "<!-- a note -->",
    "<div markdown=1>\nx\n</div>",
    "<svg onload=x><script>y</script></svg>",
    "| a |\n|---|\n| <i>b</i> |",
]
LINKS = {
    "heater.md": "heater.md",
    "heater.md#cool": "heater.md#cool",
    "#cool": "#cool",
    "https://example.org/?a=1&b=2": "https://example.org/?a=1&b=2",
    "tel:555-0142": "tel:555-0142",
    "javascript:alert(1)": None,
    "JaVaScript:alert(1)": None,
    "java&#115;cript:alert(1)": None,
    "<java\tscript:alert(1)>": None,
    "data:text/html,x": None,
    "blob:x": None,
    "vbscript:x": None,
    "http://[broken": None,
}


def drawn(text: str) -> BeautifulSoup:
    html = Markdown(extensions=[*EXTENSIONS, Inert()]).convert(text)
    return BeautifulSoup(html, "html.parser")


@pytest.mark.parametrize("text", TAGS)
def test_a_tag_on_an_ordinary_page_is_text(text: str) -> None:
    page = drawn(text)
    assert {tag.name for tag in page.find_all(True)} <= {"p", "table", "thead", "tbody", "tr", "th", "td"}
    assert "<" in page.get_text()


@pytest.mark.parametrize(("written", "leads"), LINKS.items())
@pytest.mark.parametrize("form", ["[a link]({})", "![a picture]({})", "[a][s]\n\n[s]: {}"])
def test_a_link_on_an_ordinary_page_leads_where_a_page_may_or_nowhere(form: str, written: str, leads: str | None) -> None:
    found = drawn(form.format(written)).find(["a", "img"])
    if found:
        assert found.get("href", found.get("src")) == leads
    else:
        assert leads is None


def test_an_address_for_letters_stays_one() -> None:
    assert drawn("<office@example.org>").a["href"] == "mailto:office@example.org"


def test_attributes_that_a_shop_adds_are_only_those_that_do_nothing() -> None:
    page = drawn("[x](y.md){onclick=z style=color:red .loud #here target=_top formaction=k}")
    assert set(page.a.attrs) == {"href", "class", "id"}
    assert not {name for name in KEPT if name.startswith("on") or name == "style"}


def test_columns_keep_their_side_without_a_style() -> None:
    cell = BeautifulSoup(markdown.render("| a |\n|--:|\n| 1 |"), "html.parser").td
    assert cell.attrs == {"align": "right"}
