"""A message tells to cut or let out an energy, and no step of the page does it.

Why:
    Many published pages say "turn off the power before …" in a warning and nowhere else. No
    step is ticked off, nothing is proved, and no check sees it. Cutting and letting out are
    steps. Informed by IEC/IEEE 82079-1 and 29 CFR 1910.147(d).

Example reported:
    !!! warning electricity "Shock"
        The leads are live. A shock can kill. Turn off the power before you take them off.

    ### Look at the leads {#look check}
    Are they whole?

Example mended:
    !!! warning electricity "Shock"
        The leads are live. A shock can kill. Turn off the power before you take them off.

    ### Turn off the power {#off isolate="electricity"}
    Pull the plug and keep it in sight.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from hooks.check.english import ALL, FORBIDS, LETS_OUT, NAMED, TURNS_OFF, WHOLE, sentences
from hooks.check.found import Found, listed
from hooks.check.messages import placed
from hooks.model import Energy, Kind, Message, Page
from hooks.parse.result import ParsedShop


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """One finding for each message, about all energies that only it tells to cut."""
    if page.kind is not Kind.PROCEDURE:
        return
    done = {name for step in page.steps for name in (*step.isolate, *step.release)}
    if page.front.condition:
        done |= {name for name, _, _ in page.front.condition.holds}
    for step, message in placed(page):
        only_said = [name for name in told(message, page.energies) if name not in done]
        if only_said:
            names = listed(only_said)
            what = f'the {message.word} "{message.title}" tells to cut or let out {names}, and no step does'
            help = f"Make it a step, with `isolate` or `release` and {names}."
            yield Found(message.span, what, help, step, only_said[0] if len(only_said) == 1 else None)


def told(message: Message, energies: tuple[Energy, ...]) -> tuple[str, ...]:
    """The energies that a message tells to cut or to let out, in the page's order, undeclared ones last."""
    names = [name for clause in _clauses(message.text) for name in _meant(clause, message, energies)]
    known = [energy.name for energy in energies if energy.name in names]
    return (*known, *dict.fromkeys(name for name in names if name not in known))


@lru_cache(maxsize=4096)
def _clauses(text: str) -> tuple[str, ...]:
    """Where a text tells to cut an energy or to let it out; many pages of a shop warn in the same words."""
    told = (FORBIDS.sub("", sentence) for sentence in sentences(text))
    return tuple(found[0] for sentence in told for found in TURNS_OFF.finditer(sentence))


def _meant(clause: str, message: Message, energies: tuple[Energy, ...]) -> list[str]:
    named = [energy.name for energy in energies if _names(clause, energy)]
    named += [name for name in ("electricity", "gas") if NAMED[name].search(clause) and name not in named]
    if named or not (ALL.search(clause) or LETS_OUT.match(clause) or WHOLE.search(clause)):
        return named
    return list(message.energies) if len(message.energies) == 1 or ALL.search(clause) else []


def _names(clause: str, energy: Energy) -> bool:
    said = clause.casefold()
    words = (energy.name.replace("-", " "), *energy.points)
    other = NAMED.get(energy.name)
    return any(word.casefold() in said for word in words) or bool(other and other.search(clause))
