"""Text with its figures in their places: the picture, its caption, the way to see it larger, the list of its numbers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from hooks.model import Figure
from hooks.page.languages import language
from hooks.page.markdown import render
from hooks.page.photos import SIZES
from hooks.page.templates import draw
from hooks.page.view import Links


def text(prose: str, figures: Sequence[Figure], links: Links, code: str, later: bool = False) -> Markup:
    """Markdown with figures as HTML, in the language of `code`; `later` figures are fetched as they come into view."""
    return Markup("\n").join(_parts(prose, figures, links, code, later)) if figures else render(prose)


def _parts(prose: str, figures: Sequence[Figure], links: Links, code: str, later: bool) -> Iterator[Markup]:
    done = 0
    for figure in figures:
        yield render(prose[done : figure.at])
        shown = links.figures.get(figure.file)
        yield draw("figure/figure.html", figure=figure, shown=shown, sizes=SIZES, say=language(code), later=later)
        yield render(figure.listed)
        done = figure.at
    yield render(prose[done:])
