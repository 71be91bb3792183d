"""An energy or point is used that the machine does not have, or an energy is never made safe.

Why:
    A word that means nothing protects nobody, and an energy that is declared but never
    isolated, let out, proved or turned on again has been forgotten. Informed by
    29 CFR 1910.147 (know the energies; each has its isolating device).

Example reported:
    energies:
      electricity: {points: [plug]}
      gas: {points: [cock]}

    ### Unplug {#unplug isolate="electricity"}
    ### Prove it {#prove verify="electricity"}
    - **Not proved**: [Unplug](#unplug)
    ### Swap the part {#swap work}
    ### Plug in {#plug-in restore="electricity" clear}

Example mended:
    energies:
      electricity: {points: [plug]}
      gas: {points: [cock]}

    ### Unplug and shut the cock {#unplug isolate="electricity gas"}
    ### Prove both {#prove verify="electricity gas"}
    - **Not proved**: [Unplug and shut the cock](#unplug)
    ### Swap the part {#swap work}
    ### Open the cock and plug in {#plug-in restore="electricity gas" clear}
"""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from hooks.check.found import Found, listed
from hooks.model import Energy, Kind, Message, Model, Page, Step
from hooks.parse.result import ParsedShop
from hooks.source import Span

LACKS = {
    "isolate": "isolated",
    "release": "let out",
    "verify": "proved off",
    "restore": "turned on again",
}
MADE = {
    "proved": ("isolate", "release", "verify", "restore"),
    "released": ("isolate", "release", "restore"),
    "off": ("isolate", "restore"),
}
"""By what another page has made true: what is not asked of this one."""
CLOSE = 0.75
"""How alike two names of energies must be for one to be meant by the other: `power` is not `water`."""
NAMING = ("isolate", "release", "verify", "restore", "test", "without")


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """Unknown names first, then points, then what is never made safe."""
    if page.kind not in (Kind.PROCEDURE, Kind.SHARED_STEPS):
        return
    known = {energy.name: energy for energy in page.energies}
    for message in page.messages:
        yield from _in_message(message, known, None)
    for step in page.steps:
        yield from _in_step(step, known)
    if page.kind is Kind.PROCEDURE:
        yield from _forgotten(page)


def _in_message(message: Message, known: dict[str, Energy], step: Step | None) -> Iterator[Found]:
    for name in message.energies:
        if name not in known:
            yield _unknown(name, known, message.span, step)


def _in_step(step: Step, known: dict[str, Energy]) -> Iterator[Found]:
    for message in step.messages + step.late_messages:
        yield from _in_message(message, known, step)
    for word in NAMING:
        for name in getattr(step, word):
            if name not in known:
                span = dict(step.spans).get(f"{word} {name}", step.span_of(word))
                yield _unknown(name, known, span, step)
            elif word in ("isolate", "restore"):
                yield from _points(step, known[name], word)


def _unknown(name: str, known: dict[str, Energy], span: Span, step: Step | None) -> Found:
    near = get_close_matches(name, known, 1, CLOSE)
    have = f"It has {listed(list(known))}." if known else "This page declares no energy."
    help = f"Did you mean `{near[0]}`?" if near else have
    return Found(span, f"this machine has no energy `{name}`", help, step, name)


def _points(step: Step, energy: Energy, word: str) -> Iterator[Found]:
    if energy.stored:
        if word == "isolate":
            yield Found(
                dict(step.spans).get(f"{word} {energy.name}", step.span_of(word)),
                f"{energy.name} is stored and has no supply to cut",
                f"Isolate {energy.charged_by}, which makes it, then let it out with `release`.",
                step,
                energy.name,
            )
    elif step.at and step.at not in energy.points:
        yield Found(
            step.span_of("at"),
            f"{energy.name} has no isolating point `{step.at}`",
            f"Its points are {listed(list(energy.points))}." if len(energy.points) > 1 else f'Write `at="{energy.points[0]}"`.',
            step,
            energy.name,
        )


def _forgotten(page: Page) -> Iterator[Found]:
    """One finding for each energy and what the page lacks for it, on a page with hands-on steps."""
    for energy in page.energies:
        lacking: dict[tuple[str, ...], list[str]] = {}
        fitted = [m for m in page.models if energy in page.fitted(m)]
        for model in fitted:
            lacking.setdefault(_lacks(page, model, energy), []).append(model.name)
        for words, models in lacking.items():
            if words:
                all_models = len(models) == len(page.models)
                yield _forgot(page, energy, words, () if all_models else tuple(models))


def _lacks(page: Page, model: Model, energy: Energy) -> tuple[str, ...]:
    steps = [s for s in page.steps if s.only is None or s.only.holds(model.options)]
    if not any(step.hands_on for step in steps):
        return ()
    wanted = ("release", "verify") if energy.stored else ("isolate", "verify", "restore")
    made = _made_before(page, energy)
    return tuple(w for w in wanted if w not in made and not any(energy.name in getattr(s, w) for s in steps))


def _made_before(page: Page, energy: Energy) -> tuple[str, ...]:
    """What another page has done by the condition; whether this one may end so, its end says."""
    held = {name: word for name, word, _ in page.front.condition.holds} if page.front.condition else {}
    return MADE.get(held.get(energy.name, ""), ())


def _forgot(page: Page, energy: Energy, words: tuple[str, ...], models: tuple[str, ...]) -> Found:
    own = energy.file == page.source.name
    steps = [f'a step with `{word}="{energy.name}"`' for word in words]
    return Found(
        energy.span if own else page.front.spans.get("appliance", page.span),
        f"{energy.name} is never {listed([LACKS[word] for word in words], 'or')}",
        f"Add {listed(steps)}.",
        None,
        energy.name,
        models,
    )
