"""A page that counts on another begins where that one is found to leave the machine, and nowhere better."""

from __future__ import annotations

from pathlib import Path

from bs4 import BeautifulSoup
from hypothesis import HealthCheck, given, settings

from hooks.check import Report, examine
from hooks.check.analysis import State
from hooks.check.course import courses
from hooks.model import Shop, Step
from hooks.page import procedure
from hooks.page.view import Links
from hooks.parse import drawn, page
from hooks.parse.result import ParsedShop
from hooks.source import from_text

from .jobs import jobs
from .shapes import Job, markdown

HEADS = Path(__file__).parents[1] / "rules/heads"
MESSAGE = '!!! warning electricity water "Shock and flood"\n    It kills and floods. Prove both off first.\n\n'
FIRST = """### Unplug and shut the tap {#cut isolate="electricity water"{at}}
With a tag.
### Drain it {#drain release="water"}
Into the bucket.
### Prove both {#prove verify="electricity water"}
- **Proved**: [Leave it](#leave)
- **Not proved**: [Stop](#stop)
### Leave it {#leave end="left safe"}
A tag hangs on it.
### Stop {#stop end="stopped"}
Tell the office.
"""
SECOND = """### Swap the part {#swap work}
Two screws.
### Plug in and open the tap {#on restore="electricity water" clear}
Dry hands.
### Done {#done end="in service"}
Run it once.
"""


def looked_at(second: str = SECOND, first: str = FIRST, condition: str = "") -> tuple[Report, ParsedShop]:
    """The report on two pages, of which the second counts on the first."""
    head = (HEADS / "after.txt").read_text("utf-8")
    if condition:
        head = head.replace("{page: first, holds: {electricity: proved, water: proved}}", condition)
    texts = {
        "second.md": head.replace("id: page", "id: second") + MESSAGE + second,
        "first.md": (HEADS / "water.txt").read_text("utf-8").replace("id: page", "id: first") + MESSAGE + first.replace("{at}", ""),
    }
    shop = ParsedShop(Shop(None), drawn(page(from_text(text, name), Shop(None)) for name, text in texts.items()), ())
    return examine(shop), shop


def errors(report: Report) -> list[tuple[str, str]]:
    """File and rule of each error."""
    return [(f.file, f.rule) for f in report.findings if f.level.value == "error"]


def test_the_page_begins_in_the_states_that_the_other_leaves_and_its_proof_is_that_of_the_page_before() -> None:
    report, _ = looked_at()
    assert errors(report) == []
    first = report.analyses["second"].at(1)
    assert first is not None
    assert dict(first.arriving) == {"electricity": State.PROVED, "water": State.PROVED}
    assert dict(first.proofs) == {"electricity": (0,), "water": (0,)}


def test_what_the_condition_does_not_name_is_on() -> None:
    report, _ = looked_at(condition="{page: first, holds: {electricity: proved}}")
    assert ("second.md", "hands-on-live") in errors(report)
    assert {f.energy for f in report.findings if f.rule == "hands-on-live"} == {"water"}


def test_the_points_that_the_other_page_shut_are_shut() -> None:
    report, _ = looked_at(SECOND.replace('restore="electricity water"', 'restore="electricity water" at="plug"'))
    assert ("second.md", "energy-undeclared") in errors(report)
    wrong = [f for f in report.findings if f.rule == "wrong-closing-state"]
    assert [(f.energy, f.message) for f in wrong] == [("water", '"Done" ends `in service` with water shut off at the tap')]


def test_a_page_that_is_not_there_is_lost_and_nothing_is_believed() -> None:
    report, _ = looked_at(condition="{page: frist, holds: {electricity: proved, water: proved}}")
    found = errors(report)
    assert ("second.md", "reference-lost") in found
    assert ("second.md", "hands-on-live") in found


def test_a_page_whose_condition_is_not_met_is_not_analysed() -> None:
    report, _ = looked_at(first=FIRST.replace("[Stop](#stop)", "[Leave it](#leave)"))
    assert ("second.md", "condition-unmet") in errors(report)
    assert "second" not in report.analyses


def test_the_page_says_on_what_it_counts_and_the_evidence_names_that_page() -> None:
    report, shop = looked_at()
    second = next(p.page for p in shop.pages if p.source.name == "second.md")
    links = Links({"first": ("first.html", "Make it safe")})
    html = procedure.render(second, report.analyses["second"], (), None, links)
    soup = BeautifulSoup(html, "html.parser")
    assert "Only after “Make it safe”, which leaves power and water proved off." in soup.text
    assert "A job that begins here takes no proof along." in soup.select_one("form.begin").text
    evidence = soup.select_one(".evidence li")
    assert evidence is not None
    assert " ".join(evidence.text.split()) == "1 Swap the part: Power proved on Make it safe; water proved on Make it safe."
    assert [a["href"] for a in evidence.select("a")] == ["#swap", "first.html", "first.html"]
    assert {a["href"] for a in soup.select("#page--board-lines a")} >= {"first.html"}


def test_a_job_on_the_device_begins_with_everything_on_all_the_same() -> None:
    report, shop = looked_at()
    second = next(p.page for p in shop.pages if p.source.name == "second.md")
    (course,) = courses(second, report.analyses["second"])
    assert course.known[0] == (State.ON, State.ON)
    assert 0 not in dict(course.fits)[1]


def made_safe(job: Job) -> str:
    """Steps that cut, let out and prove all energies of a machine; the last goes on below when its proof held."""
    names = [s.name for s in job.sources]
    supplies = " ".join(s.name for s in job.sources if not s.fed_by)
    held = [s.name for s in job.sources if s.trapped or s.fed_by]
    text = f'### Cut {{#a-cut isolate="{supplies}"}}\nWith a tag.\n'
    for turn in range(len(held)):
        text += "".join(f'### Let out {{#a-out-{turn}-{name} release="{name}"}}\nWait.\n' for name in held)
    return text + f'### Prove {{#a-prove verify="{" ".join(names)}"}}\n- **Not proved**: [Cut](#a-cut)\n'


def arrivals(report: Report, id: str, titles: set[str], steps: tuple[Step, ...]) -> dict[str, object]:
    """What is known at each step with one of the titles."""
    at = {step.title: report.analyses[id].at(step.number) for step in steps if step.title in titles}
    return {title: r and (r.arriving, r.leaving, r.models) for title, r in at.items()}


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(jobs())
def test_a_page_after_another_is_as_if_both_stood_on_one(job: Job) -> None:
    text = markdown(job, id="second")
    first = text.index("### Step 0 ")
    held = ", ".join(f"{s.name}: proved" for s in job.sources)
    head = markdown(job, id="first")
    head = head[: head.index("### Step 0 ")]
    texts = {
        "second.md": text.replace("before: none", f"before: [{{page: first, holds: {{{held}}}}}]"),
        "first.md": head + made_safe(job) + '### Leave it {#a-end end="left safe"}\nA tag.\n',
        "both.md": text[:first].replace("id: second", "id: both") + made_safe(job) + text[first:],
    }
    pages = drawn(page(from_text(text, name), Shop(None)) for name, text in texts.items())
    report = examine(ParsedShop(Shop(None), pages, ()))
    assert not [f for f in report.findings if f.rule == "condition-unmet"]
    second, _, both = (one.page for one in pages)
    titles = {step.title for step in second.steps}
    assert arrivals(report, "second", titles, second.steps) == arrivals(report, "both", titles, both.steps)
