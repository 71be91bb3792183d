"""Jobs for tests, written through the store as a page writes them: on the demo's page of no ice."""

from __future__ import annotations

import base64
import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Download, Page

from calculators._lib import entry
from tests.browser.conftest import Serve

PAGE = "ice-cabinet/no-ice-double-valve.html"
START = 1_795_600_800_000
"""Milliseconds since 1970 at which the job began."""
MINUTE = 60_000
PIXEL = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=="
ABOUT = {
    "model": "IW40",
    "serial": "40-1183",
    "place": "Upper Hut, kitchen",
    "reference": "26-0412",
    "complaint": "Not one cube since Sunday, and the tap beside it only spits.",
}
WRITE = """async ([about, events, photos]) => {
  const { store } = stillbench;
  const article = document.querySelector(".job.procedure");
  const { page, title, revision, digest, appliance } = JSON.parse(article.querySelector("#graph").textContent);
  const path = article.dataset.address;
  const job = { id: store.fresh(), page, title, revision, digest, appliance, path, ...about, at: 0, end: null };
  const [{ at: began, ...begin }, ...rest] = events;
  const now = Date.now;
  Date.now = () => began;
  await store.begin(job, begin, { digest, article: article.outerHTML });
  for (const { kind, at, ...event } of rest) {
    Date.now = () => at;
    const png = photos[event.photo];
    const photo = png && { id: event.photo, blob: new Blob([Uint8Array.from(atob(png), (c) => c.charCodeAt(0))], { type: "image/png" }) };
    const summary = kind === "done" ? { at: event.to } : kind === "end" ? { end: event.end } : {};
    await store.add(job.id, kind, event, photo && kind === "photo" ? { photo, summary } : { summary });
  }
  Date.now = now;
  return job.id;
}"""

Event = dict[str, object]


def done(minute: float, step: int, to: int, words: str = "Next", **more: object) -> Event:
    """A step that was ticked."""
    return {"kind": "done", "at": at(minute), "step": step, "to": to, "words": words, **more}


def at(minute: float) -> int:
    """A time in milliseconds, so many minutes after the job began."""
    return START + round(minute * MINUTE)


def coil(minute: float, step: int, reading: str, label: str, read: str) -> Event:
    """A reading of a coil, judged by the calculator itself."""
    limits = {"low": 100, "high": 500, "unit": "ohm"}
    asked = {"fields": {"readings": [read]}, "limits": limits, "label": label}
    answer = json.loads(entry.answer("coil", json.dumps(asked)))
    assert answer["sentence"], answer
    names = ("calculator", "version", "value", "uncertainty", "verdict", "word", "sign", "sentence", "meter", "picture")
    kept = {name: answer[name] for name in names}
    facts = {"reading": reading, "step": step, "label": label, "fields": {"readings": [read]}, "text": read}
    return {"kind": "reading", "at": at(minute), **facts, **limits, "valueUnit": answer["unit"], **kept}


def repair() -> list[Event]:
    """A whole job: looked at, made safe, measured, the valve swapped, handed back."""
    return [
        {"at": START, **ABOUT},
        done(1, 1, 2, "Yes"),
        done(3, 2, 3, "Yes"),
        done(5, 3, 4, "Nothing is heard"),
        done(7, 4, 5, "A steady stream"),
        done(10, 5, 6),
        done(11, 6, 7),
        done(14, 7, 8, "Proved, nothing at the port", verdict="proved"),
        done(20, 8, 13, "Proved, no drip", verdict="proved"),
        done(20.1, 13, 14, "", passed="not fitted on IW40"),
        done(21, 14, 15, "Leave it out", passed="leave it out"),
        done(24, 15, 16, "Dry and clean"),
        coil(26, 16, "ice-coil", "Ice coil, cold", "20.5 kohm"),
        coil(27, 16, "ice-coil", "Ice coil, cold", "312"),
        done(28, 16, 17, "In limits"),
        coil(31, 17, "water-coil", "Water coil, cold", "OL"),
        done(32, 17, 19, "Out of limits, or open"),
        {"kind": "note", "at": at(33), "step": 19, "text": "Bracket screw worn"},
        done(42, 19, 20),
        done(45, 20, 21),
        done(50, 21, 22),
        done(52, 22, 23),
        done(55, 23, 24, "Dry"),
        done(59, 24, 25),
        done(62, 25, 26, "It fills, and it is dry underneath"),
        done(63, 26, 27),
        {"kind": "part", "at": at(64), "name": "bracket screw", "number": "BS-4", "state": "to order"},
        {"kind": "told", "at": at(64), "text": "Water coil was open. First ice in about four hours; throw that ice away."},
        {"kind": "end", "at": at(65), "step": 27, "end": "in service", "outcome": "repaired", "cause": "double valve or its strainer"},
    ]


def photo(minute: float, step: int, id: str = "f1", words: str = "wires before they came off") -> Event:
    """A photo; its picture is PIXEL."""
    return {"kind": "photo", "at": at(minute), "step": step, "photo": id, "type": "image/png", "width": 1, "height": 1, "words": words}


@dataclass
class Device:
    """A browser with storage of its own, and the demo's site in it."""

    page: Page
    base: str

    def go(self, path: str) -> Page:
        """Open a page of the site."""
        self.page.goto(self.base + path)
        return self.page

    def write(self, events: list[Event], about: dict[str, str] = ABOUT) -> str:
        """Keep a job; gives its id."""
        photos = {event["photo"]: PIXEL for event in events if event.get("kind") == "photo"}
        return self.go(PAGE).evaluate(WRITE, [about, events, photos])

    def sheet(self, job: str) -> Page:
        """Open the sheet of a job, and wait until it is filled."""
        page = self.go(f"job-sheet.html?job={job}")
        page.locator(".paper").wait_for()
        return page

    def saved(self, button: str) -> Download:
        """Press what saves to a file."""
        with self.page.expect_download() as saving:
            self.page.get_by_role("button", name=button).click()
        return saving.value

    def pick(self, name: str, content: bytes) -> str:
        """Pick a file on the list of jobs; gives what is said of it."""
        page = self.go("jobs.html")
        page.locator("input[type=file]").set_input_files({"name": name, "mimeType": "application/json", "buffer": content})
        return opened(page)


def opened(page: Page) -> str:
    """What is said of the file that was picked, once that is known."""
    said = page.locator(".opened:not(:empty)", has_not_text="Looking through it")
    said.wait_for()
    return said.inner_text()


Devices = Callable[..., Device]


@pytest.fixture
def devices(browser: Browser, demo_site: Path, serve: Serve) -> Iterator[Devices]:
    """Makes one device after the other; a script that fails on any of them fails the test."""
    base = serve(demo_site)
    made, wrong = [], []

    def another(**options: object) -> Device:
        context = browser.new_context(timezone_id="UTC", service_workers="block", **options)
        made.append(context)
        context.on("weberror", lambda error: wrong.append(str(error.error)))
        context.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
        return Device(context.new_page(), base)

    yield another
    for context in made:
        context.close()
    assert wrong == []


@pytest.fixture
def device(devices: Devices) -> Device:
    return devices(viewport={"width": 820, "height": 1180})


def picture_bytes() -> bytes:
    """The one photo of these jobs."""
    return base64.b64decode(PIXEL)
