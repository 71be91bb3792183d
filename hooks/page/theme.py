"""The theme: what any shop's site needs of MkDocs, so that its own file stays short.

Nothing is fetched from elsewhere, and the policy on every page lets nothing else be.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from posixpath import dirname
from typing import Any

from jinja2 import Environment, pass_context
from jinja2.runtime import Context
from markupsafe import Markup

from hooks.model import Kind, Shop

FOLDER = Path(__file__).parent / "theme"
STYLES, SCRIPT = "assets/stillbench/stillbench.css", "assets/stillbench/stillbench.js"
JOBS_STYLES, JOBS_SCRIPT = "assets/stillbench/jobs.css", "assets/stillbench/jobs.js"
"""Where the joined styles and scripts lie, and those of the pages about jobs alone; in the site their names have
a digest at the end."""
KEEPER = "sw.js"
"""The service worker's place in a site; a preview has none, since a writer looks at what is and not at what was."""
MANIFEST = "manifest.webmanifest"
JOB_SCHEMA = FOLDER / "assets/stillbench/job-1.schema.json"
"""What a saved job looks like; it lies in every site, and the site's script has it too."""
PAPER = "#f1f4f1"
"""The ground of light pages, as in the block `tokens`."""
SHORT = 12
"""So many letters stand under an icon."""
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


def words(shop: Shop, runtime: str = "", preview: bool = False, lists: Mapping[str, str] | None = None) -> dict[str, Any]:
    """What the frame of every page says of the shop; templates read it as `config.extra.stillbench`.

    `runtime` is the site's folder with the calculators' Python, where it has one; `lists` has where customers' pages
    are listed in each language but the original.
    """
    return {
        "name": shop.name,
        "phone": shop.phone,
        "hours": shop.hours,
        "about": shop.about,
        "limits": LIMITS,
        "runtime": runtime,
        "lists": dict(lists or {}),
        "policy": PREVIEW_POLICY if preview else POLICY,
        "keeper": "" if preview else KEEPER,
    }


def assets(paths: Iterable[str]) -> dict[str, str]:
    """Which of these files are styles and scripts of pages, for the frame."""
    found = list(paths)
    kinds = {"styles": STYLES, "script": SCRIPT, "jobs_styles": JOBS_STYLES, "jobs_script": JOBS_SCRIPT}
    return {kind: next(p for p in found if _is(p, plain)) for kind, plain in kinds.items()}


def manifest(shop: Shop) -> bytes:
    """What a device has to know to put the site among its programs."""
    icons = [("icon-192", 192, "any"), ("icon-512", 512, "any"), ("icon-maskable-512", 512, "maskable")]
    told = {
        "name": shop.name,
        "short_name": _short(shop.name),
        "start_url": "index.html",
        "scope": "./",
        "display": "standalone",
        "display_override": ["minimal-ui"],
        "background_color": PAPER,
        "theme_color": PAPER,
        "icons": [
            {"src": f"assets/stillbench/{name}.png", "sizes": f"{size}x{size}", "type": "image/png", "purpose": purpose}
            for name, size, purpose in icons
        ],
    }
    return json.dumps(told, ensure_ascii=False, indent=1).encode()


def _is(path: str, plain: str) -> bool:
    stem, _, ending = plain.rpartition(".")
    return path.startswith(f"{stem}-") and path.endswith(f".{ending}")


def _short(name: str) -> str:
    """The first words of a name, as many as fit under an icon."""
    words = name.split()
    while len(words) > 1 and len(" ".join(words)) > SHORT:
        words.pop()
    return " ".join(words)[:SHORT]


def parts(env: Environment) -> Callable[..., Markup]:
    """What draws a part of a page's frame, by its name in `partials/`.

    Procedures of one folder and one machine have the same head and foot: they are drawn once.
    """
    drawn: dict[tuple[str, str, str], Markup] = {}

    @pass_context
    def part(context: Context, name: str) -> Markup:
        page = context.get("page")
        known = page and page.meta.get("page") == Kind.PROCEDURE.value
        key = (name, dirname(page.url), page.meta["machine"]) if known else None
        if key in drawn:
            return drawn[key]
        made = Markup(env.get_template(f"partials/{name}.html").render(context.get_all()))
        return drawn.setdefault(key, made) if key else made

    return part
