"""The search and an oracle that shares nothing with it find the same faults, by the same length of path."""

from __future__ import annotations

from os import environ

import pytest
from hypothesis import HealthCheck, Phase, find, given, settings
from hypothesis.errors import NoSuchExample

from hooks.check import analyse
from hooks.check.rules import hands_on_live, having
from hooks.model import Shop
from hooks.parse import page
from hooks.parse.result import ParsedShop
from hooks.source import from_text

from .jobs import jobs
from .oracle import Fault, faults
from .shapes import Job, markdown

PATH_RULES = {rule.name for rule in having("breached")}
SHOP = Shop(None)
QUICK = settings(
    max_examples=3000,
    deadline=None,
    database=None,
    phases=(Phase.generate,),
    suppress_health_check=list(HealthCheck),
)
"""For looking whether something turns up at all: the first will do, the smallest is not sought."""


def searched(job: Job) -> dict[Fault, tuple[tuple[str, ...], int]]:
    """What the checker finds in the page that says this job, in the oracle's words."""
    parsed = page(from_text(markdown(job), "job.md"), SHOP)
    assert parsed.page is not None and parsed.sound, parsed.findings
    found, _ = analyse(parsed.page, ParsedShop(SHOP, (parsed,), ()))
    every = tuple(name for name, _ in job.models)
    return {
        (f.rule, int(f.step.id[1:]), f.energy): (f.models or every, len(f.path))
        for f in found
        if f.rule in PATH_RULES and f.step and f.path
    }


@settings(max_examples=int(environ.get("JOBS", "800")), deadline=None, suppress_health_check=list(HealthCheck))
@given(jobs())
def test_the_search_finds_what_the_oracle_finds(job: Job) -> None:
    assert searched(job) == faults(job), markdown(job)


@pytest.mark.parametrize("rule", sorted(PATH_RULES))
def test_random_jobs_show_every_path_rule(rule: str) -> None:
    find(jobs(), lambda job: any(fault[0] == rule for fault in faults(job)), settings=QUICK)


def test_a_broken_condition_is_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = hands_on_live.breached
    monkeypatch.setattr(hands_on_live, "breached", lambda act, now, machine: list(whole(act, now, machine))[:-1])
    try:
        find(jobs(), lambda job: searched(job) != faults(job), settings=QUICK)
    except NoSuchExample:
        pytest.fail("a rule that overlooks an energy passed the comparison")
