"""The shop's pictures: what each shows, and whether it can be shown at all."""

from __future__ import annotations

import warnings
from io import BytesIO
from posixpath import splitext

from PIL import Image

from hooks.model import Picture
from hooks.parse.drawing import Unfit, drawing

PHOTOS = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG", ".webp": "WEBP"}
DRAWINGS = (".svg",)
SHOWN = (*PHOTOS, *DRAWINGS)
"""The endings of pictures that every browser shows."""
HEAVIEST = {".svg": 200_000}
"""Bytes of a drawing; it goes to every device as it is."""
HEAVY = 40_000_000
"""Bytes of a photo: more is none of a phone."""
PIXELS = 120_000_000
TURNED = (5, 6, 7, 8)
"""The orientations of a photo that lies on its side."""
ORIENTATION = 0x0112


def picture(name: str, content: bytes, digest: str) -> Picture:
    """What a file shows."""
    ending = splitext(name)[1].lower()
    try:
        if len(content) > (most := HEAVIEST.get(ending, HEAVY)):
            raise Unfit(f"it has {len(content) / 1e6:.1f} MB", f"Save it with less in it: at most {most / 1e6:g} MB.")
        if ending in DRAWINGS:
            return Picture(*drawing(content), digest)
        return Picture(*_photo(ending, content), None, digest)
    except Unfit as error:
        return Picture(0, 0, None if ending in PHOTOS else (), digest, *error.args)


def _photo(ending: str, content: bytes) -> tuple[int, int]:
    """Width and height; read to its last line, so that none is found broken when it is scaled."""
    again = "Save it again as JPEG, PNG or WebP."
    try:
        with warnings.catch_warnings(), Image.open(BytesIO(content), formats=tuple(set(PHOTOS.values()))) as image:
            warnings.simplefilter("ignore")
            if image.format != PHOTOS[ending]:
                raise Unfit(f"it is a picture of kind {image.format}", "Let its name end as its kind says.")
            if image.width * image.height > PIXELS:
                raise Unfit(f"it is {image.width} px wide and {image.height} px high", "Make it smaller.")
            if getattr(image, "is_animated", False):
                raise Unfit("it moves", "Save one picture of it.")
            turned = image.getexif().get(ORIENTATION) in TURNED
            size = (image.height, image.width) if turned else image.size
            image.draft("RGB", (400, 400))
            image.load()
            return size
    except Unfit:
        raise
    except Exception as error:  # a broken file fails in as many ways as there are kinds of picture
        raise Unfit("it cannot be read as a picture", again) from error
