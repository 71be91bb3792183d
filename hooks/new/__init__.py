"""New files for writers and developers: templates filled in and laid down, never over anything.

A folder of `templates` is one kind of thing that can be made; each file in it is one file that is made, at the same
path. In a path `NAME` stands for the name given, `MODULE` for the same as Python writes it, `dot-` for a point.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

HERE = Path(__file__).parent / "templates"
PARTS = HERE.parent / "parts"
"""What several templates have in common."""
KINDS = tuple(sorted(folder.name for folder in HERE.iterdir()))
_TEMPLATES = Environment(
    loader=FileSystemLoader((HERE, PARTS)),
    block_start_string="<%",
    block_end_string="%>",
    variable_start_string="<<",
    variable_end_string=">>",
    comment_start_string="<#",
    comment_end_string="#>",
    trim_blocks=True,
    undefined=StrictUndefined,
    keep_trailing_newline=True,
)


class CannotMake(Exception):
    """What was asked for is not made; the text says why and what to do instead."""


def filled(kind: str, name: str, **values: object) -> dict[str, str]:
    """The files of one kind of thing: path and text."""
    made = {}
    for file in sorted((HERE / kind).rglob("*.jinja")):
        path = file.relative_to(HERE / kind).as_posix().removesuffix(".jinja")
        path = path.replace("NAME", name).replace("MODULE", name.replace("-", "_")).replace("dot-", ".")
        made[path] = _TEMPLATES.get_template(file.relative_to(HERE).as_posix()).render(name=name, **values)
    return made


def lay(folder: Path, files: Mapping[str, str]) -> tuple[Path, ...]:
    """Write the files into the folder. Raises CannotMake, and writes none, where one of them is there already."""
    paths = {folder / path: text for path, text in files.items()}
    for path in paths:
        if path.exists() or path.is_symlink():
            raise CannotMake(f"{path} is there already, and nothing is written over it; take another name")
    try:
        for path, text in paths.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("x", encoding="utf-8", newline="\n") as file:
                file.write(text)
    except OSError as error:
        raise CannotMake(f"{path} cannot be written: {error.strerror}") from error
    return tuple(paths)
