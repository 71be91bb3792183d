"""A whole job on each procedure of the demo: by touch, on a tablet, with the shop's server stopped; at its end the sheet on paper."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from tests.browser.kept import LIMIT, keep, until
from tests.browser.server import serving

Typed = dict[str, tuple[str, ...]]
"""What is typed in the fields of a step, by their name: one text a row, with its unit where one is picked."""


@dataclass(frozen=True)
class Told:
    """What is done at a step where there is a choice or a field."""

    way: str
    typed: Typed = field(default_factory=dict)
    word: str = ""
    """The verdict that the calculator must give."""
    fits: bool = False
    """Its way out must then be the first and filled one."""


Line = tuple[str, Told]


@dataclass(frozen=True)
class Whole:
    """A job: its page, its model, the steps that ask for something in the order in which they come, what its sheet must say."""

    page: str
    model: str
    lines: tuple[Line, ...]
    says: tuple[str, ...]


def caught(*seconds: str) -> Typed:
    """A litre caught as often."""
    return {"volumes": ("1000",) * len(seconds), "times": seconds}


JOBS = (
    Whole(
        "ice-cabinet/no-ice-double-valve.html", "IW40",
        (
            ("smell", Told("Clean and dry")),
            ("waiting", Told("All three")),
            ("listen", Told("A hum without water")),
            ("outlet", Told("Nothing, a drip")),
            ("unplug.prove", Told("Proved")),
            ("water-off", Told("Proved, no drip, and the outlet gave nothing")),
            ("catch", Told("Next", caught("25.0", "25.4", "24.8"), "IN LIMITS")),
            ("water-off-again", Told("Proved, no drip, after the catch")),
            ("flow-enough", Told("In limits", fits=True)),
            ("thaw", Told("Leave it out")),
            ("open", Told("Dry and clean")),
            ("ice-coil", Told("In limits", {"readings": ("312",)}, "IN LIMITS", fits=True)),
            ("water-coil", Told("Out of limits", {"readings": ("OL",)}, "ABOVE LIMITS", fits=True)),
            ("drips", Told("Dry")),
            ("fills", Told("It fills, and it is dry", {"seconds": ("7.1",)}, "IN LIMITS")),
            ("first-ice", Told("Next", {"air": ("-18",), "now": ("-20",)}, "IN LIMITS")),
        ),
        ("In service", "repaired", "double valve or its strainer", "312", "OL", "DV-2", "Upper Hut"),
    ),
    Whole(
        "ice-cabinet/supply-line.html", "IW60",
        (
            ("smell", Told("Clean, and dry")),
            ("outlet", Told("The tap is weak too")),
            ("tap-pressure", Told("In limits", {"static": ("4.0 bar",), "flowing": ("3.4 bar",)}, "IN LIMITS", fits=True)),
            ("way-open", Told("Open and free")),
            ("dry", Told("It drips from the stop valve")),
            ("leak", Told("In limits", {"drips": ("8",)}, "IN LIMITS", fits=True)),
            ("unplug.prove", Told("Proved")),
            ("water-off", Told("Proved, no drip")),
            ("catch", Told("Next", caught("60", "61", "60.5"), "BELOW LIMITS")),
            ("water-off-again", Told("Proved")),
            ("enough", Told("Below limits", fits=True)),
            ("expected", Told("Below limits", {"static": ("4.0 bar",), "length": ("5",), "measured": ("1.0",)}, "BELOW LIMITS", fits=True)),
            ("tube", Told("Flat, kinked")),
            ("catch", Told("Next", caught("24.0", "24.4", "24.2"), "IN LIMITS")),
            ("water-off-again", Told("Proved")),
            ("enough", Told("In limits", fits=True)),
            ("strainer", Told("Clear")),
            ("filter", Told("Done")),
            ("drips", Told("Dry")),
            ("runs", Told("It runs and fills")),
            ("fill", Told("In limits", {"seconds": ("7.1",)}, "IN LIMITS", fits=True)),
        ),
        ("In service", "repaired", "supply line, strainer or filter", "ST-6", "TI-6", "FC-6", "before that"),
    ),
    Whole(
        "ice-cabinet/harvest.html", "IW60",
        (
            ("smell", Told("Clean and dry")),
            ("ice", Told("Hard ice")),
            ("test-drop", Told("It drops its ice")),
            ("unplug.prove", Told("Proved")),
            ("water-off", Told("Proved")),
            ("open", Told("Dry and clean")),
            ("heater", Told("In limits", {"readings": ("78.1",)}, "IN LIMITS", fits=True)),
            ("heater-frame", Told("Too close to call", {"reading": ("OL",)}, "TOO CLOSE TO CALL", fits=True)),
            ("sensor", Told("Out of limits", {"readings": ("18.2",)}, "BELOW LIMITS", fits=True)),
            ("new-sensor", Told("In limits", {"readings": ("11.3 kohm",)}, "IN LIMITS", fits=True)),
            ("drips", Told("Dry")),
            ("drops", Told("The motor turns")),
        ),
        ("In service", "repaired", "mould heater or mould sensor", "78.1", "MS-10"),
    ),
    Whole(
        "laundry-machine/fill-valve.html", "LM30",
        (
            ("smell", Told("Clean and dry")),
            ("supply", Told("All good")),
            ("prove-power", Told("Proved")),
            ("cold-off", Told("Proved")),
            ("hot-off", Told("Proved")),
            ("strainers", Told("Clear")),
            ("open-top", Told("Dry and clean, it does not fill")),
            ("cold-coil", Told("In limits", {"readings": ("1087",)}, "IN LIMITS", fits=True)),
            ("hot-coil", Told("In limits", {"readings": ("1102",)}, "IN LIMITS", fits=True)),
            ("live", Told("Next", {"read": ("121.4",)})),
            ("prove-again", Told("Proved")),
            ("told", Told("In limits")),
            ("hot-on", Told("Done")),
            ("drips", Told("Dry")),
            ("fills", Told("It fills, stops")),
        ),
        ("In service", "repaired", "fill valve", "1087", "1102", "121.4", "FV-2"),
    ),
    Whole(
        "dishwasher/inlet-valve.html", "OD9",
        (
            ("smell", Told("Clean and dry")),
            ("calls", Told("A hum")),
            ("way", Told("All good")),
            ("power.prove", Told("Proved")),
            ("cool-proof", Told("Proved")),
            ("water", Told("Proved")),
            ("screen", Told("Clear")),
            ("catch", Told("In limits", caught("12.0", "12.2"), "IN LIMITS", fits=True)),
            ("water-again", Told("Proved")),
            ("open", Told("Dry and clean")),
            ("strainer", Told("Clear")),
            ("fan", Told("Done")),
            ("coil", Told("In limits", {"readings": ("3.82",)}, "IN LIMITS", fits=True)),
            ("told", Told("It hummed")),
            ("drips", Told("Dry")),
            ("fills", Told("In limits", {"read": ("106",)})),
            ("paper", Told("Dry")),
        ),
        ("In service", "repaired", "inlet valve, strainer or hose screen", "3.82", "106", "OD-IV2"),
    ),
)  # fmt: skip


@dataclass
class Tablet:
    """A device that has kept the shop's pages; the shop cannot be reached."""

    context: BrowserContext
    base: str


@pytest.fixture(scope="module")
def tablet(demo_site: Path, browser: Browser) -> Iterator[Tablet]:
    context = browser.new_context(viewport={"width": 820, "height": 1180}, has_touch=True)
    page = context.new_page()
    with serving(demo_site) as base:
        for machine in ("ice-cabinet", "laundry-machine", "dishwasher"):
            keep(page, base, f"machines/{machine}.html")
        until(page, "(await stillbench.keeper.ask('ask')).sets.runtime.kept")
    page.close()
    yield Tablet(context, base)
    context.close()


def begin(tablet: Tablet, job: Whole) -> Page:
    """Open the page, say what is known, start."""
    page = tablet.context.new_page()
    page.set_default_timeout(10_000)
    page.goto(tablet.base + job.page)
    page.locator(f"form.begin label:has([value={job.model}])").tap()
    for name, text in {"serial": "40-1183", "place": "Upper Hut"}.items():
        page.locator(f"form.begin [name={name}]").tap()
        page.keyboard.type(text)
    page.locator("form.begin .way").tap()
    expect(page.locator('[data-desk="open"]')).to_be_attached()
    return page


def write(step: Locator, told: Typed) -> None:
    """Type into the fields of a step, with as many rows as there are texts."""
    for row in range(len(next(iter(told.values())))):
        for name, texts in told.items():
            entry = step.locator(f"input[name={name}]")
            if entry.count() <= row:
                step.locator("[data-again]").tap()
            number, _, unit = texts[row].partition(" ")
            entry.nth(row).tap()
            step.page.evaluate("new Promise((done) => setTimeout(done))")  # what stood there is selected in a turn of its own
            step.page.keyboard.type(number)
            if unit:
                step.locator(f".entry:has(input[name={name}]) select.unit").nth(row).select_option(unit)


def leave(step: Locator, told: Told) -> None:
    """Do what is told at a step, and take its way out."""
    if told.typed:
        write(step, told.typed)
    if told.word:
        expect(step.locator(".judged-now .word")).to_have_text(told.word, timeout=LIMIT)
    way = step.locator(".ways .way").filter(has=step.page.locator(".answer", has_text=re.compile(rf"^\s*{re.escape(told.way)}"))).first
    if told.fits:
        expect(step.locator(".ways .way").first).to_contain_text(told.way)
        expect(way).to_have_class(re.compile(r"\bmain\b"))
    way.tap()


def work(page: Page, job: Whole) -> list[str]:
    """From the first step to an end; gives the steps that were taken, with what the board said of hands."""
    lines, taken = list(job.lines), []
    while True:
        step = page.locator(".step[data-open]")
        id = step.get_attribute("id")
        taken.append(id)
        if step.locator("[data-ends]").count():
            break
        leave(page.locator(f"#{id}".replace(".", r"\.")), lines.pop(0)[1] if lines and lines[0][0] == id else Told("Next"))
        expect(page.locator(".step[data-open]")).not_to_have_id(id)
    assert lines == [], taken
    step.locator("[data-ends]").tap()
    return taken


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.page)
def test_a_whole_job_without_a_network_ends_on_paper(job: Whole, tablet: Tablet) -> None:
    page = begin(tablet, job)
    work(page, job)
    page.locator(".step[data-open] .to-sheet").tap()
    page.locator(".paper").wait_for()
    page.emulate_media(media="print")
    seen = page.evaluate("document.querySelector('main').innerText")
    assert [words for words in (*job.says, job.model, "40-1183") if words not in seen] == []
    assert "HANDS IN WITHOUT THE PROOFS" not in seen
    sheets = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format="A4")))
    assert 1 <= sheets <= 3
    page.close()
