"""A customer's page asks for hands on the machine.

Why:
    A customer has no tester and no training. A self-check only looks, asks and ends:
    its steps are `check`, `decide` and `end`, its words ask for no undoing, no tool, no
    reaching in and nothing heavy to be moved, and it lists no tools, parts or energies. A step without a mark counts as hands-on.

Example reported:
    ### Clean the screen {#screen}
    Unscrew the hose and rinse the screen.

Example mended:
    ### Is the screen dirty? {#screen decide}
    Look at it through the glass.
    - Yes: [Book a repair](#book)
    - No: [All good](#good)
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check import english, german
from hooks.check.found import Found, listed
from hooks.model import Kind, Page, Step
from hooks.parse.result import ParsedShop

FORBIDDEN = (
    "isolate", "release", "verify", "work", "restore", "test", "ready",
    "opens", "closes", "needs", "installs", "uses",
)  # fmt: skip
KEYS = ("tools", "parts", "energies")
WORDS = {"de": german}
"""Where the words of another language than English are."""


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """The front matter, then one finding a step."""
    if page.kind is not Kind.SELF_CHECK:
        return
    for key in KEYS:
        if key in page.front.spans and getattr(page.front, key, page.energies):
            yield Found(
                page.front.spans[key],
                f"a customer's page lists `{key}`",
                f"Take `{key}` away; what needs them is a technician's page.",
            )
    for step in page.steps:
        reasons = [*_marks(step), *_words(step, page.language)]
        if reasons:
            yield Found(
                step.span,
                f'customer step "{step.title}" {listed(reasons)}',
                "Let the customer look or answer only, or end with `book a repair`.",
                step,
            )


def _marks(step: Step) -> Iterator[str]:
    marks = [word for word in FORBIDDEN if getattr(step, word)]
    if marks:
        yield f"is marked {listed([f'`{word}`' for word in marks])}"
    elif not (step.check or step.decide or step.end):
        yield "has no mark, so counts as hands-on"


def _words(step: Step, language: str) -> Iterator[str]:
    answers = "".join(f"\n{way.words}." for way in step.ways)
    said = WORDS.get(language, english).asks_too_much(f"{step.title}.\n{step.told}.{answers}")
    if said:
        yield f'says "{said}"'
