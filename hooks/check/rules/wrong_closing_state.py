"""The job ends in a state that its end does not promise, or is left safe without a tag.

Why:
    The last words of a job are what the next person believes. `in service`: every
    supply is ON and every point open, but for what `without` names, which is proved
    off. `left safe`: every supply is proved off, and a tag says so to whoever comes.
    `stopped`: a message is in force about every supply that is not proved off, and the
    text says who was told.
    `as found`: every supply is ON and no point is shut. Informed by
    29 CFR 1910.147(e) and by the close-out of DITA and S1000D.

Example reported:
    ### Shut the tap {#tap isolate="water" release="water"}
    Drain the hose.
    ### Back in service {#done end="in service"}
    Run it once.

Example mended:
    ### Shut the tap {#tap isolate="water" release="water"}
    Drain the hose.
    ### Open the tap {#tap-on restore="water" clear}
    Slowly.
    ### Back in service {#done end="in service"}
    Run it once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from hooks.check.analysis import State
from hooks.check.breach import Breach, Move, make_safe, place, state_set
from hooks.check.energy import Act, Machine, Situation, Word
from hooks.check.english import TAGGED
from hooks.check.found import Found, listed
from hooks.diagnostics import Level
from hooks.model import Page
from hooks.parse.result import ParsedShop

ACTS = (Word.END,)
HERE = "the job ends here"


LEVELS = (Level.ERROR, Level.WARNING)


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Each end that leaves the machine safe and hangs no tag."""
    for step in page.steps:
        if step.end == "left safe" and page.energies and not TAGGED.search(f"{step.title}\n{step.prose}"):
            yield Found(
                step.span_of("end"),
                f'"{step.title}" leaves the machine off, and does not say that a tag is hung',
                "Say where the tag is hung.",
                step,
                level=Level.WARNING,
            )


def breached(act: Act, now: Situation, machine: Machine) -> Iterable[int | None]:
    """The energies whose state is not the promised one; None where nobody is told."""
    end = act.step.end
    if end not in ENDS:
        return ()
    untold: list[int | None] = [None] if end == "stopped" and not act.step.prose.strip() else []
    dry = machine.indexes(act.step.without)
    wrong = [e for e in dry if now.states[e] is not State.PROVED]
    rest = (e for e in machine.supplies if e not in dry)
    return untold + wrong + [e for e in rest if not ENDS[end](e, now)]


def _on(energy: int, now: Situation) -> bool:
    return now.states[energy] is State.ON and not now.shut_points(energy)


def _proved(energy: int, now: Situation) -> bool:
    return now.states[energy] is State.PROVED


def _warned(energy: int, now: Situation) -> bool:
    return _proved(energy, now) or energy in now.warned


ENDS: dict[str, Callable[[int, Situation], bool]] = {
    "in service": _on,
    "left safe": _proved,
    "stopped": _warned,
    "as found": _on,
}
"""What each end asks of a supply."""


def cause(move: Move, breach: Breach) -> str:
    """Where a point that is still shut was shut; else what set the state."""
    if breach.energy is None or ENDS.get(breach.step.end or "") is not _on:
        return state_set(move, breach)
    points = {(breach.energy, point) for point in breach.now.shut_points(breach.energy)}
    shut = sorted(point for _, point in (move.after.shut - move.before.shut) & points)
    if points:
        return f"{listed(shut)} shut here" if shut else ""
    return state_set(move, breach)


def say(breach: Breach) -> tuple[str, str]:
    """What the end promises and what is so."""
    end, name = breach.step.end, breach.name
    if breach.energy is None:
        return (
            f'"{breach.step.title}" does not say who was told',
            "Say under it who is told and what to keep away from.",
        )
    message = f'"{breach.step.title}" ends `{end}` with {name} {breach.state.words}'
    if end == "left safe" or name in breach.step.without:
        return message, make_safe(breach)
    if end == "stopped":
        return (
            f"{message} and no message about it in force",
            f"Put a message about {name} first under line {breach.step.span.line}.",
        )
    points = breach.now.shut_points(breach.energy)
    if points:
        message = f'"{breach.step.title}" ends `{end}` with {name} shut off at the {listed(points)}'
    return message, _turn_on(breach, points)


def _turn_on(breach: Breach, points: tuple[str, ...]) -> str:
    first = breach.step_that("restore")
    where = f' at="{points[0]}"' if points else ""
    if first and breach.state is not State.OFF:
        return f"Lead this path through {place(first, breach)}, or end it `left safe`."
    return f'Turn it on first, in a step with `restore="{breach.name}"{where} clear`.'

