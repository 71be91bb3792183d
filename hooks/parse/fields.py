"""The one definition of every key in front matter, shop facts and readings."""

from __future__ import annotations

from dataclasses import dataclass

from hooks.diagnostics import Level
from hooks.model import HELD, Kind, LANGUAGES, ORIGINAL
from hooks.parse.shapes import (
    Choice,
    Date,
    Duration,
    Either,
    Field,
    Keyed,
    Line,
    LineOr,
    Many,
    Name,
    Named,
    Number,
    Shape,
    Whole,
    YesNo,
)
from hooks.parse.words import SIGNAL_WORDS

RAISED = (Level.WARNING.value, Level.ERROR.value)
"""To what a shop may raise a rule. There is no word that lowers one."""
OTHERS = tuple(code for code in LANGUAGES if code != ORIGINAL)
TOLD = Keyed((Field("hours", Line(), "when someone answers"), Field("about", Line(), "any more words about the shop")))
ENERGY = Keyed(
    (
        Field(
            "points", Many(Line(), empty=True), "isolating points, the usual one first", must=True
        ),
        Field("trapped", YesNo(), "something stays in after shutting off"),
        Field("charged-by", Name(), "stored: the energy that makes this one"),
        Field("only", Line(), "the option without which a model has it not"),
        Field("word", Choice(SIGNAL_WORDS), "the mildest signal word a message about it may carry"),
    )
)
MODELS = Named(Many(Name(), empty=True), words=False)
ENERGIES = Named(ENERGY, empty=True)
APPLIANCE = Keyed(
    (
        Field("title", Line(), "the appliance as people call it", must=True),
        Field("models", MODELS, "each model and the options fitted to it", must=True),
        Field("energies", ENERGIES, "each energy and where it is cut", must=True),
        Field("off-limit", Duration(), "how long it may stand without power"),
        Field("does", Line(), "one sentence: what it does when it is well"),
        Field("translated", Keyed(tuple(Field(code, Line(), "the title in it") for code in OTHERS)), "its title in other languages"),
    )
)
SHOP = Keyed(
    (
        Field(
            "shop",
            Keyed(
                (
                    Field("name", Line(), "the name of the shop"),
                    Field("phone", Line(), "whom to call"),
                    Field("hours", Line(), "when someone answers"),
                    Field("mail", Line(), "where a customer may send the answers of a self-check"),
                    Field("about", Line(), "any more words about the shop"),
                    Field("translated", Keyed(tuple(Field(c, TOLD, "hours and about in it") for c in OTHERS)), "the shop's words in other languages"),
                )
            ),
            "who the shop is",
        ),
        Field("clearing", Line(), "the sentence printed wherever an energy is turned on again"),
        Field("away-limit", Duration(), "after how long a break proofs count no more (30 min unless said)"),
        Field("skills", Many(Line()), "the skills of the shop's people"),
        Field("live-skills", Many(Line()), "the skills that may carry out `test` steps"),
        Field("reading-grade", Whole(), "the school grade that a customer's question may need (6 unless said)"),
        Field("trade-words", Named(Line(), words=False), "words of the trade and what each means, for customers"),
        Field("rules", Named(Choice(RAISED)), "rules whose findings weigh more here: name and level"),
        Field("appliances", Named(APPLIANCE), "the machines, each under its own word"),
    )
)
READING = Keyed(
    (
        Field("id", Name(), "the word that `reads` and `judges` name it by", must=True),
        Field("label", Line(), "what is read", must=True),
        Field("unit", Line(), "its unit", must=True),
        Field(
            "limits",
            Many(Number(), exactly=2),
            "lower and upper limit",
            mistaken=("good", "range", "between"),
        ),
        Field(
            "at-least",
            Number(),
            "the lower limit, where there is no upper one",
            mistaken=("min", "minimum"),
        ),
        Field(
            "at-most",
            Number(),
            "the upper limit, where there is no lower one",
            mistaken=("max", "maximum"),
        ),
        Field("calculator", Line(), "the calculator that judges it"),
        Field("given", Named(Line()), "values that the page knows: calculator input and text"),
    )
)
PEOPLE = Keyed(
    (
        Field("number", Whole(), "how many people", must=True),
        Field("skill", Line(), "what one of them must be able to do", must=True),
    )
)
CONDITION = Keyed(
    (
        Field("page", Name(), "the id of the page that makes it so and ends `left safe`", must=True),
        Field("holds", Named(Choice(HELD)), "each energy and what it is then: proved, released or off", must=True),
    )
)
PART = Keyed(
    (
        Field("name", Line(), "the part", must=True),
        Field("number", Line(), "the number it is ordered by"),
        Field("quantity", Whole(), "how many"),
    )
)


@dataclass(frozen=True, slots=True)
class PageField:
    """A key of the front matter: what it holds, on which kinds of page it may and must stand."""

    name: str
    shape: Shape
    says: str
    may: tuple[Kind, ...]
    must: tuple[Kind, ...] = ()
    weighs: bool = False
    unsaid: str = ""
    """The rule that reports a page without it."""
    asked: tuple[Kind, ...] = ()
    """The kinds of page of which that rule asks it; one that lacks it can still be read and analysed."""


_ALL = tuple(Kind)
_STEPS = (Kind.PROCEDURE, Kind.SELF_CHECK, Kind.SHARED_STEPS)
_JOB = (Kind.PROCEDURE,)
_CHECKED = (Kind.PROCEDURE, Kind.SELF_CHECK)
_WORDS = Many(Line())
PAGE = (
    PageField("title", Line(), "what the page is called", _ALL, _ALL, unsaid="page-unidentified"),
    PageField("page", Choice(tuple(Kind)), "the kind of page", _ALL, _ALL, weighs=True),
    PageField("id", Name(), "the page's own word, else its file name", _ALL),
    PageField(
        "revision", Line(), "the number of this version", _ALL, unsaid="page-unidentified", asked=_CHECKED
    ),
    PageField(
        "reviewed",
        Date(),
        "when someone last checked it against the machine",
        _ALL,
        unsaid="page-unidentified",
        asked=_CHECKED,
    ),
    PageField(
        "appliance",
        Line(),
        "the machine: its word in the shop facts, or its title",
        _ALL,
        _CHECKED,
        weighs=True,
        unsaid="page-unidentified",
    ),
    PageField(
        "models",
        Either(MODELS, Many(Line())),
        "the models it holds for (of a machine in the shop facts), or each model and its options",
        _ALL,
        weighs=True,
    ),
    PageField(
        "energies",
        ENERGIES,
        "the energies of a machine that is not in the shop facts",
        _STEPS,
        weighs=True,
    ),
    PageField("off-limit", Duration(), "how long the machine may stand without power", _STEPS),
    PageField("does", Line(), "one sentence: what the machine does when it is well", _STEPS),
    PageField("people", PEOPLE, "how many people, and the skill needed", _STEPS, unsaid="people-unsaid", asked=_JOB),
    PageField("time", Duration(), "how long the job takes", _STEPS, unsaid="people-unsaid", asked=_JOB),
    PageField("protect", _WORDS, "gloves, goggles", _STEPS, unsaid="people-unsaid", asked=_JOB),
    PageField("tools", _WORDS, "what is brought and taken home", _STEPS, unsaid="tool-unlisted", asked=_JOB),
    PageField("supplies", _WORDS, "what is used up", _STEPS, unsaid="supplies-unsaid", asked=_JOB),
    PageField("parts", Many(PART), "what may be fitted", _STEPS, unsaid="part-unlisted", asked=_JOB),
    PageField("before", Many(LineOr(CONDITION)), "what must be true before the start", _STEPS, unsaid="conditions-unsaid", asked=_JOB),
    PageField("after", _WORDS, "what is left to do after the end", _STEPS, unsaid="close-out-unsaid", asked=_JOB),
    PageField("symptoms", _WORDS, "what the customer says, for finding the page", _ALL),
)


def front_matter_of(kind: Kind) -> Keyed:
    """The keys of one kind of page."""
    rows = (row for row in PAGE if kind in row.may)
    return Keyed(
        tuple(
            Field(row.name, row.shape, row.says, kind in row.must, row.weighs, unsaid=row.unsaid) for row in rows
        )
    )
