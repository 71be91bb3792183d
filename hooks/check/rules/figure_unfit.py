"""A figure's file is broken or too large, does something, or has letters too small to read.

Why:
    A drawing can hold a script or an address, which would reach every reader's device; one that is not
    known to be still and whole is not published. Letters that cannot be read on a phone in a cellar say
    nothing. Informed by the integration modes of SVG 2 (secure static mode) and IEC/IEEE 82079-1.

Example reported:
    ### Find the stop valve {#find check}
    ![The stop valve under the sink, its handle across the pipe](with-a-script.svg)

Example mended:
    ### Find the stop valve {#find check}
    ![The stop valve under the sink, its handle across the pipe](stop-valve.svg)
"""

from __future__ import annotations

from collections.abc import Iterator
from posixpath import basename

from hooks.check.found import Found
from hooks.model import Kind, Page
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each figure of the page's own whose file has a fault."""
    for step, figures in page.figured():
        for figure in figures if not (step and step.used) else ():
            picture = shop.pictures.get(figure.file)
            if picture and picture.fault:
                what = f"`{basename(figure.file)}` cannot be shown: {picture.fault}"
                yield Found(figure.span, what, picture.help, None if page.kind is Kind.SHARED_STEPS else step)
