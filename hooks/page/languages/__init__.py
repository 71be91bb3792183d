"""The words on customers' screens: one file a language, `en.yml` and its translations, with the same keys."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from hooks.model import LANGUAGES, ORIGINAL

FOLDER = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Language:
    """What the site itself says in one language."""

    code: str
    """As in the attribute `lang`: "en", "de"."""
    texts: Mapping[str, Any]

    @property
    def name(self) -> str:
        """What its readers call it."""
        return str(self.texts["language"])

    def __call__(self, key: str, **facts: object) -> str:
        """The text under `key` with the facts put in; raises KeyError where one is missing."""
        return str(self.texts[key]).format(**facts)

    def of(self, key: str, word: str) -> str:
        """One word of a list by name: of("ends", "solved"); the word itself where the list has it not."""
        return str(self.texts[key].get(word, word))

    def count(self, number: int) -> str:
        """A small number in words."""
        words = self.texts["count"]
        return str(words[number]) if number < len(words) else str(number)


@cache
def language(code: str = ORIGINAL) -> Language:
    """The words of one language; the original's for one that has no file here."""
    known = code if code in LANGUAGES else ORIGINAL
    return Language(known, yaml.safe_load((FOLDER / f"{known}.yml").read_text("utf-8")))


def script() -> str:
    """A script that gives the other scripts their words, in the language of the page."""
    words = {code: language(code).texts["scripts"] for code in LANGUAGES}
    known = json.dumps(words, ensure_ascii=False, separators=(",", ":"))
    chosen = f"(({{ lang }}, known) => known[lang] ?? known.{ORIGINAL})(document.documentElement, {known})"
    return f"(window.stillbench ??= {{}}).words = {chosen};\n"
