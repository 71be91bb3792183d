"""A picture has no words that say what it shows.

Why:
    Who cannot see it, who prints it badly and who searches for it has only its words; a name
    of a file is none. Informed by WCAG 2.2, success criterion 1.1.1, and IEC/IEEE 82079-1.

Example reported:
    ### Find the stop valve {#find check}
    ![](stop-valve.svg)

Example mended:
    ### Find the stop valve {#find check}
    ![The stop valve under the sink, its handle across the pipe](stop-valve.svg)
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hooks.check.found import Found
from hooks.check.written import written
from hooks.model import Page
from hooks.parse.links import without_code
from hooks.parse.result import ParsedShop
from hooks.source import Span

PICTURE = re.compile(r"!\[([^\[\]]*)\](?:\(|\[)")
NO_WORDS = re.compile(
    r"(?:figure|image|picture|photo|img|screenshot)?[\W_\d]*|\S+\.(?:png|jpe?g|svg|webp|gif|avif)", re.IGNORECASE
)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each picture of any page whose words are missing or name a file."""
    for number, line, step in written(page, "!["):
        for picture in PICTURE.finditer(without_code(line)):
            if NO_WORDS.fullmatch(picture[1].strip()):
                help = "Write between `[` and `]` what it shows and what to look at."
                yield Found(Span.in_line(number, *picture.span()), "this picture has no words", help, step)
