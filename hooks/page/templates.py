"""The templates of the blocks: Jinja with everything escaped."""

from __future__ import annotations

import os
import re
from collections.abc import MutableMapping
from contextlib import suppress
from functools import cache
from pathlib import Path
from shutil import rmtree
from typing import Any

from jinja2 import Environment, FileSystemBytecodeCache, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup, escape

from hooks.kept import ROOT, generator
from hooks.page import markdown, words

BLOCKS = Path(__file__).parent / "blocks"
COMPILED = ROOT / ".cache/templates"
SPECIAL = re.compile("[&<>'\"]").search


def _escaped(value: object) -> str:
    """As `markupsafe.escape` has it, but text that needs no escaping stays what it is: it is joined at once."""
    kind = type(value)
    if kind is Markup or (kind is str and not SPECIAL(value)):
        return value
    return str(value) if kind is int else escape(value)


class _Block(Template):
    @classmethod
    def from_code(cls, *given: Any, **more: Any) -> Template:
        made = super().from_code(*given, **more)
        made.root_render_func.__globals__["escape"] = _escaped
        return made


class _Blocks(Environment):
    """Blocks are small and include each other, so what Jinja does around each counts."""

    template_class = _Block
    getattr = staticmethod(getattr)  # what a template names is an attribute: nothing else is tried

    def make_globals(self, d: MutableMapping[str, Any] | None) -> MutableMapping[str, Any]:
        """In one dictionary: every include copies all of them."""
        return {**self.globals, **(d or {})}

    @cache
    def get_template(self, name: str, parent: str | None = None, globals: None = None) -> Template:
        """Found once by each block that includes it: nothing of it changes while this runs."""
        return super().get_template(name, parent, globals)


def _compiled(place: Path) -> FileSystemBytecodeCache | None:
    """What Jinja made of the templates of just this generator, kept in `place`; None where it cannot be kept."""
    folder = place / generator()
    if not folder.is_dir():
        rmtree(place, ignore_errors=True)  # of a generator that is no more
        with suppress(OSError):
            folder.mkdir(parents=True)
    return FileSystemBytecodeCache(str(folder)) if os.access(folder, os.W_OK) else None


ENVIRONMENT = _Blocks(
    loader=FileSystemLoader(BLOCKS),
    autoescape=True,
    trim_blocks=True,
    lstrip_blocks=True,
    undefined=StrictUndefined,
    auto_reload=False,
    cache_size=-1,
    bytecode_cache=_compiled(COMPILED),
)
ENVIRONMENT.filters["markdown"] = markdown.render
ENVIRONMENT.filters["energy"] = words.name
ENVIRONMENT.globals["words"] = words


def draw(template: str, **context: object) -> Markup:
    """Fill a template; its name is its path below the blocks' folder."""
    return Markup(fill(template, **context))


def fill(template: str, **context: object) -> str:
    """The same for what goes into no other template."""
    return ENVIRONMENT.get_template(template).render(**context)
