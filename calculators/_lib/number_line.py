"""The number line: limits as posts, the band between, where this meter cannot tell, the reading.

An SVG without colours, styles or ids of its own: the page gives the classes their look
and defines the pattern `i-grey`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, log10

from calculators._lib.svg import escaped, placed, rect, text
from calculators._lib.words import number

LEAST_TELL = 1.2
"""A stretch where the meter cannot tell is left out if narrower, in percent of the scale."""
NEAR = 14.0
"""Words closer than this, in percent of the scale, would run into each other."""


@dataclass(frozen=True, slots=True)
class Line:
    """What to draw, all in one unit."""

    low: float | None
    high: float | None
    unit: str
    value: float | None = None
    """None draws the bare scale; infinity stands for an open circuit."""
    uncertainty: float = 0.0
    words: str = ""
    """What stands over the pointer: "312 ± 4"."""
    tell: tuple[float | None, float | None] = (None, None)
    """Half the width of the stretch around each post in which this meter cannot tell."""


def draw(line: Line) -> str:
    """The number line as SVG; empty where there is no limit, or the lower one is above the upper."""
    limits = [limit for limit in (line.low, line.high) if limit is not None]
    if not limits or limits != sorted(limits):
        return ""
    start, end = scale(line)
    bits = [rect("k", 0, 100, 54, 3), _band(line, start, end), *_tells(line, start, end)]
    bits += _posts(line, start, end) + _ends(line, start, end) + _pointer(line, start, end)
    label = escaped(_aria(line, start, end))
    return f'<svg class="nline" role="img" aria-label="{label}">{"".join(bits)}</svg>'


def scale(line: Line) -> tuple[float, float]:
    """Where the scale begins and ends: round numbers, the band in the middle, the reading on it if near.

    >>> scale(Line(100.0, 500.0, "ohm")), scale(Line(180.0, 220.0, "ohm")), scale(Line(1.9, None, "L/min"))
    ((0.0, 600.0), (170.0, 230.0), (0.0, 5.0))
    """
    low, high = line.low, line.high
    if low is None or high is None:
        limit = high if low is None else low
        size = abs(limit) or 1.0
        edges = [limit - 1.5 * size, limit + (0.3 if low is None else 1.5) * size]
    else:
        room = (high - low or abs(high) or 1.0) / 4
        edges = [low - room, high + room]
    width = edges[1] - edges[0]
    if line.value is not None and abs(line.value - edges[1]) <= 2 * width:
        room = line.uncertainty + width / 20
        edges = [min(edges[0], line.value - room), max(edges[1], line.value + room)]
    lowest = high if low is None else low
    if lowest >= 0 and (low is None or high is None or edges[0] <= 0 or low <= high - low):
        edges[0] = 0.0
    step = _step(edges[1] - edges[0])
    return floor(edges[0] / step) * step, -floor(-edges[1] / step) * step


def _step(width: float) -> float:
    power = 10.0 ** floor(log10(width / 4))
    return next(m * power for m in (10, 5, 2, 1) if m * power <= width / 4)


def _at(x: float, start: float, end: float) -> float:
    return 100 * min(max((x - start) / (end - start), 0.0), 1.0)


def _band(line: Line, start: float, end: float) -> str:
    left = 0.0 if line.low is None else _at(line.low, start, end)
    right = 100.0 if line.high is None else _at(line.high, start, end)
    return rect("band", left, right, 44, 23)


def _tells(line: Line, start: float, end: float) -> list[str]:
    bits = []
    for post, half in zip((line.low, line.high), line.tell, strict=True):
        if post is not None and half is not None:
            left, right = _at(post - half, start, end), _at(post + half, start, end)
            if right - left >= LEAST_TELL:
                bits.append(rect("tell", left, right, 44, 23, ' fill="url(#i-grey)"'))
    return bits


def _posts(line: Line, start: float, end: float) -> list[str]:
    places = {p: _at(p, start, end) for p in (line.low, line.high) if p is not None}
    close = len(places) == 2 and max(places.values()) - min(places.values()) < NEAR
    one = "" if len(places) == 2 else "at least " if line.high is None else "at most "
    post_shape = '<rect class="k" x="-3.5" y="-23" width="7" height="46"/>'
    bits = []
    for post, x in places.items():
        bits.append(placed(x, 55, post_shape))
        anchor = _anchor(x) if not close else "end" if post == line.low else "start"
        bits.append(text(x, 98, f"{one}{number(post)}", anchor))
    return bits


def _ends(line: Line, start: float, end: float) -> list[str]:
    places = [_at(p, start, end) for p in (line.low, line.high) if p is not None]
    words = {0.0: (number(start), "start"), 100.0: (f"{number(end)} {line.unit}", "end")}
    return [
        text(x, 98, label, anchor, "end")
        for x, (label, anchor) in words.items()
        if all(abs(x - p) >= NEAR for p in places)
    ]


def _pointer(line: Line, start: float, end: float) -> list[str]:
    if line.value is None:
        return []
    x, label = _at(line.value, start, end), _anchor(_at(line.value, start, end))
    if not start <= line.value <= end:
        way = "M-20-11V11L0 0z" if line.value > end else "M20-11V11L0 0z"
        return [placed(x, 55.5, f'<path class="k" d="{way}"/>'), text(x, 18, line.words, label, "big")]
    least, most = line.value - line.uncertainty, line.value + line.uncertainty
    bits = [rect("k", _at(least, start, end), _at(most, start, end), 50, 10)]
    stem = '<rect class="k" x="-1.5" y="0" width="3" height="28"/>'
    bits.append(placed(x, 40, f'<path class="k" d="M-13-17H13L0 3z"/>{stem}'))
    return [*bits, text(x, 18, line.words, label, "big")]


def _anchor(x: float) -> str:
    return "start" if x < NEAR / 2 else "end" if x > 100 - NEAR / 2 else "middle"


def _aria(line: Line, start: float, end: float) -> str:
    posts = [None if p is None else number(p) for p in (line.low, line.high)]
    limits = f"at most {posts[1]}" if line.low is None else f"at least {posts[0]}"
    if None not in posts:
        limits = f"{posts[0]} to {posts[1]}"
    reading = f"reading {line.words}, " if line.value is not None else ""
    return f"Number line from {number(start)} to {number(end)} {line.unit}; {reading}limits {limits}"
