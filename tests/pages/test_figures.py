"""Figures on a page, and photos as they are published."""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from PIL import Image, ImageCms

from hooks.model import Figure, Picture
from hooks.page import photos
from hooks.page.blocks.figure import figure
from hooks.page.view import Links
from hooks.parse.pictures import picture
from hooks.source import Span

LARGE = (4000, 3000)


def photo(kind: str = "JPEG", size: tuple[int, int] = LARGE, mode: str = "RGB", **how: object) -> bytes:
    """A picture whose left half is dark, with all that a camera writes."""
    exif = Image.Exif()
    exif[0x010F] = "Invented camera"
    exif.get_ifd(0x8825)[2] = (46.0, 30.0, 0.0)
    exif[0x0112] = 6
    made = Image.new(mode, size)
    made.paste({"RGB": (200, 90, 30), "RGBA": (200, 90, 30, 128), "CMYK": (0, 120, 200, 20), "L": 180}[mode], (size[0] // 2, 0, *size))
    to = BytesIO()
    made.save(to, kind, **({} if mode == "RGBA" else {"exif": exif}), **({"comment": b"of the cellar"} if kind == "JPEG" else {}), **how)
    return to.getvalue()


def opened(content: bytes) -> Image.Image:
    return Image.open(BytesIO(content))


def test_a_photo_is_scaled_upright_and_says_nothing_of_its_camera() -> None:
    whole = photo()
    assert opened(whole).getexif().get_ifd(0x8825) and opened(whole).info["comment"]
    made = photos.scaled(whole, 780)
    image = opened(made)
    assert (image.format, image.size) == ("JPEG", (780, 1040))
    assert not image.getexif() and not set(image.info) & {"exif", "comment", "xmp", "icc_profile", "photoshop"}
    assert b"camera" not in made and b"cellar" not in made
    top, bottom = image.getpixel((390, 100)), image.getpixel((390, 900))
    assert sum(top) < 30 and sum(bottom) > 200, "its left half lies on top once it is turned"


@pytest.mark.parametrize(("kind", "mode"), [("PNG", "RGB"), ("PNG", "RGBA"), ("PNG", "L"), ("WEBP", "RGB"), ("WEBP", "RGBA"), ("JPEG", "CMYK")])
def test_every_kind_of_photo_keeps_its_kind_and_its_transparency(kind: str, mode: str) -> None:
    image = opened(photos.scaled(photo(kind, (1000, 500), mode), 300))
    assert image.format == kind and not image.getexif()
    assert image.mode == {"CMYK": "RGB"}.get(mode, mode)
    assert image.width == 300


def test_the_same_photo_gives_the_same_bytes() -> None:
    assert photos.scaled(photo(), 780) == photos.scaled(photo(), 780)


def test_a_colour_profile_is_worked_into_the_colours_and_a_broken_one_is_left_aside() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    for one in (profile, b"no profile"):
        image = opened(photos.scaled(photo(size=(900, 600), icc_profile=one), 300))
        assert "icc_profile" not in image.info
        assert image.getpixel((100, 400)) == pytest.approx((200, 90, 30), abs=6)


@pytest.fixture
def shop(tmp_path: Path) -> tuple[Path, Mapping[str, Picture]]:
    files = {
        "a/large.jpg": photo(), "a/small.png": photo("PNG", (400, 300)), "broken.jpg": b"no photo", "tour.heic": b"where it was taken",
        "draw.svg": b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"/>', "bad.svg": b"<svg><script/></svg>", "price.pdf": b"a list",
    }  # fmt: skip
    for name, content in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(content)
    known = {name: picture(name, content, name) for name, content in files.items() if not name.endswith((".heic", ".pdf"))}
    return tmp_path, known


def test_what_is_published_of_the_files_of_a_shop(shop: tuple[Path, Mapping[str, Picture]], monkeypatch: pytest.MonkeyPatch) -> None:
    folder, known = shop
    names = [*known, "tour.heic", "price.pdf", "linked.jpg"]
    cache = folder / "cache"
    found = photos.published(names, known, folder, cache)
    assert {name for name, file in found.items() if file is None} == {"broken.jpg", "tour.heic", "bad.svg", "linked.jpg"}
    sizes = {name: Image.open(file).size for name, file in found.items() if file}
    assert sizes == {"a/large.jpg": (1640, 2187), "a/large.narrow.jpg": (780, 1040), "a/small.png": (300, 400)}
    monkeypatch.setattr(photos, "scaled", lambda *_: pytest.fail("it was scaled before"))
    (cache / "older.jpg").write_bytes(b"of another day")
    assert photos.published(names, known, folder, cache) == found
    assert set(cache.iterdir()) == {file for file in found.values() if file}


def test_a_page_shows_each_size_with_its_measures(shop: tuple[Path, Mapping[str, Picture]]) -> None:
    _, known = shop
    large = photos.shown("a/large.jpg", known, lambda place: f"../{place}")
    assert (large.src, large.width, large.height) == ("../a/large.jpg", 1640, 2187)
    assert large.sources == "../a/large.narrow.jpg 780w, ../a/large.jpg 1640w"
    drawing = photos.shown("draw it.svg", {"draw it.svg": known["draw.svg"]}, str)
    assert (drawing.src, drawing.sources, drawing.width) == ("draw%20it.svg", "", 9)
    assert photos.shown("broken.jpg", known, str) is photos.shown("lost.jpg", known, str) is None


def test_an_ordinary_page_gets_the_measures_of_the_pictures_that_it_has(shop: tuple[Path, Mapping[str, Picture]]) -> None:
    html = '<img alt="x" src="../a/sm%61ll.png" /> <img alt="y" src="no.png" /> <img src="../bad.svg">'
    made = photos.measured(html, "b/notes.md", shop[1], str)
    assert made == html.replace('ll.png"', 'll.png" width="300" height="400"')


SHOWN = Figure("The plug, pulled", "a/large.jpg", False, "Out of the wall", "1. plug\n2. wall", (), Span(1, 1, 1, 9), at=6)


def drawn(*figures: Figure, later: bool = True, code: str = "en") -> BeautifulSoup:
    links = Links(figures={"a/large.jpg": photos.shown("a/large.jpg", {"a/large.jpg": Picture(4000, 3000, None, "")}, str)})
    return BeautifulSoup(figure.text("First.\n\nThen.", figures, links, code, later), "html.parser")


def test_a_figure_stands_in_its_place_with_words_measures_and_its_list() -> None:
    soup = drawn(SHOWN)
    assert [one.name for one in soup.find_all(recursive=False)] == ["p", "figure", "ol", "p"]
    image = soup.img
    assert (image["alt"], image["width"], image["height"], image["loading"]) == ("The plug, pulled", "1640", "1230", "lazy")
    assert image["srcset"].endswith("1640w") and image["sizes"] == photos.SIZES
    assert soup.figcaption.a["href"] == "a/large.jpg" and "Out of the wall" in soup.figcaption.get_text()
    assert "loading" not in drawn(SHOWN, later=False).img.attrs
    assert "Größer" in drawn(SHOWN, code="de").figcaption.get_text()


def test_without_its_file_a_figure_is_its_words_and_without_figures_text_is_text() -> None:
    lost = drawn(Figure("The <b> plug", "b.svg", False, "", "", (), Span(1, 1, 1, 9)))
    assert lost.img is None and "The <b> plug" in lost.figure.get_text()
    assert str(drawn()) == "<p>First.</p>\n<p>Then.</p>"
