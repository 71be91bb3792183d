"""A customer's page has a question that is hard to read.

Why:
    The reader may be tired, in a hurry, or reading in a foreign language. The school grade
    that a text needs is estimated from the length of its sentences and words (the
    Flesch-Kincaid grade; J. P. Kincaid and others, 1975). The shop sets the highest in
    `reading-grade`; 6 unless said, which is plain English. An estimate cannot see
    whether a text is clear: read it aloud as well. A formula holds for one language: German
    is measured by one of its own (see `german.grade`).

Example reported:
    ### Does the refrigeration appliance exhibit inadequate temperature regulation? {#cold decide}
    Determine whether the temperature indication has deteriorated considerably since installation.

Example mended:
    ### Is the fridge too warm? {#cold decide}
    Look at the number on the door. Is it higher than it was last week?
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache, partial

from readability import KincaidGradeLevel
from readability.langdata import LANGDATA

from hooks.check import german
from hooks.check.customers import read
from hooks.check.found import Found
from hooks.diagnostics import Level
from hooks.model import LANGUAGES, ORIGINAL, Kind, Page
from hooks.parse.result import ParsedShop

LEVELS = (Level.WARNING,)

FEWEST = 15
"""So many words are needed before a grade means anything."""
SHOWN = 80
SENTENCE = re.compile(r"(?<=[.!?:;])\s+")
WORD = re.compile(r"[^\W_]+(?:[’'-][^\W_]+)*")


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """One finding a question; the words before the first one count as one."""
    if page.kind is not Kind.SELF_CHECK or page.language not in LANGUAGES:
        return
    for step, texts in read(page):
        sentences = [" ".join(words) for text in texts for words in map(WORD.findall, SENTENCE.split(text)) if words]
        needed = grade(sentences, page.language)
        if needed > shop.shop.reading_grade:
            yield Found(
                step.span if step else page.span,
                f'"{step.title if step else page.title}" needs about school grade {needed:.0f} to read;'
                f" the shop's most is {shop.shop.reading_grade}",
                f'Shorter sentences, shorter words. The hardest begins "{_short(max(sentences, key=partial(_weight, page.language)))}".',
                step,
                level=Level.WARNING,
            )


def grade(sentences: Iterable[str], language: str = ORIGINAL) -> float:
    """The school grade that sentences need, words parted by spaces; 0 where there are too few words."""
    lines = tuple(sentences)
    words = sum(line.count(" ") + 1 for line in lines)
    if words < FEWEST:
        return 0.0
    if language == "de":
        return german.grade(lines)
    return float(KincaidGradeLevel(sum(_weight(language, line) for line in lines), words, len(lines)))


def _weight(language: str, sentence: str) -> int:
    return sum(map(german.syllables if language == "de" else _syllables, sentence.split()))


@lru_cache(maxsize=4096)
def _syllables(word: str) -> int:
    return int(LANGDATA["en"]["syllables"](word))


def _short(sentence: str) -> str:
    return sentence if len(sentence) <= SHOWN else f"{sentence[:SHOWN].rsplit(' ', 1)[0]} …"
