"""A page does not say who, how long and with what on, or asks for a skill that will not do.

Why:
    Who opens the page must know beforehand whether this is a job for one, for an hour, with
    goggles. A test on live mains is only for people whom the shop allows to do it. Informed by
    the required persons of DITA (`reqpers`) and by 29 CFR 1910.333 (qualified persons).

Example reported:
    people: {number: 1, skill: basic}

    ### Read the voltage {#live test="electricity"}
    Hands off. Read the meter.

Example mended:
    people: {number: 1, skill: basic}

    ### Read the voltage {#live test="electricity" skill="live testing"}
    Hands off. Read the meter.
"""

from __future__ import annotations

from collections.abc import Iterator

from hooks.check.found import Found, listed
from hooks.check.unsaid import unsaid
from hooks.model import Page, Shop, Step
from hooks.parse.notes import choose, nearest
from hooks.parse.result import ParsedShop

SHOCKING = frozenset(("electricity", "charge"))
"""The energies that are only read live by people who may; by name, common practice."""


def on_page(page: Page, shop: ParsedShop) -> Iterator[Found]:
    """What is missing of people, time and protection, then unknown skills, then each live test without the skill."""
    yield from unsaid(page, "people-unsaid")
    yield from _unknown(page, shop.shop)
    able = shop.shop.live_skills
    own = page.front.people.skill if page.front.people else ""
    for step in page.steps:
        if SHOCKING.intersection(step.test) and not {step.skill, own}.intersection(able):
            yield _unable(step, step.skill or own, able)


def _unknown(page: Page, shop: Shop) -> Iterator[Found]:
    """Where no shop facts say which skills there are, only what is meant as one of the usual ones is misspelt."""
    people = page.front.people
    asked = [(people.skill, page.front.spans["people"], None)] if people else []
    asked += [(step.skill, step.span_of("skill"), step) for step in page.steps if step.skill]
    for skill, span, step in asked:
        if skill not in shop.skills and (shop.source or nearest(skill, shop.skills)):
            what = f"`{skill}` is none of the shop's skills"
            yield Found(span, what, f"{choose(skill, shop.skills)} They stand under `skills` in the shop facts.", step)


def _unable(step: Step, skill: str, able: tuple[str, ...]) -> Found:
    asked = f"the skill `{skill}`" if skill else "no skill"
    return Found(
        step.span_of("test"),
        f'live test "{step.title}" asks for {asked}, which does not allow it in this shop',
        f'Write `skill="{able[0]}"` on its line.' if able else "Nobody in this shop may test live: measure dead.",
        step,
        listed([e for e in step.test if e in SHOCKING]) or None,
    )
