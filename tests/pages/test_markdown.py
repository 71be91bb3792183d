"""The writer's Markdown: what is drawn, what is shown as text, where links lead."""

from __future__ import annotations

import re

import pytest
from bs4 import BeautifulSoup
from hypothesis import example, given
from hypothesis import strategies as st
from markdown import Markdown

from hooks.model import Shop
from hooks.page import markdown
from hooks.parse import page
from hooks.source import from_text
from tests.parse.cases import HEAD

LINKS = {
    "heater.md": "heater.html",
    "../a/heater.md": "../a/heater.html",
    "../a/heater.md#cool": "",
    "heater.%6dd#cool": "",
    "http:heater.html#cool": "",
    "https://example.org/a.html#b": "https://example.org/a.html#b",
    "https://example.org/a.md": "https://example.org/a.md",
    "#prove": "",
    "": "",
    "?again": "",
    "tel:555-0142": "tel:555-0142",
    "javascript:alert(1)": "",
    "JavaScript:alert(1)": "",
    "java\tscript:alert(1)": "",
    "data:text/html,x": "",
    "http://[broken": "",
}


@pytest.mark.parametrize(("written", "address"), LINKS.items())
def test_a_link_keeps_working_or_leads_nowhere(written: str, address: str) -> None:
    assert markdown.address(written) == address


def test_a_link_that_hides_its_scheme_in_entities_leads_nowhere() -> None:
    html = markdown.render("[x](java&#115;cript:alert(1))")
    assert not BeautifulSoup(html, "html.parser").a.attrs


PIECES = (
    "[", "]", "(", ")", "!", "\\", "`", "``", "<", ">", '"', "'", " ", "\n", "\n\n", "> ", "- ", "1. ", "    ",
    "#a", "&#35;a", "(#a)", "(<#a>)", '(#a "t(")', "[x](#a)", "[x][s]", "[s]", "[s]: #a", "|", "*", "_", "a",
    "<!--", "-->", "~~~", "```", "\n| a |\n|---|\n| ",
)  # fmt: skip


def without_tags() -> Markdown:
    """Markdown as anybody reads it, with our fences, but that tags are text: a tag taken out can leave a jump behind."""
    reader = Markdown(extensions=["tables", "sane_lists"])
    reader.inlinePatterns.deregister("html")
    reader.preprocessors.deregister("html_block")
    reader.preprocessors.register(markdown.Fences(reader), "fences", 25)
    return reader


@given(st.lists(st.sampled_from(PIECES), min_size=2, max_size=9).map("".join))
@example("```[`[x](#a)`")
def test_a_jump_that_markdown_would_draw_is_a_finding_and_is_not_drawn(text: str) -> None:
    parsed = page(from_text(f"{HEAD}### Look {{#a check}}\nWords.\n\n{text}\n", "page.md"), Shop(None))
    for step in parsed.page.steps:
        plainly = without_tags().convert(step.prose)
        assert parsed.findings or step.jumpless or not re.search(r"""href="(?:#|&#35;)""", plainly)
        assert not re.search(r"""href="[^"]*#""", markdown.render(step.prose))


@pytest.mark.parametrize("tag", ["<b>x</b>", "<script>x</script>", "<img src=x onerror=y>", "<!-- x -->"])
def test_a_tag_is_shown_and_not_taken(tag: str) -> None:
    for text in (tag, f"Mind {tag} here"):
        soup = BeautifulSoup(markdown.render(text), "html.parser")
        assert {t.name for t in soup.find_all(True)} <= {"p"}
        assert tag in soup.get_text()


@pytest.mark.parametrize(
    ("above", "below"), [("```", "```"), ("~~~~ two words", "~~~~"), ("  ```", "   ```")]
)
def test_what_a_fence_holds_is_shown_as_it_is(above: str, below: str) -> None:
    inside = "### No step {#x work}\n\n- [a](#b) <i>"
    soup = BeautifulSoup(markdown.render(f"See\n{above}\n{inside}\n{below}\nthen"), "html.parser")
    assert soup.pre.get_text() == inside
    assert not soup.select("a, h3, i")


def test_tables_and_lists_are_drawn() -> None:
    soup = BeautifulSoup(markdown.render("| a | b |\n|---|---|\n| 1 | 2 |\n\n- one\n- two"), "html.parser")
    assert len(soup.select("td")) == 2 and len(soup.select("li")) == 2


PLAIN = st.text(alphabet="ab Z09.,;:?'\"/()-+=#~%°\n", max_size=40)


@given(PLAIN)
def test_plain_text_takes_a_short_way_to_the_same_html(text: str) -> None:
    slow = markdown._READER.reset().convert(text.strip("\n"))
    assert str(markdown.render(text)) == slow


MARKED = st.lists(st.sampled_from(["**Never**", "**a b**", "`left`", "`a b`", "**", "`", "*", "_", " ", "\n", "\n\n", "a", "B2", ".", ", ", "-", "é", "1."]), max_size=12)


@given(MARKED.map("".join))
def test_words_in_bold_and_as_written_take_it_too(text: str) -> None:
    assert str(markdown.render(text)) == markdown._READER.reset().convert(text.strip("\n"))


def test_the_short_way_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(markdown, "_READER", None)
    assert markdown.render("**Never** pull the `upper` lead.\n\nWait.") == "<p><strong>Never</strong> pull the <code>upper</code> lead.</p>\n<p>Wait.</p>"
