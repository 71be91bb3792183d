"""The number line shows what the sentence says."""

from __future__ import annotations

from math import inf

import pytest
from bs4 import BeautifulSoup
from bs4.element import Tag
from hypothesis import given
from hypothesis import strategies as st

from calculators._lib.number_line import Line, draw, scale

ATTRIBUTES = {"class", "role", "aria-label", "x", "y", "width", "height", "fill", "overflow", "d", "text-anchor"}

lines = st.builds(
    Line,
    low=st.none() | st.just(0.0) | st.floats(1e-3, 1e4),
    high=st.none() | st.floats(1e4 + 1, 1e6),
    unit=st.just("ohm"),
    value=st.none() | st.just(inf) | st.floats(0.0, 1e7),
    uncertainty=st.floats(0.0, 1e4),
    words=st.text(max_size=8),
    tell=st.tuples(st.none() | st.floats(0.0, 1e4), st.none() | st.floats(0.0, 1e4)),
)


def drawn(line: Line) -> Tag:
    return BeautifulSoup(draw(line), "html.parser").find("svg", class_="nline")


def place(tag: Tag) -> float:
    return float(tag["x"].removesuffix("%"))


def texts(svg: Tag) -> list[str]:
    return [t.get_text() for t in svg.find_all("text")]


def test_limits_band_reading_and_ends_are_drawn_to_scale() -> None:
    svg = drawn(Line(100.0, 500.0, "ohm", 312.0, 4.0, "312 ± 4", (1.0, 6.0)))
    assert svg["role"] == "img"
    assert svg["aria-label"] == "Number line from 0 to 600 ohm; reading 312 ± 4, limits 100 to 500"
    assert texts(svg) == ["100", "500", "0", "600 ohm", "312 ± 4"]
    assert place(svg.find(class_="band")) == pytest.approx(100 / 6, abs=0.01)
    assert place(svg.find(class_="big")) == pytest.approx(52.0)


def test_the_stretch_where_the_meter_cannot_tell_is_left_out_if_too_narrow_to_see() -> None:
    svg = drawn(Line(100.0, 500.0, "ohm", tell=(3.5, 6.0)))
    (tell,) = svg.find_all(class_="tell")
    assert tell["fill"] == "url(#i-grey)"
    assert place(tell) == pytest.approx(494 / 6, abs=0.01)


@pytest.mark.parametrize(
    ("low", "high", "words", "band"),
    [(1.9, None, "at least 1.9", ("38.00%", "62.00%")), (None, 100.0, "at most 100", ("0.00%", "71.43%"))],
)
def test_one_limit_has_one_post(low: float | None, high: float | None, words: str, band: tuple[str, str]) -> None:
    svg = drawn(Line(low, high, "L/min"))
    assert len(svg.find_all("svg")) == 1
    assert words in texts(svg)
    assert (svg.find(class_="band")["x"], svg.find(class_="band")["width"]) == band


def test_without_a_reading_there_is_a_bare_scale() -> None:
    svg = drawn(Line(100.0, 500.0, "ohm"))
    assert svg.find(class_="big") is None
    assert svg["aria-label"] == "Number line from 0 to 600 ohm; limits 100 to 500"


def test_without_limits_there_is_nothing_to_draw() -> None:
    assert draw(Line(None, None, "ohm", 312.0)) == ""


def test_limits_that_changed_places_give_no_line() -> None:
    assert draw(Line(500.0, 100.0, "ohm")) == ""


@pytest.mark.parametrize("value", [2000.0, inf])
def test_a_reading_beyond_the_scale_is_an_arrow_at_its_end(value: float) -> None:
    svg = drawn(Line(100.0, 500.0, "ohm", value, 4.0, "far"))
    assert place(svg.find(class_="big")) == 100.0
    assert svg.find_all("path")[-1]["d"] == "M-20-11V11L0 0z"


@pytest.mark.parametrize(
    ("value", "ends"), [(150.0, (140.0, 240.0)), (260.0, (160.0, 280.0)), (200.0, (170.0, 230.0))]
)
def test_the_scale_reaches_to_a_reading_that_is_near(value: float, ends: tuple[float, float]) -> None:
    assert scale(Line(180.0, 220.0, "ohm", value)) == ends


def test_two_limits_that_are_shown_alike_still_have_a_scale() -> None:
    assert scale(Line(80.0, 80.0, "ohm", 80.0, 0.1)) == (60.0, 100.0)
    assert scale(Line(0.0, 0.0, "V")) == (0.0, 0.25)


@given(lines)
def test_every_line_is_whole_within_its_scale_and_without_look_or_id_of_its_own(line: Line) -> None:
    if not draw(line):
        assert line.low is line.high is None
        return
    tags = [drawn(line), *drawn(line).find_all(True)]
    assert {name for tag in tags for name in tag.attrs} <= ATTRIBUTES
    assert {tag["fill"] for tag in tags if "fill" in tag.attrs} <= {"url(#i-grey)"}
    for shape in (tag for tag in tags if tag.name == "rect" and tag["x"].endswith("%")):
        width = float(shape["width"].removesuffix("%"))
        assert 0 <= place(shape) <= place(shape) + width <= 100.02


def test_words_cannot_break_out_of_the_picture() -> None:
    svg = draw(Line(1.0, 2.0, 'ohm" onload="x', 1.5, 0.1, "<script>"))
    assert "<script>" not in svg
    assert 'onload="x' not in svg
