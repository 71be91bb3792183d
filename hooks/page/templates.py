"""The templates of the blocks: Jinja with everything escaped."""

from __future__ import annotations

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from hooks.page import markdown, words

BLOCKS = Path(__file__).parent / "blocks"

ENVIRONMENT = Environment(
    loader=FileSystemLoader(BLOCKS),
    autoescape=True,
    trim_blocks=True,
    lstrip_blocks=True,
    undefined=StrictUndefined,
    auto_reload=False,
)
ENVIRONMENT.filters["markdown"] = markdown.render
ENVIRONMENT.filters["energy"] = words.name
ENVIRONMENT.globals["words"] = words


def draw(template: str, **context: object) -> Markup:
    """Fill a template; its name is its path below the blocks' folder."""
    return Markup(ENVIRONMENT.get_template(template).render(**context))
