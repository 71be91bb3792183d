"""A translated page is not the same check as its original.

Why:
    Whoever reads another language must be asked the same questions and be led to the same
    places: a way that was left out in a translation leads past a sign of danger. So a
    translation has the steps, words in braces, jumps, messages, machine and revision of
    its original. One that lags behind is better taken away: the page then says that it
    is not yet translated, and shows the original.

Example reported:
    ### Riecht es verbrannt? {#smell decide}
    - Ja: [Ist das Licht an?](#light)
    - Nein: [Ist das Licht an?](#light)

Example mended:
    ### Riecht es verbrannt? {#smell decide}
    - Ja: [Nicht mehr benutzen](#stop)
    - Nein: [Ist das Licht an?](#light)
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from hooks.check.found import Found, listed
from hooks.model import Guard, Kind, LANGUAGES, ORIGINAL, Page, Step
from hooks.parse.result import ParsedShop

ELSEWHERE = frozenset(
    {"title", "span", "spans", "file", "used", "messages", "late_messages", "prose", "figures", "readings", "ways", "next", "jumpless",
     "id_written", "because"}
)  # fmt: skip
"""What the words of a step make, and where it stands; all else must be the same."""
WORDS = tuple(f.name for f in fields(Step) if f.name not in ELSEWHERE)
TAKE_AWAY = "or take the file away: the page then says that it is not translated."


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """The page as a whole first, then each step against the one with its place."""
    if page.language == ORIGINAL:
        return
    if page.language not in LANGUAGES or page.kind is not Kind.SELF_CHECK:
        yield _unknown(page)
        return
    original = next((p.page for p in shop.pages if p.page and p.page.source.name == page.original), None)
    if original is None:
        yield Found(page.span, f"there is no original `{page.original}`", "Name the file like its original, with the language before `.md`.")
        return
    yield from _whole(page, original)
    for ours, theirs in zip(page.steps, original.steps, strict=False):
        yield from _step(ours, theirs)


def _unknown(page: Page) -> Found:
    if page.kind is not Kind.SELF_CHECK:
        return Found(page.span, "only self-checks are translated", "Take the language out of the name of the file.")
    known = ", ".join(f"`{code}`" for code in LANGUAGES if code != ORIGINAL)
    return Found(page.span, f"the site has no words in `{page.language}`", f"Translate into {known}, or name the file otherwise.")


def _whole(page: Page, original: Page) -> Iterator[Found]:
    pairs = {
        "revision": (page.front.revision, original.front.revision),
        "appliance": (page.appliance_id, original.appliance_id),
        "models": (page.models and [m.name for m in page.models], [m.name for m in original.models]),
        "number of steps": (len(page.steps), len(original.steps)),
        "messages": (_signals(page), _signals(original)),
    }
    for name, (ours, theirs) in pairs.items():
        if ours != theirs:
            said = f"its {name} is not that of `{page.original}`"
            yield Found(page.front.spans.get(name, page.span), said, f"Bring it up to date, {TAKE_AWAY}")


def _signals(page: Page) -> list[tuple[str, tuple[str, ...]]]:
    return [(m.word, m.energies) for m in page.messages]


def _step(ours: Step, theirs: Step) -> Iterator[Found]:
    astray = [f"`{name}`" for name in WORDS if _said(ours, name) != _said(theirs, name)]
    astray += ["messages"] if [m.word for m in ours.messages] != [m.word for m in theirs.messages] else []
    astray += ["figures"] if _numbers(ours) != _numbers(theirs) else []
    if astray:
        said = f'step "{ours.title}" differs from "{theirs.title}" in {listed(astray)}'
        yield Found(ours.span, said, f"Write the words in braces and the messages as there, {TAKE_AWAY}", ours)
    if _targets(ours) != _targets(theirs):
        ways = " ".join(f"#{target}" for target in _targets(theirs)) or "nowhere"
        said = f'"{ours.title}" does not lead where "{theirs.title}" leads'
        yield Found(ours.span, said, f"Its ways out lead, in this order, to {ways}.", ours)


def _said(step: Step, name: str) -> object:
    """What a word says, without the place where it stands."""
    value = getattr(step, name)
    return (value.option, value.negated) if isinstance(value, Guard) else value


def _numbers(step: Step) -> list[list[int]]:
    """The numbers that are listed under each figure; a drawing with words is another one in another language."""
    return [[number for number, _ in figure.numbers] for figure in step.figures]


def _targets(step: Step) -> list[str]:
    ways = [f"{way.verdict or ''}{way.target}" for way in step.ways]
    return [*ways, *([step.next.target] if step.next else [])]
