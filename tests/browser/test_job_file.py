"""A job as a file: what is saved opens elsewhere whole, and what is no whole job is refused and changes nothing."""

from __future__ import annotations

import copy
import csv
import io
import json
import random
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from playwright.sync_api import expect

from hooks.page import theme
from tests.browser.conftest import ROOT
from tests.browser.jobs import ABOUT, PAGE, Device, Devices, at, coil, device, devices, done, opened, photo, picture_bytes, repair  # noqa: F401

Saved = dict[str, Any]
SCHEMA = json.loads(theme.JOB_SCHEMA.read_text("utf-8"))
SAYS_NOTHING = {"$schema", "$id", "$defs", "title", "then"}
"""Keywords of the schema that refuse nothing by themselves; `then` goes with `if`."""
EVERYTHING = """async () => {
  const { store } = stillbench;
  const jobs = await store.jobs();
  const whole = await Promise.all(jobs.map(async (job) => [job, await store.events(job.id), (await store.photos(job.id)).map(({ id, blob }) => [id, blob.size])]));
  return JSON.stringify(whole);
}"""
PHOTO = """async (id) => {
  const [{ blob }] = await stillbench.store.photos(id);
  return [blob.type, [...new Uint8Array(await blob.arrayBuffer())]];
}"""


def whole() -> list[dict[str, object]]:
    """A job with everything that a job can have."""
    events = repair()
    more = [
        photo(29, 16), photo(29.5, 16, "f2"), {"kind": "photo-gone", "at": at(29.6), "photo": "f2"},
        {"kind": "go", "at": at(29.7), "to": 12}, {"kind": "back", "at": at(29.8), "to": 16},
        done(30, 16, 17, "In limits"), {"kind": "away", "at": at(43), "since": at(42)}, {"kind": "stayed", "at": at(43.1)},
        {"kind": "facts", "at": at(44), "facts": {"serial": "40-1183 B"}},
        {"kind": "timer", "at": at(50.5), "timer": "wait-22", "step": 22, "seconds": 120}, {"kind": "timer-stop", "at": at(51.5), "timer": "wait-22"},
        {"kind": "handed", "at": at(66), "to": "another"},
    ]  # fmt: skip
    return [events[0], *sorted([*events[1:], *more], key=lambda event: event["at"])]


@pytest.fixture
def saved(device: Device) -> Saved:
    """What a page saves of a whole job."""
    device.sheet(device.write(whole()))
    return json.loads(Path(device.saved("Save to a file").path()).read_text("utf-8"))


def test_what_is_saved_opens_on_another_device_and_is_the_same(devices: Devices) -> None:
    here, there = devices(), devices()
    job = here.write(whole())
    sheet = here.sheet(job).evaluate("document.querySelector('.paper').innerText")
    file = here.saved("Save to a file")
    assert file.suggested_filename == "job-26-0412-IW40-40-1183.json"
    said = there.pick("job.json", Path(file.path()).read_bytes())
    assert said.startswith("Opened: Upper Hut, kitchen, IW40 40-1183, 26-0412.")
    assert there.sheet(job).evaluate("document.querySelector('.paper').innerText") == sheet
    kind, content = there.page.evaluate(PHOTO, job)
    assert (kind, bytes(content)) == ("image/png", picture_bytes())
    again = json.loads(Path(there.saved("Save to a file").path()).read_bytes())
    first = json.loads(Path(file.path()).read_bytes())
    assert {**again, "saved": 0, "job": {**again["job"], "changed": 0}} == {**first, "saved": 0, "job": {**first["job"], "changed": 0}}


def test_a_job_that_goes_on_elsewhere_is_proved_again_there(devices: Devices) -> None:
    here, there = devices(), devices()
    job = here.write([e for e in repair() if e["at"] <= at(28)])
    here.sheet(job)
    there.pick("job.json", Path(here.saved("Save to a file").path()).read_bytes())
    label = there.sheet(job).locator(".trace > svg").get_attribute("aria-label")
    assert re.search(r"Power: .*proved off from 10:14, off, not proved from \d\d:\d\d\. Water: .*off, not proved from", label)
    there.page.locator("[data-act=on]").click()
    expect(there.page.locator('[data-desk="open"]')).to_be_attached()
    expect(there.page.locator(".board .now")).to_contain_text("HANDS OFF")


def test_a_job_that_is_here_already_is_left_alone_or_kept_as_a_second_one(device: Device, saved: Saved) -> None:
    content = json.dumps(saved).encode()
    assert "is on this device already" in device.pick("job.json", content)
    before = device.page.evaluate(EVERYTHING)
    device.page.get_by_role("button", name="Leave it").click()
    assert device.page.evaluate(EVERYTHING) == before
    device.pick("job.json", content)
    device.page.get_by_role("button", name="Keep it as a second one").click()
    expect(device.page.locator(".opened")).to_contain_text("Kept as a second one")
    kept = json.loads(device.page.evaluate(EVERYTHING))
    (first, events, photos), (second, others, pictures) = sorted(kept, key=lambda one: one[0]["id"] != saved["job"]["id"])
    assert first["id"] == saved["job"]["id"] != second["id"]
    plain = [[{k: v for k, v in e.items() if k not in ("id", "job")} for e in some] for some in (events, others)]
    assert plain[0] == plain[1] and photos == pictures


def changed(saved: Saved, change: Callable[[Saved], object]) -> bytes:
    """The file with a change made in it."""
    other = copy.deepcopy(saved)
    change(other)
    return json.dumps(other).encode()


def first(saved: Saved, kind: str) -> Saved:
    return next(event for event in saved["events"] if event["kind"] == kind)


CHANGES: dict[str, tuple[Callable[[Saved], object], str]] = {
    "another format": (lambda s: s.update(format="other"), "not a job that was saved from these pages"),
    "a later version": (lambda s: s.update(version=2), "saved by newer pages than these (version 2; these read 1)"),
    "a version that is none": (lambda s: s.update(version="1"), "version is not “1”"),
    "no events": (lambda s: s.update(events=[]), "events is empty"),
    "a lost entry": (lambda s: first(s, "done").pop("step"), "step is missing"),
    "a time in words": (lambda s: first(s, "done").update(at="noon"), "at is not of the right kind"),
    "an unknown kind": (lambda s: first(s, "done").update(kind="explode"), "kind is not one of the words that are known"),
    "an unknown end": (lambda s: first(s, "end").update(end="safe"), "end is not one of the words that are known"),
    "a hostile key": (lambda s: first(s, "facts")["facts"].update({"__proto__": {"serial": "x"}}), "not of the right form"),
    "a way out of the site": (lambda s: s["job"].update(path="https://elsewhere.example/x.html"), "job/path is not of the right form"),
    "a script for a page": (lambda s: s["job"].update(path="javascript:taken=1//.html"), "job/path is not of the right form"),
    "a drawing for a photo": (lambda s: s["photos"][0].update(type="image/svg+xml"), "photos/0/type is not one of the words"),
    "a photo that is none": (lambda s: s["photos"][0].update(data="PHN2Zz4="), "cannot be read"),
    "a photo that is no text": (lambda s: s["photos"][0].update(data="a<b"), "photos/0/data is not of the right form"),
    "one entry twice": (lambda s: s["events"].append(s["events"][0]), "two of its entries are one"),
    "energy without an end": (lambda s: s["graph"]["machines"][0].update(known=[]), "known is empty"),
    "a state that is none": (lambda s: s["graph"]["machines"][0]["known"][0].update(electricity="safe"), "not one of the words"),
    "a page brought along": (lambda s: s.update(article="<script>taken=1</script>"), "an entry that is not known"),
    "more text than anybody types": (lambda s: first(s, "note").update(text="x" * 20_001), "text is too long"),
}  # fmt: skip


def test_what_is_damaged_foreign_hostile_or_from_the_future_is_refused_and_changes_nothing(devices: Devices, saved: Saved) -> None:
    there = devices()
    there.write(repair(), {**ABOUT, "place": "Before"})
    before = there.page.evaluate(EVERYTHING)
    raw = json.dumps(saved).encode()
    texts = {
        "nothing": (b"", "cannot be read"), "words": (b"hello", "cannot be read"), "a list": (b"[1]", "not a job"), "null": (b"null", "not a job"),
        "half of it": (raw[: len(raw) // 2], "cannot be read"), "no UTF-8": (raw.replace(b"Upper", b"\xff\xfe"), "cannot be read"),
        "depth": (b"[" * 200_000, "cannot be read"),
    }  # fmt: skip
    cases = texts | {name: (changed(saved, change), why) for name, (change, why) in CHANGES.items()}
    for name, (content, why) in cases.items():
        said = there.pick("job.json", content)
        assert why in said and "is refused" in said and said.endswith("Nothing was changed."), (name, said)
        assert there.page.evaluate(EVERYTHING) == before, name
    assert there.page.evaluate("window.taken") is None
    assert "Opened" in there.pick("job.json", raw)


def test_what_is_larger_than_any_job_is_refused_unread(device: Device, tmp_path: Path) -> None:
    large = tmp_path / "large.json"
    with large.open("wb") as file:
        file.truncate(60_000_001)
    page = device.go("jobs.html")
    page.locator("input[type=file]").set_input_files(large)
    assert "It is larger than 60 MB; no job is. Nothing was changed." in opened(page)


def test_a_device_without_room_keeps_none_of_it(devices: Devices, saved: Saved) -> None:
    there = devices()
    page = there.go("jobs.html")
    full = """() => {
      const real = IDBObjectStore.prototype.add;
      let left = 5;
      IDBObjectStore.prototype.add = function (...all) {
        if (!left--) throw new DOMException("full", "QuotaExceededError");
        return real.apply(this, all);
      };
    }"""
    page.evaluate(full)
    page.locator("input[type=file]").set_input_files({"name": "job.json", "mimeType": "application/json", "buffer": json.dumps(saved).encode()})
    assert opened(page) == "There is no room for it on this device. Nothing was changed."
    assert page.evaluate(EVERYTHING) == "[]"


TROUBLE = {
    "full": "() => { IDBObjectStore.prototype.add = () => { throw new DOMException('full', 'QuotaExceededError'); }; }",
    "wiped": """async () => {
      const db = await new Promise((done) => (indexedDB.open("stillbench.jobs").onsuccess = (e) => done(e.target.result)));
      const all = db.transaction([...db.objectStoreNames], "readwrite");
      for (const name of db.objectStoreNames) all.objectStore(name).clear();
      await new Promise((done) => (all.oncomplete = done));
      db.close();
    }""",
}


@pytest.mark.parametrize("trouble", TROUBLE)
def test_what_could_not_be_kept_can_still_be_saved_from_the_page(trouble: str, device: Device) -> None:
    job = device.write([e for e in repair() if e["at"] <= at(14)])
    page = device.go(f"{PAGE}?job={job}")
    expect(page.locator('[data-desk="open"]')).to_be_attached()
    page.evaluate(TROUBLE[trouble])
    page.evaluate("(id) => stillbench.store.add(id, 'note', { step: 7, text: 'held' })", job)
    events = json.loads(Path(device.saved("Save this job to a file").path()).read_bytes())["events"]
    kinds = [event["kind"] for event in events]
    assert kinds[:8] == ["begin", *["done"] * 7] and kinds[-1] == "note"
    assert len({event["id"] for event in events}) == len(events)


INJECTED = ("=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", " =cmd|'/C calc'!A0", "＝1+1")


def test_the_table_is_plain_csv_and_no_cell_is_worked_out(device: Device) -> None:
    readings = [{**coil(n, 16, f"r{n}", text, "312"), "meter": 'a "good" one,\nnearly new', "low": -18, "text": "-18.5"} for n, text in enumerate(INJECTED, 1)]
    device.sheet(device.write([repair()[0], *readings], {**ABOUT, "place": '=HYPERLINK("x")'}))
    file = device.saved("Save the readings as a table")
    assert file.suggested_filename == "job-26-0412-IW40-40-1183.csv"
    raw = Path(file.path()).read_bytes()
    assert raw.startswith(b"\xef\xbb\xbf") and raw.endswith(b"\r\n")
    rows = list(csv.DictReader(io.StringIO(raw.decode("utf-8-sig"), newline=""), strict=True))
    assert [row["label"] for row in rows] == [f"'{text}" for text in INJECTED]
    assert {row["place"] for row in rows} == {"'=HYPERLINK(\"x\")"}
    assert {(row["text"], row["low"], row["meter"]) for row in rows} == {("-18.5", "-18", 'a "good" one,\nnearly new')}
    assert {(row["stands"], row["verdict"], row["valueUnit"], row["value"]) for row in rows} == {("yes", "in limits", "ohm", "312")}
    assert rows[0]["time"] == "2026-11-25T10:01:00.000Z"


def keywords(schema: object) -> Iterator[str]:
    """Every keyword of the schema, wherever it stands."""
    if not isinstance(schema, dict):
        return
    for name, value in schema.items():
        yield name
        inside = value.values() if name in ("properties", "$defs") else value if isinstance(value, list) else (value,)
        for part in inside:
            yield from keywords(part)


def test_the_schema_is_one_and_the_page_knows_every_word_of_it(device: Device) -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert set(keywords(SCHEMA)) - SAYS_NOTHING == set(device.go("jobs.html").evaluate("stillbench.wrong.keywords"))


def test_every_kind_of_event_that_a_job_knows_may_stand_in_a_file() -> None:
    script = (ROOT / "hooks/device/job/record.js").read_text("utf-8")
    block = script[script.index("const KINDS = {") : script.index("stillbench.record = ")]
    known = re.findall(r'^    "?([a-z-]+)"?(?:\(|:)', block, re.MULTILINE)
    assert sorted(known) == sorted(SCHEMA["$defs"]["event"]["properties"]["kind"]["enum"])


ODD: tuple[object, ...] = (None, True, 0, 1, -1, 1.5, 1e300, "", "x", "proved", "in", "a b", "__proto__", "é" * 600, "😀" * 499, [], [1], {}, {"a": 1}, {"__proto__": 1}, {"A B": "x"})


def places(data: object, path: tuple[object, ...] = ()) -> Iterator[tuple[object, ...]]:
    """Where something stands in the data."""
    yield path
    inside = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in inside:
        yield from places(value, (*path, key))


def mutant(saved: Saved, draw: random.Random, where: list[tuple[object, ...]]) -> Saved:
    """The file with one or two things put in, taken out or put in the place of others."""
    other = copy.deepcopy(saved)
    for path in draw.sample(where, draw.randint(1, 2)):
        try:
            place: Any = other
            for key in path[:-1]:
                place = place[key]
            what = draw.choice(("replace", "replace", "drop", "add"))
            if what == "drop":
                del place[path[-1]]
            elif what == "add" and isinstance(place[path[-1]], dict):
                place[path[-1]][draw.choice(("more", "__proto__", "Z", "at", "proved"))] = draw.choice(ODD)
            else:
                place[path[-1]] = draw.choice(ODD)
        except (KeyError, IndexError, TypeError):
            continue
    return other


def test_the_page_judges_files_as_another_reader_of_the_schema_does(device: Device, saved: Saved) -> None:
    draw = random.Random(5)
    by_length: dict[int, list[tuple[object, ...]]] = {}
    for path in places(saved):
        if path and path[:3] != ("graph", "machines", 0) or len(path) < 6:
            by_length.setdefault(len(path), []).append(path)
    where = [path for length, some in by_length.items() if length for path in draw.sample(some, min(len(some), 250))]
    mutants = [mutant(saved, draw, where) for _ in range(200)]
    validator = Draft202012Validator(SCHEMA)
    expected = [validator.is_valid(one) for one in (saved, *mutants)]
    page = device.go("jobs.html")
    judge = "(all) => all.map((text) => stillbench.wrong(stillbench.jobSchema, JSON.parse(text)) === '')"
    got = page.evaluate(judge, [json.dumps(one) for one in (saved, *mutants)])
    assert [i for i, (a, b) in enumerate(zip(got, expected, strict=True)) if a != b] == []
    assert expected[0] and 20 < sum(expected) < 180
