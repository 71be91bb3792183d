"""YAML as editors read it: the core types of YAML 1.2, keys as text."""

from __future__ import annotations

import re
from typing import Any

import yaml

TYPES = (
    ("tag:yaml.org,2002:null", r"~|null|Null|NULL|", "~nN"),
    ("tag:yaml.org,2002:bool", r"true|True|TRUE|false|False|FALSE", "tTfF"),
    ("tag:yaml.org,2002:int", r"[-+]?[0-9]+", "-+0123456789"),
    ("tag:yaml.org,2002:float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", "-+.0123456789"),
)


class _Core(yaml.SafeLoader):
    yaml_implicit_resolvers: dict[str, list[Any]] = {}


for _tag, _pattern, _first in TYPES:
    _Core.add_implicit_resolver(_tag, re.compile(f"^(?:{_pattern})$"), [*_first, ""] if "null" in _tag else list(_first))
_Core.add_constructor("tag:yaml.org,2002:int", lambda loader, node: int(loader.construct_scalar(node)))


def load(text: str) -> Any:
    """What the text holds. Raises yaml.YAMLError where it is no YAML."""
    return _keyed(yaml.load(text, _Core))


def _keyed(node: Any) -> Any:
    if isinstance(node, dict):
        return {str(key): _keyed(value) for key, value in node.items()}
    return [_keyed(item) for item in node] if isinstance(node, list) else node
