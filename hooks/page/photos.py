"""The shop's pictures as they are published: photos scaled to the reader's screen and without what a camera wrote into them.

A photo lies at its own place, as wide as a tablet shows it at most, and beside it one for phones. The same photo
gives the same bytes, so what was scaled before is taken from the cache.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from html import escape, unescape
from io import BytesIO
from pathlib import Path, PurePosixPath
from posixpath import dirname, join, normpath
from urllib.parse import quote, unquote

import PIL
from PIL import Image, ImageCms, ImageOps

from hooks.kept import digest
from hooks.model import Picture
from hooks.page.view import Shown
from hooks.parse.pictures import PHOTOS, SHOWN

WIDE = 1640
"""Pixels of a tablet, 820 of them at twice the density."""
NARROW = 780
"""Pixels of a phone, 390 of them at twice the density."""
SIZES = "(max-width: 599px) 100vw, 480px"
"""How wide a figure is drawn; `figure.css` says the same."""
HOW = {
    "JPEG": {"quality": 82, "optimize": True, "progressive": True},
    "PNG": {"optimize": True},
    "WEBP": {"quality": 82, "method": 4},
}
NEVER = (".heic", ".heif", ".avif", ".tif", ".tiff", ".gif", ".bmp", ".dng")
"""Pictures that no page shows, and that may say where they were taken: a site has none of them."""
_IMAGE = re.compile(r'<img [^>]*?src="(?P<src>[^"]*)"')
_HERE = Path(__file__).read_bytes()


def sizes(path: str, picture: Picture) -> Iterator[tuple[str, int]]:
    """Where each size of a photo lies, and its width in pixels, the widest first."""
    yield path, min(picture.width, WIDE)
    if picture.width > NARROW:
        place = PurePosixPath(path)
        yield place.with_name(f"{place.stem}.narrow{place.suffix}").as_posix(), NARROW


def shown(path: str, pictures: Mapping[str, Picture], to: Callable[[str], str]) -> Shown | None:
    """A picture as a page shows it, None where it cannot; `to` leads from the page to an address."""
    picture = pictures.get(path)
    if picture is None or picture.fault:
        return None
    each = list(sizes(path, picture)) if picture.photo else [(path, picture.width)]
    width = each[0][1]
    sources = ", ".join(f"{quote(to(place))} {pixels}w" for place, pixels in reversed(each)) if len(each) > 1 else ""
    return Shown(quote(to(path)), sources, width, round(picture.height * width / picture.width))


def measured(html: str, page: str, pictures: Mapping[str, Picture], to: Callable[[str], str]) -> str:
    """The HTML of the ordinary page at `page`, its pictures with their sizes, so that nothing moves when they come."""

    def one(tag: re.Match[str]) -> str:
        known = shown(normpath(join(dirname(page), unquote(unescape(tag["src"])))), pictures, to)
        sources = f' srcset="{escape(known.sources)}" sizes="{SIZES}"' if known and known.sources else ""
        return f'{tag[0]}{sources} width="{known.width}" height="{known.height}"' if known else tag[0]

    return _IMAGE.sub(one, html)


def published(names: Iterable[str], pictures: Mapping[str, Picture], folder: Path, cache: Path) -> dict[str, Path | None]:
    """For the pictures among the files of `folder`: the file that is published at each address, None where none is.

    A drawing is published as it is, so it is not named here.
    """
    found: dict[str, Path | None] = {}
    for name in names:
        ending = PurePosixPath(name).suffix.lower()
        picture = pictures.get(name)
        if ending in NEVER or ending in SHOWN and (picture is None or picture.fault):
            found[name] = None
        elif picture and picture.photo:
            found |= {address: _scaled(folder / name, picture, width, cache) for address, width in sizes(name, picture)}
    _tidy(cache, {file for file in found.values() if file})
    return found


def _scaled(file: Path, picture: Picture, width: int, cache: Path) -> Path:
    """A photo in that width, from the cache where it is there."""
    made = cache / f"{digest(picture.digest, str(width), PIL.__version__, _HERE)}{file.suffix.lower()}"
    if not made.is_file():
        cache.mkdir(parents=True, exist_ok=True)
        half = made.with_name(f"{made.name}.half")
        half.write_bytes(scaled(file.read_bytes(), width))
        half.replace(made)
    return made


def _tidy(cache: Path, wanted: set[Path]) -> None:
    for file in cache.glob("*.*"):
        if file not in wanted:
            file.unlink()


def scaled(content: bytes, width: int) -> bytes:
    """A photo in that width, upright, in the colours of a screen; nothing that a camera wrote beside it comes along."""
    with Image.open(BytesIO(content), formats=tuple(set(PHOTOS.values()))) as image:
        kind = image.format or ""
        image.draft("RGB", (2 * width, 2 * width))
        upright = _coloured(ImageOps.exif_transpose(image))
        size = (width, max(1, round(upright.height * width / upright.width)))
        made = upright if upright.size == size else upright.resize(size, Image.Resampling.LANCZOS)
        made.info = {}
        to = BytesIO()
        made.save(to, kind, **HOW[kind])
        return to.getvalue()


def _coloured(image: Image.Image) -> Image.Image:
    """The image in the colours that screens take a picture to have, with its transparency."""
    if image.has_transparency_data:
        return image.convert("RGBA")
    profile = image.info.get("icc_profile")
    if profile and image.mode in ("RGB", "CMYK"):
        try:
            screen = ImageCms.createProfile("sRGB")
            return ImageCms.profileToProfile(image, ImageCms.ImageCmsProfile(BytesIO(profile)), screen, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError):
            pass
    return image if image.mode in ("RGB", "L") else image.convert("RGB")
