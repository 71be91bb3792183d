"""What `english` and `customer_hard_words` look for in an English text, for customers' pages in German.

The words are chosen on our own pages; common practice, no source. A list can miss a word: that a
translation asks nothing else than its original, `translation_astray` holds step by step.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from readability.langdata import LANGDATA

TOO_MUCH = re.compile(
    r"\b((?:ab|auf|los|ein|fest|an)?(?:ge)?schraub\w*|(?:ab|aus|de)montier\w*|(?:ab|aus)gebaut\w*|zerleg\w*|abgeklemmt\w*"
    r"|entfern(?:en|t|te)\b|(?:abge|herausge)(?:nommen|zogen)|überbrück\w*|(?:auf|an)bohren|löten|Schraubendreher\w*|Zange\b|Messgerät\w*"
    r"|(?:nehmen|ziehen|bauen|heben|klemmen|hängen|reißen) Sie (?:[\w-]+ ){0,5}(?:ab|aus|heraus|auseinander|los)\b"
    r"|(?:lösen|lockern|reinigen|spülen|messen|wechseln|tauschen) Sie (?:[\w-]+ ){0,3}(?:Schläuche|Schlauch|Sieb\w*|Filter\w*|Ventil\w*|Kabel\w*"
    r"|Stecker\w*|Schraub\w*|Klemm\w*|Pumpe\w*)"
    r"|(?:rücken|schieben|kippen|rollen|verrücken|bewegen) Sie (?:[\w-]+ ){0,2}(?:Maschine|Gerät|Schrank|Spülmaschine|Waschmaschine|Kühlschrank)"
    r"|greifen Sie (?:[\w-]+ ){0,3}(?:in|hinter|unter|hinein)\b"
    r"|öffnen Sie (?:[\w-]+ ){0,3}(?:Abdeckung|Verkleidung|Rückwand|Gehäuse|Klappe|Blende))\b",
    re.IGNORECASE,
)
FORBIDS = re.compile(r"[^,.!?;:\n]*\b(nicht|nie|niemals|keine?[mnrs]?|ohne|niemand)\b[^,.!?;:\n]*", re.IGNORECASE)
"""A German clause that forbids does so before or after its verb."""
LINK = re.compile(r"\[[^\]]*\]\([^)]*\)")


def asks_too_much(text: str) -> str:
    """The first words that ask a customer for more than looking and pressing; empty where none do."""
    found = TOO_MUCH.search(FORBIDS.sub("", LINK.sub("", text)))
    return found[0].lower() if found else ""


def grade(sentences: Iterable[str]) -> float:
    """The school grade that sentences need, words parted by spaces.

    The fourth Wiener Sachtextformel (R. Bamberger, E. Vanecek, "Lesen, Verstehen, Lernen, Schreiben", 1984).

    >>> grade(["Rufen Sie uns an"])  # four words, none of three syllables: 0.2656 * 4 - 1.693
    -0.6306
    """
    lines = [sentence.split() for sentence in sentences]
    words = [word for line in lines for word in line]
    long_words = sum(syllables(word) > 2 for word in words)
    return 0.2744 * 100 * long_words / len(words) + 0.2656 * len(words) / len(lines) - 1.693


@lru_cache(maxsize=4096)
def syllables(word: str) -> int:
    """How many a German word has, as it is spoken.

    >>> [syllables(word) for word in ("Eis", "Wasser", "Behälter", "Temperatur")]
    [1, 2, 3, 4]
    """
    return int(LANGDATA["de"]["syllables"](word.lower()))
