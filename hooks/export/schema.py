"""JSON Schema, draft 2020-12, of what is written in YAML, made from the tables that the parser reads by.

A schema knows keys and shapes, which is what an editor completes and marks; what hangs together between keys is the
check's. It takes all that the parser takes. Only keywords that mean the same in draft-07 are used, because
many editors read no newer one.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hooks.model import Kind
from hooks.parse import durations
from hooks.parse.fields import PAGE, READING, SHOP, front_matter_of
from hooks.parse.shapes import (
    Choice, Date, Duration, Either, Field, Keyed, Line, LineOr, Many, Name, Named, Number, Shape, Whole, YesNo,
)  # fmt: skip

Schema = dict[str, Any]
DRAFT = "https://json-schema.org/draft/2020-12/schema"
NAME = r"[^\s!-/:-@\[-`{-~][^\s!-,./:-@\[-^`{-~]*"
"""A `Name` in words that Python and ECMAScript understand alike: no ASCII sign but hyphen and underscore."""
NONE: Schema = {"const": "none"}


def front_matter() -> Schema:
    """The front matter of every kind of page; `page` says which keys there are."""
    kinds = [kind.value for kind in Kind]
    return {
        "$schema": DRAFT,
        "title": "Front matter of a page",
        "type": "object",
        "properties": {"page": {"description": _said("page"), "enum": kinds}},
        "required": ["page"],
        "allOf": [{"if": _is(kind), "then": of_kind(kind)} for kind in Kind],
    }


def of_kind(kind: Kind) -> Schema:
    """The front matter of one kind of page, with the keys that the parser or a rule asks it for."""
    made = _schema(front_matter_of(kind))
    made["properties"]["page"] = {"description": _said("page"), "const": kind.value}
    made["required"] = [row.name for row in PAGE if kind in (*row.must, *row.asked)]
    return made


def shop() -> Schema:
    """The shop facts."""
    return {"$schema": DRAFT, "title": "Shop facts", **_schema(SHOP)}


def reading() -> Schema:
    """What stands in a fenced block `reading`."""
    return {"$schema": DRAFT, "title": "A reading", **_schema(READING)}


def _said(key: str) -> str:
    return next(row.says for row in PAGE if row.name == key)


def _is(kind: Kind) -> Schema:
    return {"properties": {"page": {"const": kind.value}}, "required": ["page"]}


def _schema(shape: Shape) -> Schema:
    return _SCHEMAS[type(shape)](shape)


def _text(pattern: str) -> Schema:
    return {"type": "string", "pattern": rf"^\s*(?:{pattern})\s*$"}


def _many(shape: Many) -> Schema:
    size = {} if shape.empty else {"minItems": 1}
    if shape.exactly is not None:
        size = {"minItems": shape.exactly, "maxItems": shape.exactly}
    return {"anyOf": [{"type": "array", "items": _schema(shape.of), **size}, NONE]}


def _named(shape: Named) -> Schema:
    names = {"propertyNames": {"pattern": f"^(?:{NAME})$"}} if shape.words else {}
    made: Schema = {"type": "object", "additionalProperties": _schema(shape.of), **names}
    return {"anyOf": [made, NONE]} if shape.empty else {**made, "minProperties": 1}


def _keyed(shape: Keyed) -> Schema:
    made: Schema = {"type": "object", "properties": {f.name: _field(f) for f in shape.fields}, "additionalProperties": False}
    must = [field.name for field in shape.fields if field.must]
    return made | ({"required": must} if must else {})


def _field(field: Field) -> Schema:
    return {"description": field.says, **_schema(field.shape)}


_NUMBER = r"[-+]?[0-9]{1,15}(?:\.[0-9]{1,15})?(?:[eE][-+]?[0-9]{1,2})?"
_SCALAR: Schema = {"type": ["string", "number", "boolean"], "pattern": r"\S"}
_SCHEMAS: dict[type, Callable[[Any], Schema]] = {
    Line: lambda shape: _SCALAR,
    Name: lambda shape: {"type": ["string", "number", "boolean"], "pattern": rf"^\s*{NAME}\s*$"},
    Whole: lambda shape: {"anyOf": [{"type": "integer", "minimum": 1, "maximum": 999999}, _text("[1-9][0-9]{0,5}")]},
    Number: lambda shape: {"anyOf": [{"type": "number"}, _text(_NUMBER)]},
    YesNo: lambda shape: {"enum": [True, False, "true", "false"]},
    Date: lambda shape: {**_text("[0-9]{4}-[0-9]{2}-[0-9]{2}"), "format": "date"},
    Duration: lambda shape: _text(f"(?:{durations.PART.pattern})+"),
    Choice: lambda shape: {"enum": [str(word) for word in shape.words]},
    Many: _many,
    Named: _named,
    Either: lambda shape: {"anyOf": [_schema(shape.mapping), _schema(shape.listed)]},
    LineOr: lambda shape: {"anyOf": [_SCALAR, _schema(shape.keyed)]},
    Keyed: _keyed,
}
