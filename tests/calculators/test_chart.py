"""A chart shows its points to scale, in the reader's units, and cannot be broken by words or numbers."""

from __future__ import annotations

import re
from math import inf, nan, sqrt

import pytest
from bs4 import BeautifulSoup
from bs4.element import Tag
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators._lib.amounts import METRIC, SYSTEMS, US, Amount, Choice
from calculators._lib.chart import HEIGHT, LEFT, RIGHT, TOP, Axis, Chart, Curve, draw
from calculators._lib.scale import PARTS, scale

ATTRIBUTES = {
    "class", "role", "aria-label", "x", "y", "width", "height", "overflow", "d", "r", "text-anchor", "transform",
    "viewbox", "preserveaspectratio", "vector-effect",
}  # fmt: skip
PRESSURE = (Choice("kPa", system=METRIC), Choice("psi", 6.894757, system=US))
FLOW = (Choice("L/min", system=METRIC), Choice("gal/min", 3.785411784, system=US))
WARMTH = (Choice("°C"), Choice("°F", 5 / 9, -160 / 9, system=US))
EXPECTED = tuple((float(p), 0.1 * sqrt(p)) for p in range(0, 801, 100))

untimed = settings(deadline=None)
numbers = st.floats(-1e6, 1e6)
whatever = st.floats() | numbers
axes = st.builds(lambda a, size, units: Axis("Some", units, a, a + size), numbers, st.floats(0.0, 1e6), st.just(WARMTH))
curves = st.builds(
    Curve,
    st.lists(st.tuples(whatever, whatever), max_size=4).map(tuple),
    st.text(max_size=60),
    st.sampled_from(["line", "edge"]),
)
charts = st.builds(
    Chart,
    axes,
    axes,
    st.lists(curves, max_size=4).map(tuple),
    st.text(max_size=8),
    st.none() | st.tuples(st.none() | numbers, st.none() | st.floats(1e6, 2e6)),
    st.none() | st.tuples(whatever, whatever, st.floats(0.0)),
    st.text(max_size=60),
)


def chart(**more: object) -> Chart:
    axes = (Axis("Pressure", PRESSURE, 0.0, 800.0), Axis("Flow", FLOW, 0.0, 4.0))
    return Chart(*axes, **{"curves": (Curve(EXPECTED, "expected"),), "say": "Flow against pressure."} | more)


def drawn(what: Chart, system: str = METRIC) -> Tag:
    return BeautifulSoup(draw(what, system), "html.parser").find("svg", class_="chart")


def texts(svg: Tag) -> list[str]:
    return [t.get_text() for t in svg.find_all("text")]


def test_axes_have_round_numbers_in_the_units_of_the_reader() -> None:
    assert texts(drawn(chart())) == [
        *("Flow, L/min", "0", "1", "2", "3", "4"),
        *("0", "200", "400", "600", "800", "Pressure, kPa", "expected"),
    ]
    assert texts(drawn(chart(), US))[:5] == ["Flow, gal/min", "0", "0.5", "1", "1.5"]


def test_a_scale_with_another_zero_is_carried_over() -> None:
    found = scale(Axis("Temperature", WARMTH, -20.0, 0.0), US)
    assert [words for _, words in found.ticks()] == ["-10", "0", "10", "20", "30", "40"]
    assert found.share(0.0) == pytest.approx(42 / 50)


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_measured_point_lies_where_its_values_are(system: str) -> None:
    svg = drawn(chart(point=(400.0, 1.0, 0.5), point_words=("read ", Amount(1.0, FLOW, 0.5))), system)
    place = svg.find(class_="bar").parent
    across, up = (scale(a, system) for a in (chart().x, chart().y))
    assert float(place["x"][:-1]) == pytest.approx(LEFT + across.share(400.0) * (RIGHT - LEFT), abs=0.01)
    assert float(place["y"]) == pytest.approx(TOP + (1 - up.share(1.0)) * HEIGHT, abs=0.06)
    half = up.share(1.5) - up.share(1.0)
    ends = re.match(r"M0 (\S+)V(\S+?)M", place.find(class_="bar")["d"])
    assert [float(e) for e in ends.groups()] == pytest.approx([-half * HEIGHT, half * HEIGHT], abs=0.1)
    assert ("read 1.0 ± 0.5 L/min" if system == METRIC else "read 0.26 ± 0.13 gal/min") in texts(svg)


def test_the_axes_reach_to_a_point_beyond_them() -> None:
    svg = drawn(chart(point=(1500.0, 9.0, 0.5), point_words="far"))
    assert texts(svg)[1:6] == ["0", "2", "4", "6", "8"]
    assert "1500" in texts(svg)


def test_limits_are_a_band_that_ends_with_a_line_where_there_is_a_limit() -> None:
    svg = drawn(chart(band=(2.0, None)))
    band = svg.find(class_="band")
    assert (float(band["y"]), float(band["height"])) == (TOP, HEIGHT / 2)
    assert "wanted: at least 2 L/min" in texts(svg)
    both = drawn(chart(band=(1.0, 3.0)))
    assert float(both.find(class_="band")["height"]) == HEIGHT / 2
    posts = [len(found.find_all("rect", class_="k", recursive=False)) for found in (svg, both)]
    assert posts[1] == posts[0] + 1


def test_two_edges_are_a_range_with_one_line_in_the_key() -> None:
    edges = tuple(Curve(tuple((x, y * by) for x, y in EXPECTED), "range", "edge") for by in (0.8, 1.2))
    svg = drawn(chart(curves=(Curve(EXPECTED, "expected"), *edges)))
    assert len(svg.find_all("path", class_="range")) == 1
    assert texts(svg).count("range") == 1


def test_lines_differ_by_kind_and_not_by_colour() -> None:
    svg = drawn(chart(curves=(Curve(EXPECTED, "one"), Curve(EXPECTED, "other"))))
    assert {tuple(p["class"]) for p in svg.find_all("path", class_="curve")} == {("curve", "c1"), ("curve", "c2")}


def test_the_sentence_is_told_to_a_screen_reader_in_its_units() -> None:
    svg = drawn(chart(say=("Flow is ", Amount(3.785411784, FLOW), ".")), US)
    assert (svg["role"], svg["aria-label"]) == ("img", "Flow is 1 gal/min.")


def test_words_cannot_break_out_of_the_picture() -> None:
    bad = '<script>"&'
    svg = draw(chart(say=bad, point=(1.0, 1.0, 0.0), point_words=bad, curves=(Curve(EXPECTED, bad),)))
    assert "<script" not in svg
    assert '"&"' not in svg


@untimed
@given(charts, st.sampled_from(SYSTEMS))
def test_every_chart_is_whole_and_within_its_frame(what: Chart, system: str) -> None:
    text = draw(what, system)
    svg = BeautifulSoup(text, "html.parser").find("svg", class_="chart")
    assert {name for tag in [svg, *svg.find_all(True)] for name in tag.attrs} <= ATTRIBUTES
    places = [v for tag in svg.find_all(True) for k, v in tag.attrs.items() if k in ("d", "x", "y", "width", "height")]
    assert not [v for v in places if "nan" in v or "inf" in v]
    for box in (t for t in svg.find_all("rect") if t.get("width", "").endswith("%")):
        left, width, y, height = (float(box[k].removesuffix("%")) for k in ("x", "width", "y", "height"))
        assert LEFT <= left <= left + width <= RIGHT + 0.01
        assert TOP - 2 <= y <= y + height <= TOP + HEIGHT + 2
        assert height >= 0
    for dot in svg.find_all("circle", recursive=True):
        place = dot.parent
        if place.name == "svg":
            assert LEFT - 0.01 <= float(place["x"][:-1]) <= RIGHT + 0.01
            assert TOP - 0.1 <= float(place["y"]) <= TOP + HEIGHT + 0.1


@untimed
@given(numbers, st.floats(0.0, 1e6), st.sampled_from(SYSTEMS), st.lists(whatever, max_size=3))
def test_an_axis_holds_its_ends_and_has_few_round_ticks(
    low: float, size: float, system: str, more: list[float]
) -> None:
    found = scale(Axis("Some", WARMTH, low, low + size), system, *more)
    if max((abs(v) for v in more if v not in (inf, -inf) and v == v), default=0.0) > 1e12:
        return
    assert len(found.ticks()) <= PARTS + 2
    assert f"{found.step:.0e}"[0] in "125"
    assert -1e-6 <= found.share(low) <= found.share(low + size) <= 1 + 1e-6


def test_a_point_that_is_no_number_is_not_drawn() -> None:
    assert drawn(chart(point=(1.0, 1.0, 0.0))).find("circle")
    assert drawn(chart(point=(1.0, nan, 0.0))).find("circle") is None
