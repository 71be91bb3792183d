"""The words that rules look for in a text, in one place.

They are plain English, chosen on published and on invented procedures; common practice, no source. A
list can miss a word, so what hangs on one alone is a warning, but where a customer or a power supply
is concerned.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache

HANDS = re.compile(
    r"\b(unscrew\w*|unbolt\w*|undo(?:ing)?|dismantl\w*|disassembl\w*|disconnect\w*|unplug the wire\w*"
    r"|remov(?:e|es|ing)|detach\w*|pry\w*|drill\w*|solder\w*"
    r"|(?:take|takes|taking|pull|pulls|pulling|lift|lifts|lifting) (?:\w+ ){0,3}(?:off|out|apart)"
    r"|reach (?:in|into|inside|behind)"
    r"|open (?:up )?the (?:\w+ )?(?:panel|cover|case|casing|housing|back)"
    r"|loosen\w*|tighten\w*)\b",
    re.IGNORECASE,
)
"""What asks for hands on the machine."""
_THE = r"(?:it|them|(?:the|its|your|this|that|one|a|an)\b)"
TOO_MUCH = re.compile(
    rf"\b((?:unclip|unhook|unlatch|unfasten|unseal|unwire|rewire|bypass|jumper|prise|scrape|chip|poke|descale|siphon)(?:s|ing|p?ed|d)?"
    rf"|(?:remov|dismantl|disconnect|detach|loosen|tighten|unscrew)ed"
    rf"|(?:took|taken|pulled|lifted|screwed) (?:\w+ ){{0,3}}(?:off|out|apart)"
    rf"|(?:replace|swap|clean|rinse|flush|unblock|measure|probe|tap|hit|bend|cut|strip|tape|seal|oil|grease|drain)(?:d|ed|s|ing)? {_THE}"
    rf"(?: \w+){{0,2}} ?(?:screens?|strainers?|filters?|pumps?|inlets?|valves?|hoses?|tubes?|wires?|cables?|fuses?|coils?|sensors?|switch(?:es)?"
    rf"|tanks?|drains?|parts?|boards?|terminals?|fins?|seals?)"
    rf"|(?:move|moved|slide|slid|drag|push|pull|tip|tilt|lean|lift|roll|shift)(?:s|d|ed|ing)? {_THE}"
    rf"(?: \w+)? ?(?:machine|cabinet|cooler|washer|dishwasher|fridge|refrigerator|freezer|appliance|forward|away|out from)"
    rf"|(?:use|with|take|fetch|get) (?:a|an|the|your) (?:\w+ )?(?:screwdriver|spanner|wrench|pliers|knife|hammer|multimeter|meter|tester|drill)"
    rf"|put (?:your )?(?:hand|fingers?|arm) (?:in|into|inside|behind|under)|stick (?:\w+ ){{0,3}}(?:in|into|inside)"
    rf"|climb|crawl|kneel in|stand on)\b",
    re.IGNORECASE,
)
"""What else a customer is not asked to do: tools, weights, parts that want cleaning, reaching in."""
FORBIDS = re.compile(r"\b(do not|don't|never|without)\b[^.!?;\n]*", re.IGNORECASE)
LINK = re.compile(r"\[[^\]]*\]\([^)]*\)")
CLEAR_VERBS = frozenset(
    "add adjust align apply ask attach avoid bend bleed block blow bolt bring build bypass calibrate call carry chock coil catch choose "
    "clip collect compare connect cool count cover crimp crush deburr defrost descale detach disconnect discharge do drain draw "
    "dry dust empty ensure enter exit feel fetch fill find fit fix fold follow free get give glue go grease hang hear heat hold "
    "insert inspect install isolate jack join keep know lay lead learn leave let lift listen load locate look loosen lower make "
    "measure mend mount move note oil open pack pick place pour press prime prise prepare prove pull purge push put raise read reassemble "
    "reconnect record recover reduce refill refit refuse relieve remove renew repair repeat replace report reset restore "
    "reseat return rinse roll rotate route rub run say screw scrape see select send set shake show shut slacken slide smell soak solder splice squeeze stand start steam step "
    "stick stir straighten swab swing take tap tell tension thaw think tie tighten tip touch trace try tuck turn twist undo unclip "
    "unhook unlock unplug unscrew untag unwrap use vent verify wait wash watch wear weigh wipe wrap write zero".split()
)
"""How a command begins."""
NOUNS_TOO = frozenset(
    "bag bin book brush cap change charge check clamp clean clear close cut end file film finish flush guard hand help hook "
    "label level light lock map mark mask mind order pair peel photograph photo pin plug power protect pump question ring "
    "rest sand scan seal search service sign slot sort split spray spread stop strip support swap switch tag tape test "
    "tidy time top torque trim vacuum warm work".split()
)
"""Words that begin a command, or are the thing itself."""
POINTING = frozenset(
    "a an the it its this that these those both all each every any one two three four his her your their them "
    "off on out in up down back over for to with at into from nobody nothing everyone everything again".split()
)
"""What follows a verb and seldom a noun at the head of a title."""
ACTED_ON = frozenset("the both each every your it up out down away through".split())
NO_VERBS = POINTING | frozenset(
    "is are was were be has have had does did can could may must should will would if when while before after until because "
    "behind under over above below inside outside beside between near on by of as and or but where what which who".split()
)
SO = frozenset("is are was were has have had can".split())
"""How a sentence goes on that says what is so."""
PEOPLE = re.compile(r"^(?:two|three|four) (?:people|persons),? ")
HOW = frozenset("please now then carefully slowly gently quickly firmly first next".split())
"""What may stand before the verb of a command."""
AVOID = re.compile(
    r"\b(keep\w*|prove\w*|cut|wear|touch|do not|don't|never|nobody|no one|stay|hold|wait|let|leave|unplug|pull|shut|turn|switch"
    r"|close|isolate|drain|cool|release|stand|feel|mind|check|look|call|ring|use|put|take|lift|work only|stop|vent|avoid|hands (?:off|out|away)"
    r"|disconnect|lock|tag|cover|ask|open|read|test|make sure|lower|support|block|move|go|get)\b",
    re.IGNORECASE,
)
"""How a message says what keeps one from harm."""
IN_SIGHT = re.compile(
    r"\b(sight|see|watch|in (?:your |the |one )?hands?|hand on it|pocket|with you|cover\w*|caps?|lock\w*|padlock\w*|tag\w*)\b",
    re.IGNORECASE,
)
"""How a text says that nobody else puts a plug back."""
LOCKED = re.compile(r"\b(lock\w*|padlock\w*|tag|tags|tagged|tagging)\b", re.IGNORECASE)
"""How a text says that nobody else opens a valve or a switch again."""
PLUG = re.compile(r"\bplug\b", re.IGNORECASE)
_OBJECT = r"(?:the|it|its|each|every|both|all|any|them)"
_HEAD = r"(?:^|[,;:(—–-] *|\b(?:and|or|then|first|must|always|please|to) )"
_MORE = r"\b(?: [\w-]+){0,5}"
LETS_OUT = re.compile(rf"{_HEAD}(?:(?:isolate|drain|bleed|discharge) {_OBJECT}{_MORE})", re.IGNORECASE)
"""How a sentence tells to cut or to let out what there is, without naming it."""
TURNS_OFF = re.compile(
    rf"{_HEAD}(?:(?:turn|switch|shut|cut|power)(?: [\w-]+){{0,4}}? off{_MORE}|unplug{_MORE}|pull (?:the|its|out the) plug"
    rf"|(?:disconnect|isolate|drain|bleed|discharge) {_OBJECT}{_MORE}|(?:shut|close|cut) {_OBJECT}\b(?: [\w-]+){{0,3}}"
    rf"|(?:hold|prop|block) (?:[\w-]+ ){{0,3}}up|let (?:it|the [\w-]+) cool|cool (?:it|the){_MORE})",
    re.IGNORECASE,
)
"""How a sentence tells to cut an energy or to let it out; only at its head or at that of a clause."""
NAMED = {
    "electricity": re.compile(r"\b(power|mains|electric\w*|current|plug|unplug|breakers?|fuses?)\b", re.IGNORECASE),
    "gas": re.compile(r"\bgas\b", re.IGNORECASE),
    "water": re.compile(r"\b(water|taps?|stop valve)\b", re.IGNORECASE),
}
"""By what other words an energy goes; by its own name and by its points it always does."""
ALL = re.compile(r"\b(both|all|each|every|everything|them|either)\b", re.IGNORECASE)
WHOLE = re.compile(r"\b(it|machine|appliance|unit|supply)\b.*\boff\b|\boff (?:it|the (?:machine|appliance|unit|supply))\b", re.IGNORECASE)
"""What is turned off as a whole."""
LOOKING = re.compile(
    r"\b(meter|multimeter|tester|gauge|thermometer|watch|stopwatch|jug|cup|bucket|scales?|ruler|measure|lamp|torch|light|mirror"
    r"|camera|phone|level|towels?|paper|glass|magnifier|notebook|pencil|marker|hygrometer|detector|label)\b",
    re.IGNORECASE,
)
"""What one may bring to look, listen or measure from outside."""
HANDS_OFF = re.compile(
    r"\b(hands? (?:off|out|away|behind|back|clear)|touch (?:only|nothing|no\b)|nothing but the|no hands?|in your pocket"
    r"|(?:keep|take) your hands?|not touch)\b",
    re.IGNORECASE,
)
"""How a text says that a live part is read without hands."""
TAGGED = re.compile(r"\b(tag|tags|tagged|sign|notice|label|labelled|lock|locked)\b", re.IGNORECASE)
METER = re.compile(r"\b(tester|multimeter|meter|voltmeter)\b", re.IGNORECASE)
TWICE = re.compile(
    r"\b(again|before and after|twice|both times|afterwards|(try|check|prove) the tester\b.*\b(try|check|prove) (the tester|it))\b",
    re.IGNORECASE | re.DOTALL,
)
"""How a text says that a tester is tried on something live before the proof and after it."""
NUMBERS = {word: n for n, word in enumerate("one two three four five six seven eight nine ten".split(), 1)} | {"both": 2}


def asks_for_hands(text: str) -> str:
    """The first words that ask for hands, in lower case; empty where none do, or where they are forbidden."""
    if "](" not in text and not HANDS.search(text):
        return ""  # most texts: what is cut out below leaves no new words behind
    found = HANDS.search(FORBIDS.sub("", LINK.sub("", text)))
    return found[0].lower() if found else ""


def asks_too_much(text: str) -> str:
    """The first words that ask a customer for more than looking and pressing; empty where none do."""
    found = TOO_MUCH.search(FORBIDS.sub("", LINK.sub("", text)))
    return asks_for_hands(text) or (found[0].lower() if found else "")


@lru_cache(maxsize=4096)
def commands(text: str) -> bool:
    """Whether a title may be a command: what can be a verb counts as one."""
    parts = PEOPLE.sub("", text.lower()).split(",", 1)
    return any(_commands(part.split(), CLEAR_VERBS | NOUNS_TOO, _acts) for part in parts)


@lru_cache(maxsize=4096)
def surely_commands(text: str) -> bool:
    """Whether a sentence can only be a command."""
    words = text.lower().split()
    states = SO.intersection(words[1:4]) and _bare(words[1]) not in POINTING
    return not states and _commands(words, CLEAR_VERBS, _points)


def _commands(words: list[str], verbs: frozenset[str], otherwise: Callable[[str, str], bool]) -> bool:
    first, second = (_bare(word) for word in [*words, "", ""][:2])
    if first in HOW and second:
        return _commands(words[1:], verbs, otherwise)
    return first in verbs or otherwise(first, second)


def _acts(first: str, second: str) -> bool:
    """A word before "the", "both" or "out" is a verb, whichever it is."""
    return second in ACTED_ON and first not in NO_VERBS


def _points(first: str, second: str) -> bool:
    return first in NOUNS_TOO and second in POINTING


def _bare(word: str) -> str:
    return word.strip("\"'“”*_().,:;—-")


@lru_cache(maxsize=256)
def sentences(text: str) -> tuple[str, ...]:
    """The sentences or lines of a text."""
    return tuple(part for part in re.split(r"(?<=[.!?])\s+|\n", text) if re.search(r"\w", part))
