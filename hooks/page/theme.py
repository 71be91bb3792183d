"""The theme: what any shop's site needs of MkDocs and Material, so that its own file stays short.

Nothing is fetched from elsewhere: the typeface lies in the site, Material's own is off.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from hooks.model import Shop

FOLDER = Path(__file__).parent / "theme"
LIMITS = (
    "Stillbench proves that the words on a page agree with each other. It does not prove that a"
    " machine is safe: you do, with your own tester, each time. Local codes, the maker's sheet and"
    " licensed trades come before anything written here."
)


def settings() -> dict[str, Any]:
    """The theme's settings, as they would stand under `theme:`."""
    return {
        "name": "material",
        "custom_dir": str(FOLDER),
        "language": "en",
        "font": False,
        "favicon": "assets/stillbench/mark.svg",
        "features": [],
        "palette": [
            _palette("light", "default", "Dark"),
            _palette("dark", "slate", "Light"),
        ],
    }


def words(shop: Shop, runtime: str = "") -> dict[str, str]:
    """What the frame of every page says of the shop; templates read it as `config.extra.stillbench`.

    `runtime` is the site's folder with the calculators' Python, where it has one.
    """
    return {
        "name": shop.name,
        "phone": shop.phone,
        "hours": shop.hours,
        "about": shop.about,
        "limits": LIMITS,
        "runtime": runtime,
    }


def _palette(prefers: str, scheme: str, toggle: str) -> dict[str, Any]:
    return {
        "media": f"(prefers-color-scheme: {prefers})",
        "scheme": scheme,
        "primary": "custom",
        "accent": "custom",
        "toggle": {"name": toggle, "icon": "material/brightness-6"},
    }
