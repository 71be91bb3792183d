"""Figures: what stands in the text, and what the files hold that they show."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from hooks.check.rules import figure_lost
from hooks.kept import Kept
from hooks.model import Page, Shop
from hooks.parse import ParsedShop, contents, drawn, page, pictures, whole
from hooks.parse.pictures import picture
from hooks.source import Span, from_text
from tests.parse.cases import HEAD

FIGURE = '![The plug in the wall](a%20b.svg "Pull *here*")'
STEP = f"""### Look {{#look check}}
First this.
{FIGURE}

1. The plug
2. The [wall](../notes.md)

3. Then that.

![The cord](<cord.svg>)
"""
LINES = HEAD.count("\n")
SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="{}">{}</svg>'


def made(text: str, name: str = "machines/a.md") -> Page:
    found = page(from_text(text if text.startswith("---") else HEAD + text, name), Shop(None)).page
    assert found
    return found


def test_a_figure_is_known_with_its_words_its_list_and_its_place_in_the_text() -> None:
    step = made(STEP).steps[0]
    first, second = step.figures
    assert step.prose == "First this.\n\n3. Then that."
    assert (first.words, first.file, first.caption) == ("The plug in the wall", "machines/a b.svg", "Pull here")
    assert (step.prose[: first.at], step.prose[: second.at]) == ("First this.", step.prose)
    assert first.listed == "1. The plug\n2. The [wall](../notes.md)"
    assert [number for number, _ in first.numbers] == [1, 2]
    assert first.span == Span.in_line(LINES + 3, 0, len(FIGURE))
    assert [span.line for _, span in first.numbers] == [LINES + 5, LINES + 6]
    assert (second.file, second.caption, second.numbers) == ("machines/cord.svg", "", ())


def test_a_list_begins_where_its_first_number_says_as_it_is_drawn() -> None:
    figure = made("### Look {#look check}\n![The plug](a.svg)\n4. one\n4. two\n").steps[0].figures[0]
    assert [number for number, _ in figure.numbers] == [4, 5]


def test_figures_stand_before_the_first_step_under_a_stage_and_anywhere_on_an_ordinary_page() -> None:
    found = made(f"Before.\n\n{FIGURE}\n\n# A page\n\nMore.\n\n{FIGURE}\n\n## A stage\n\n{FIGURE}\n\n### Look {{#look check}}\n")
    assert [found.intro[: figure.at] for figure in found.figures] == ["Before.", "Before.\n\nMore."]
    assert len(found.stages[0].figures) == 1
    text = made(f"---\ntitle: Notes\npage: text\n---\nSee {FIGURE} and ![the cord](cord.svg).\n`![no](x.svg)`\n", "notes.md")
    assert [figure.file for figure in text.figures] == ["a b.svg", "cord.svg"]


def test_shared_steps_show_the_same_files_wherever_they_are_used() -> None:
    shared = f"---\ntitle: Safe\npage: shared-steps\nid: safe\n---\n{STEP}"
    using = HEAD + '### Make it safe {#safe uses="safe"}\n### Done {#done end="as found"}\n'
    parsed = [page(from_text(text, name), Shop(None)) for name, text in (("x/y/a.md", using), ("machines/safe.md", shared))]
    step = drawn(parsed)[0].page.steps[0]
    assert [figure.file for figure in step.figures] == ["machines/a b.svg", "machines/cord.svg"]
    assert "[wall](../../notes.md)" in step.figures[0].listed


@pytest.mark.parametrize("line", [f'{FIGURE} and "more")', "![a [b](c.svg)", f"> {FIGURE}", f"- {FIGURE}", f"    {FIGURE}"])
def test_what_is_no_figure_is_reported_and_never_half_of_one(line: str) -> None:
    found = made(f"### Look {{#look check}}\n{line}\n")
    assert found.steps[0].figures == ()
    assert [f.message for f in figure_lost.on_page(found, ParsedShop(Shop(None), (), ()))]


@pytest.mark.parametrize("elsewhere", ["https://x.example/a.svg", "//x.example/a.svg", "/a.svg", "data:image/png;base64,x", "C:\\a.svg"])
def test_a_figure_from_elsewhere_is_known_as_such(elsewhere: str) -> None:
    figure = made(f"### Look {{#look check}}\n![The plug]({elsewhere})\n").steps[0].figures[0]
    assert figure.elsewhere and figure.file == elsewhere


@pytest.mark.parametrize("bad", [
    "<script/>", "<a href='#b'/>", "<image href='#b'/>", "<foreignObject/>", "<set/>", "<filter/>", "<iframe/>", "<g xmlns='x'/>",
    "<use href='b.svg#c'/>", "<path style='fill:url(https://x)'/>", "<path fill='u\\72l(x)'/>", "<path OnClick='x'/>",
    "<style>a { background: url('x') }</style>", "<style>@import 'x';</style>", "<?xml-stylesheet href='x'?>",
    "<path xml:base='https://x/'/>", "<g xmlns:i='http://i' i:label='x'/>", "<path>", "&amp;&lt;&nbsp;",
    "<text font-size='9'>inlet</text>", "<text style='font-size: 9px'>inlet</text>", "<style>text { font-size: 9px }</style>",
])  # fmt: skip
def test_a_drawing_that_does_something_or_cannot_be_read_has_a_fault(bad: str) -> None:
    assert picture("a.svg", SVG.format("0 0 320 200", bad).encode(), "").fault


def test_a_drawing_is_as_large_as_its_box_and_its_lone_numbers_are_known() -> None:
    inside = "<title>It</title><text> 2 </text><text><tspan>10</tspan></text><text>2 m</text><text>100</text><text>0</text>"
    found = picture("a.SVG", SVG.format("0,0 320.4,200", inside).encode(), "d")
    assert (found.width, found.height, found.numbers, found.fault, found.photo) == (320, 200, (2, 10), "", False)
    assert picture("a.svg", SVG.format("0 0 0 9", "").encode(), "").fault
    assert picture("a.svg", SVG.format("0 0 9 9", "<path d='M0 0'/>" * 20_000).encode(), "").fault


def photo(kind: str, size: tuple[int, int] = (40, 30), **how: object) -> bytes:
    to = BytesIO()
    Image.new("RGB", size, "#912b00").save(to, kind, **how)
    return to.getvalue()


def test_a_photo_is_as_large_as_it_is_seen() -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    found = picture("a.jpg", photo("JPEG", exif=exif), "d")
    assert (found.width, found.height, found.numbers, found.photo) == (30, 40, None, True)


@pytest.mark.parametrize(("name", "content"), [
    ("a.png", photo("JPEG")), ("a.jpg", photo("JPEG")[:300]), ("a.webp", b""), ("a.png", photo("GIF")),
    ("a.png", photo("PNG", save_all=True, append_images=[Image.new("RGB", (40, 30))])),
])  # fmt: skip
def test_a_photo_that_is_broken_moves_or_is_something_else_has_a_fault(name: str, content: bytes) -> None:
    found = picture(name, content, "")
    assert found.fault and found.help


@pytest.mark.parametrize("limit", ["HEAVY", "PIXELS"])
def test_a_photo_that_is_too_large_has_a_fault(limit: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, limit, 50)
    assert picture("a.png", photo("PNG"), "").fault


def test_a_shop_knows_the_pictures_in_its_folder_and_those_alone(tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    (shop / "in").mkdir(parents=True)
    (shop / "in/A.JPG").write_bytes(photo("JPEG"))
    (shop / "b.txt").write_text("no picture")
    (tmp_path / "c.jpg").write_bytes(photo("JPEG"))
    (shop / "c.jpg").symlink_to(tmp_path / "c.jpg")
    before = contents(shop)
    assert list(whole(before, Kept()).pictures) == ["shop/in/A.JPG"]
    (shop / "in/A.JPG").write_bytes(photo("JPEG", (50, 30)))
    assert contents(shop).digest != before.digest
