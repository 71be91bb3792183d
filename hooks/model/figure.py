"""A figure of a page, and the file that it shows."""

from __future__ import annotations

from dataclasses import dataclass

from hooks.source import Span


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture on a line of its own; on an ordinary page, anywhere."""

    words: str
    """What it shows, for who cannot see it."""
    file: str
    """The file, named as the shop's pages are; as it was written where it leads elsewhere."""
    elsewhere: bool
    """Whether it is fetched from another site or another place of the disk."""
    caption: str
    listed: str
    """Markdown of the numbered list right under it, which says what its numbers are."""
    numbers: tuple[tuple[int, Span], ...]
    """The numbers of that list, as they are drawn, each with its line."""
    span: Span
    at: int = 0
    """So many characters of the text that it belongs to stand before it."""

    @property
    def said(self) -> str:
        """Markdown: what a reader reads at it, a paragraph each."""
        return "\n\n".join(part for part in (self.caption, self.listed) if part)


@dataclass(frozen=True, slots=True)
class Picture:
    """What a file of the shop shows."""

    width: int
    """As it is drawn, in pixels; a photo that lies on its side is turned first."""
    height: int
    numbers: tuple[int, ...] | None
    """The numbers that stand alone in a drawing, in order; None for a photo, of which nobody can tell."""
    digest: str
    """That of its content."""
    fault: str = ""
    """Why it cannot be shown; empty for one that can."""
    help: str = ""

    @property
    def photo(self) -> bool:
        """Whether it is made of pixels, which are scaled for the reader's screen."""
        return self.numbers is None
