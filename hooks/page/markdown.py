"""Markdown of the writer to HTML: few extensions, no raw HTML, links between pages kept working."""

from __future__ import annotations

import html
import re
from functools import lru_cache
from urllib.parse import urlsplit
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor
from markupsafe import Markup

from hooks.parse.lines import closes, opens

SCHEMES = frozenset({"", "http", "https", "mailto", "tel"})
"""Links that are followed; any other, `javascript:` among them, loses its address."""
PLAIN = re.compile(r"[^*_`\[\]<>&|!\\\t\x02\x03\x0b-\x1f\x7f\x85\u2028\u2029]*")
MARKED = re.compile(r"(?<![\w`*])(?:\*\*([A-Za-z0-9](?:[A-Za-z0-9 ,-]*[A-Za-z0-9])?)\*\*|`([A-Za-z0-9](?:[A-Za-z0-9 .,-]*[A-Za-z0-9])?)`)(?![\w`*])")
"""A few words in bold, or as they are written somewhere: the two marks that most texts do with."""
SPECIAL_START = re.compile(r"^(?:[ #=+>~:-]|\d+[.)])|  $", re.MULTILINE)
BREAK = re.compile(r"\n(?: *\n)+")


def address(link: str) -> str:
    """Where a link of the writer leads on the built site.

    `page.md` becomes `page.html`. An unknown scheme leads nowhere, and so does a jump to a
    place on the site: only the ways out of a step, which are checked, may offer one.
    """
    try:
        parts = urlsplit(link.strip())
    except ValueError:
        return ""
    if parts.scheme.lower() not in SCHEMES or re.search(r"[\x00-\x20]", link.strip()):
        return ""
    if parts.scheme.lower() in ("", "http", "https") and not parts.netloc:
        if parts.scheme or "#" in link or not parts.path:
            return ""
    if not parts.scheme and not parts.netloc and parts.path.endswith(".md"):
        return parts._replace(path=parts.path[:-3] + ".html").geturl()
    return link.strip()


class Fences(Preprocessor):
    """Keeps what stands in a fence as it is; what a fence is, parsing says."""

    def run(self, lines: list[str]) -> list[str]:
        """The text with a placeholder for each fence."""
        kept: list[str] = []
        marks, inside = "", list[str]()
        for line in lines:
            if not marks and (opened := opens(line)):
                marks, inside = opened[0], []
            elif marks and closes(line, marks):
                code = html.escape("\n".join(inside))
                kept += ["", self.md.htmlStash.store(f"<pre><code>{code}</code></pre>"), ""]
                marks = ""
            else:
                (inside if marks else kept).append(line)
        return [*kept, *inside] if marks else kept


class Addresses(Treeprocessor):
    """Rewrites the links and images of one text."""

    def run(self, root: Element) -> None:
        """Give each link its address on the site."""
        for element in root.iter():
            for key in ("href", "src"):
                if key in element.attrib:
                    leads = address(html.unescape(element.attrib.pop(key)))
                    element.attrib |= {key: leads} if leads else {}


def _reader() -> Markdown:
    settings = {"tables": {"use_align_attribute": True}}
    reader = Markdown(extensions=["tables", "sane_lists"], extension_configs=settings, output_format="html")
    reader.preprocessors.deregister("html_block")
    reader.inlinePatterns.deregister("html")
    reader.preprocessors.register(Fences(reader), "fences", 25)
    reader.treeprocessors.register(Addresses(reader), "addresses", 0)
    return reader


_READER = _reader()


@lru_cache(maxsize=20_000)
def render(text: str) -> Markup:
    """Markdown to HTML. Tags that stand in the text are shown as text."""
    text = text.strip("\n")
    drawn = MARKED.sub(_drawn, text) if "**" in text or "`" in text else text
    if PLAIN.fullmatch(drawn if drawn is text else MARKED.sub("x", text)) and not SPECIAL_START.search(text) and text.strip():
        paragraphs = BREAK.split(drawn)
        return Markup("\n".join(f"<p>{p}</p>" for p in paragraphs))
    return Markup(_READER.reset().convert(text))


def _drawn(marked: re.Match[str]) -> str:
    bold, code = marked.groups()
    return f"<code>{code}</code>" if bold is None else f"<strong>{bold}</strong>"
