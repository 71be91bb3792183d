"""A chart as data: curves over two axes, limits as a band, the measured point; and drawn.

The SVG gets wider and narrower with its page, while its words keep their size; the page gives
its classes their look.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators._lib.amounts import METRIC, Words, preferred, said
from calculators._lib.scale import Axis, Scale, scale, usable
from calculators._lib.svg import escaped, placed, rect, text
from calculators._lib.words import number

LEFT, RIGHT = 14.0, 94.0
"""Where the plot begins and ends, in percent of the width; beside it there is room for the ticks."""
TOP, HEIGHT = 40.0, 200.0
"""The plot's upper edge and height, in pixels."""
ROW, LONGEST = 26, 36
"""Height of a line of the key, and how many characters fit on it on a phone."""
DOT = '<circle class="dot" r="7"/>'
FINE = 1000
"""The curves are drawn on a square of this size, stretched to the plot."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Curve:
    """A line through points (x, y) in base units; its words stand in the key."""

    points: tuple[Point, ...]
    words: str = ""
    kind: str = "line"
    """`line` for what is expected; `edge` for an edge of the range that the model leaves open: the stretch
    between the first and the second edge is filled, and so on by pairs."""


@dataclass(frozen=True, slots=True)
class Chart:
    """What to draw, and the sentence that says it to who cannot see it; values in base units."""

    x: Axis
    y: Axis
    curves: tuple[Curve, ...]
    say: Words
    band: tuple[float | None, float | None] | None = None
    """The limits on y; None for an end that is open."""
    point: tuple[float, float, float] | None = None
    """The measured point: x, y, and the expanded uncertainty of y. The axes reach to it."""
    point_words: Words = ""


def draw(chart: Chart, system: str = METRIC) -> str:
    """The chart as SVG, with its sentence for who cannot see it."""
    x, y, u = chart.point or (chart.x.low, chart.y.low, 0.0)
    across, up = scale(chart.x, system, x), scale(chart.y, system, y - u, y, y + u)
    key = _key(chart, system)
    height = TOP + HEIGHT + 60 + ROW * sum(len(lines) for _, lines in key)
    bits = [*_plot(chart, across, up), *_axes(across, up), *_point(chart, across, up), *_rows(key)]
    head = f'<svg class="chart" role="img" height="{height:g}" aria-label="{escaped(said(chart.say, system))}">'
    return f"{head}{''.join(bits)}</svg>"


def _plot(chart: Chart, across: Scale, up: Scale) -> list[str]:
    band = [] if chart.band is None else [_band(chart.band, up)]
    lines = [c for c in chart.curves if c.kind == "line"]
    drawn = [_path(f"curve c{i}", _way(c.points, across, up)) for i, c in enumerate(lines, 1)]
    edges = [_way(c.points, across, up) for c in chart.curves if c.kind == "edge"]
    ranges = [_path("range", [*a, *reversed(b)], "Z") for a, b in zip(edges[::2], edges[1::2], strict=False)]
    shapes = [*ranges, *(_path("curve edge", e) for e in edges), *drawn]
    size = f'x="{LEFT}%" y="{TOP:g}" width="{RIGHT - LEFT}%" height="{HEIGHT:g}"'
    box = f'<svg {size} viewBox="0 0 {FINE} {FINE}" preserveAspectRatio="none">'
    return [*band, *_grid(up), f"{box}{''.join(shapes)}</svg>"]


def _band(band: tuple[float | None, float | None], up: Scale) -> str:
    low, high = (None if v is None else min(max(up.share(v), 0.0), 1.0) for v in band)
    bottom, top = _down(low or 0.0), _down(1.0 if high is None else high)
    posts = [rect("k", LEFT, RIGHT, _down(v) - 1.5, 3) for v in (low, high) if v is not None]
    return rect("band", LEFT, RIGHT, top, bottom - top) + "".join(posts)


def _grid(up: Scale) -> list[str]:
    return [rect("grid", LEFT, RIGHT, _down(share) - 0.5, 1) for share, _ in up.ticks()[1:]]


def _way(points: tuple[Point, ...], across: Scale, up: Scale) -> list[Point]:
    shares = [(across.share(x), up.share(y)) for x, y in points if usable(x, y)]
    return [(FINE * a, FINE * (1 - b)) for a, b in shares]


def _path(css: str, way: list[Point], end: str = "") -> str:
    corners = "L".join(f"{x:.1f} {y:.1f}" for x, y in way)
    return f'<path class="{css}" vector-effect="non-scaling-stroke" d="M{corners}{end}"/>' if way else ""


def _axes(across: Scale, up: Scale) -> list[str]:
    foot = TOP + HEIGHT
    bits = [rect("k", LEFT, RIGHT, foot - 1.5, 3), text(0.0, 18, up.label)]
    bits += [text(LEFT - 1.5, _down(share) + 6, words, "end") for share, words in up.ticks()]
    for share, words in across.ticks():
        x = LEFT + share * (RIGHT - LEFT)
        bits += [placed(x, foot, '<rect class="k" x="-1" width="2" height="7"/>'), text(x, foot + 25, words, "middle")]
    return [*bits, text(RIGHT, foot + 48, across.label, "end")]


def _point(chart: Chart, across: Scale, up: Scale) -> list[str]:
    if chart.point is None or not usable(*chart.point):
        return []
    x, y, u = chart.point
    share, places = across.share(x), [_down(up.share(v)) for v in (y + u, y, y - u)]
    top, at, bottom = min(places), places[1], max(places)
    ends = f"M0 {top - at:.1f}V{bottom - at:.1f}M-9 {top - at:.1f}H9M-9 {bottom - at:.1f}H9"
    bar = f'<path class="bar" d="{ends}"/>' if u > 0 else ""
    return [placed(LEFT + share * (RIGHT - LEFT), at, bar + DOT)]


def _down(share: float) -> float:
    return TOP + (1 - share) * HEIGHT


def _key(chart: Chart, system: str) -> list[tuple[str, list[str]]]:
    """A sample of what is drawn, and its words in lines; the edges of a range share theirs."""
    lines = [c for c in chart.curves if c.kind == "line"]
    found = {said(chart.point_words, system): f'<g transform="translate(20)">{DOT}</g>'} if chart.point else {}
    found |= {c.words: _sample(f"curve c{i}") for i, c in enumerate(lines, 1)}
    found |= {c.words: _box("range") + _sample("curve edge") for c in chart.curves if c.kind == "edge"}
    if chart.band is not None:
        found[_limits(chart.band, chart.y, system)] = _box("band")
    return [(sample, _wrapped(words)) for words, sample in found.items() if words]


def _sample(css: str) -> str:
    return f'<path class="{css}" d="M0 0H40"/>'


def _box(css: str) -> str:
    return f'<rect class="{css}" y="-9" width="40" height="18"/>'


def _limits(band: tuple[float | None, float | None], axis: Axis, system: str) -> str:
    unit = preferred(axis.units, system)
    low, high = (None if v is None else number(float(f"{unit.from_base(v):.3g}")) for v in band)
    if low is None and high is None:
        return ""
    ends = f"at most {high}" if low is None else f"at least {low}" if high is None else f"{low} to {high}"
    return f"wanted: {ends} {unit.text}"


def _wrapped(words: str) -> list[str]:
    lines = [""]
    for word in words.split(" "):
        if lines[-1] and len(lines[-1]) + len(word) >= LONGEST:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return lines


def _rows(key: list[tuple[str, list[str]]]) -> list[str]:
    bits, y = [], TOP + HEIGHT + 84
    for sample, lines in key:
        bits.append(placed(0.0, y - 6, sample))
        for line in lines:
            bits.append(f'<text x="52" y="{y:g}">{escaped(line)}</text>')
            y += ROW
    return bits
