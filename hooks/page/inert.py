"""An ordinary page's Markdown, drawn by MkDocs: its tags are text, its links lead only where a page may."""

from __future__ import annotations

import html
from urllib.parse import urlsplit
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.treeprocessors import Treeprocessor
from markdown.util import AMP_SUBSTITUTE

from hooks.page.markdown import SCHEMES

LINKS = frozenset({"href", "src"})
KEPT = frozenset({"align", "alt", "class", "height", "id", "scope", "start", "title", "width"})
"""Attributes that a page keeps; extensions of a shop may set others."""


class Inert(Extension):
    """Lets no page bring an element, an attribute or an address that does something."""

    def extendMarkdown(self, md: Markdown) -> None:
        """Take raw HTML out, and look through what all other extensions made."""
        md.preprocessors.deregister("html_block", strict=False)
        md.inlinePatterns.deregister("html", strict=False)
        md.treeprocessors.register(_Attributes(md), "stillbench-inert", -1)


class _Attributes(Treeprocessor):
    def run(self, root: Element) -> None:
        for element in root.iter():
            for name, value in list(element.attrib.items()):
                if name not in KEPT and not (name in LINKS and _may_lead(value)):
                    del element.attrib[name]


def _may_lead(link: str) -> bool:
    """Whether a link has a scheme that is followed; what cannot be read has none."""
    written = html.unescape(link.replace(AMP_SUBSTITUTE, "&"))
    try:
        scheme = urlsplit("".join(c for c in written if c > " ")).scheme
    except ValueError:
        return False
    return scheme.lower() in SCHEMES
