"""Findings with their files named from the root of the repository, as code hosts know them."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from hooks.diagnostics import Finding
from hooks.source import Place


def below_root(here: Path) -> str:
    """The way from the repository's root down to `here`; empty where there is no repository."""
    root = next((p for p in (here, *here.parents) if (p / ".git").exists()), here)
    return here.relative_to(root).as_posix()


def rooted(findings: tuple[Finding, ...], below: str) -> Iterator[Finding]:
    """The findings of a run in the folder `below` the root."""

    def named(file: str) -> str:
        return posixpath.normpath(posixpath.join(below, file))

    def used(places: tuple[Place, ...]) -> tuple[Place, ...]:
        return tuple(place._replace(file=named(place.file)) for place in places)

    for one in findings:
        path = tuple(replace(step, file=named(step.file), used=used(step.used)) for step in one.path)
        yield replace(one, file=named(one.file), used=used(one.used), path=path)
