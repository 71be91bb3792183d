"""The findings that parsing makes, each by the name of the module that makes it."""

from __future__ import annotations

from inspect import cleandoc

from hooks.parse import (
    front_matter,
    page_text,
    reading_incomplete,
    shared_page,
    shop_facts,
    step_body,
    step_line,
)
from hooks.parse.notes import rule_of

MODULES = {
    rule_of(module.__name__): module
    for module in (front_matter, page_text, reading_incomplete, shared_page, shop_facts, step_body, step_line)
}
RULES = {name: cleandoc(module.__doc__ or "") for name, module in MODULES.items()}
"""Name and text: a summary, then `Why:`, `Example reported:`, `Example mended:`."""
