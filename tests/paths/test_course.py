"""What a job looks up says what the search says, and falls back to ON where nothing is known."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings

from hooks.check import alike, analyse
from hooks.check.analysis import State
from hooks.check.course import Course, courses
from hooks.check.energy import machine
from hooks.check.paths import search
from hooks.check.walk import Walk
from hooks.model import Page, Shop
from hooks.parse import page as parse_page
from hooks.parse.result import ParsedShop
from hooks.source import from_text

from .jobs import jobs
from .shapes import Job, markdown

SHOP = ParsedShop(Shop(None), (), ())
FEW = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))


def written(job: Job) -> Page:
    """The page that says this job."""
    return parse_page(from_text(markdown(job), "job.md"), SHOP.shop).page


def step_by_step(walk: Walk, course: Course) -> dict[object, int]:
    """The number of what is known at every node, by the tables alone."""
    after = {(number, proof): then for number, proof, then in course.acts}
    at = {next(iter(walk.came)): 0}
    for node, way, target in walk.moves:
        number = walk.page.steps[node.place].number
        then = {proof: after.get((number, proof)) for proof in (None, way.proof)}
        table = None if way.skipped else then[way.proof] or then[None]
        at.setdefault(target, table[at[node]] if table else at[node])
    return at


@FEW
@given(jobs())
def test_following_the_tables_gives_the_states_of_the_search(job: Job) -> None:
    page = written(job)
    found = courses(page, analyse(page, SHOP)[1])
    for course, models in zip(found, alike(page), strict=True):
        walk = search(page, machine(page, models))
        for node, number in step_by_step(walk, course).items():
            assert course.known[number] == node.now.states


@FEW
@given(jobs())
def test_a_step_fits_wherever_the_search_reached_it_and_nowhere_less_is_off(job: Job) -> None:
    page = written(job)
    analysis = analyse(page, SHOP)[1]
    for course, visits in zip(courses(page, analysis), analysis.visited, strict=True):
        fits = dict(course.fits)
        for number, states in visits.spots:
            assert all((k in fits[number]) or course.known[k] != states for k in range(len(course.known)))
        for number, where in fits.items():
            least = [s for n, s in visits.spots if n == number]
            for k in where:
                assert any(all(a >= b for a, b in zip(course.known[k], s, strict=True)) for s in least)


@FEW
@given(jobs())
def test_after_a_break_nothing_is_proved_and_nothing_else_is_worse(job: Job) -> None:
    page = written(job)
    for course in courses(page, analyse(page, SHOP)[1]):
        assert set(course.known[0]) <= {State.ON}
        for k, away in enumerate(course.away):
            for before, after in zip(course.known[k], course.known[away], strict=True):
                assert after < State.PROVED
                assert after == before or before is State.PROVED
