"""The theme: what any shop's site needs of MkDocs, so that its own file stays short.

Nothing is fetched from elsewhere, and the policy on every page lets nothing else be.
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
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:;"
    " font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; object-src 'none';"
    " base-uri 'none'; form-action 'none'"
)
"""The Content-Security-Policy of every page; docs/publishing.md has it as a server's header."""
PREVIEW_POLICY = POLICY.replace("'wasm-unsafe-eval'", "'wasm-unsafe-eval' 'unsafe-inline'")
"""That of the writer's preview, into which MkDocs writes the script that reloads it."""


def settings() -> dict[str, Any]:
    """What MkDocs has to know of the theme."""
    return {"name": None, "custom_dir": str(FOLDER), "static_templates": ["404.html"]}


def words(shop: Shop, runtime: str = "", preview: bool = False) -> dict[str, str]:
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
        "policy": PREVIEW_POLICY if preview else POLICY,
    }
