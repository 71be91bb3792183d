"""What is kept of a job on the device: all of it, once, in order, and said at once where it cannot be."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page

from hooks import check, parse
from hooks.check import alike
from hooks.check.course import courses
from hooks.check.energy import machine
from hooks.check.paths import search
from hooks.device import SCRIPTS
from hooks.page import course, graph
from hooks.page.view import look
from tests.browser.conftest import ROOT, Serve

BEGIN = """async () => {
  const { store } = stillbench;
  await store.begin({ id: "j1", page: "p", title: "Pump", digest: "d1" }, { model: "A1" }, { digest: "d1", article: "<article>" });
  for (const step of [1, 2, 3]) await store.add("j1", "done", { step, to: step + 1 });
}"""
EVENTS = "async () => (await stillbench.store.events('j1')).map((e) => [e.n ?? null, e.kind, e.step ?? null])"
ALL = [[0, "begin", None], [1, "done", 1], [2, "done", 2], [3, "done", 3]]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("store")
    (folder / "job.js").write_text("\n".join(p.read_text("utf-8") for p in SCRIPTS if p.parent.name == "job"), "utf-8")
    (folder / "index.html").write_text('<!doctype html><title>t</title><script src="job.js"></script>', "utf-8")
    return folder


@pytest.fixture
def tab(site: Path, serve: Serve, page: Page) -> Page:
    page.goto(serve(site))
    return page


def test_what_was_done_is_there_after_a_reload(tab: Page) -> None:
    tab.evaluate(BEGIN)
    tab.reload()
    assert tab.evaluate(EVENTS) == ALL
    assert tab.evaluate("async () => (await stillbench.store.jobs()).map((j) => j.title)") == ["Pump"]


def test_two_tabs_keep_one_order_and_lose_nothing(tab: Page, context: BrowserContext) -> None:
    tab.evaluate(BEGIN)
    other = context.new_page()
    other.goto(tab.url)
    other.evaluate("() => { window.heard = []; stillbench.store.watch((job) => heard.push(job)); }")
    many = "(from) => { for (let i = 0; i < 20; i++) stillbench.store.add('j1', 'note', { step: from + i }); }"
    tab.evaluate(many, 100)
    other.evaluate(many, 200)
    for one in (tab, other):
        one.evaluate("() => stillbench.store.add('j1', 'told', {})")
    found = tab.evaluate(EVENTS)
    assert [n for n, _, _ in found] == list(range(len(ALL) + 42))
    noted = [step for _, kind, step in found if kind == "note"]
    assert sorted(noted) == [*range(100, 120), *range(200, 220)]
    assert [s for s in noted if s < 200] == list(range(100, 120))
    other.wait_for_function("heard.includes('j1')")


def test_the_same_event_is_kept_once(tab: Page) -> None:
    tab.evaluate(BEGIN)
    tab.evaluate(
        """async () => {
        const real = crypto.getRandomValues;
        crypto.getRandomValues = (bytes) => bytes.fill(7);
        await stillbench.store.add("j1", "note", { step: 5 });
        await stillbench.store.add("j1", "note", { step: 5 });
        crypto.getRandomValues = real;
    }"""
    )
    assert tab.evaluate(EVENTS) == [*ALL, [4, "note", 5]]


def test_a_full_device_is_said_at_once_and_what_was_done_is_still_there_to_save(tab: Page) -> None:
    tab.evaluate(BEGIN)
    tab.evaluate(
        """async () => {
        window.told = [];
        stillbench.store.ontrouble((reason) => told.push(reason));
        const real = IDBObjectStore.prototype.add;
        IDBObjectStore.prototype.add = () => { throw new DOMException("full", "QuotaExceededError"); };
        await stillbench.store.add("j1", "note", { step: 8 });
        IDBObjectStore.prototype.add = real;
    }"""
    )
    assert tab.evaluate("told") == ["", "full"]
    assert tab.evaluate(EVENTS) == [*ALL, [None, "note", 8]]
    tab.evaluate("() => stillbench.store.add('j1', 'note', { step: 9 })")
    assert tab.evaluate("told") == ["", "full", ""]
    assert tab.evaluate(EVENTS) == [*ALL, [4, "note", 8], [5, "note", 9]]


def test_a_wiped_device_is_said_at_once(tab: Page) -> None:
    tab.evaluate(BEGIN)
    tab.evaluate("() => stillbench.store.remove('j1')")
    tab.evaluate("() => stillbench.store.add('j1', 'note', { step: 8 })")
    assert tab.evaluate("stillbench.store.trouble") == "wiped"
    assert tab.evaluate(EVENTS) == [[None, "note", 8]]


def test_a_device_that_keeps_nothing_is_said_and_the_job_goes_on_in_the_page(tab: Page) -> None:
    tab.evaluate("() => { IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); }; }")
    tab.evaluate(BEGIN)
    assert tab.evaluate("stillbench.store.trouble") == "refused"
    assert tab.evaluate(EVENTS) == [[None, kind, step] for _, kind, step in ALL]
    assert tab.evaluate("async () => (await stillbench.store.jobs()).map((j) => j.title)") == ["Pump"]


HEAR = "() => { window.told = []; stillbench.store.ontrouble((reason) => told.push(reason)); }"
SILENT = """() => {
  const real = IDBFactory.prototype.open;
  const answer = new Promise((resolve) => (window.answer = resolve));
  IDBFactory.prototype.open = function (...given) {
    const asked = {};
    answer.then(() => {
      const late = real.apply(this, given);
      Object.defineProperty(asked, "result", { get: () => late.result });
      late.onsuccess = asked.onsuccess;
    });
    return asked;
  };
}"""


def test_a_device_that_fails_for_a_moment_is_asked_again_and_that_is_said(tab: Page) -> None:
    tab.evaluate(BEGIN)
    tab.evaluate(HEAR)
    tab.evaluate("""() => {
        const real = IDBObjectStore.prototype.getAll;
        let fails = 2;
        IDBObjectStore.prototype.getAll = function (...given) {
            if (fails--) throw new DOMException("Internal error.", "UnknownError");
            IDBObjectStore.prototype.getAll = real;
            return real.apply(this, given);
        };
    }""")
    assert tab.evaluate(EVENTS) == ALL
    assert tab.evaluate("told") == ["", "silent", ""]


def test_a_device_that_does_not_answer_is_said_until_it_does(tab: Page) -> None:
    tab.evaluate(BEGIN)
    tab.clock.install()
    tab.reload()
    tab.evaluate(HEAR)
    tab.evaluate(SILENT)
    tab.evaluate(f"() => {{ window.given = ({EVENTS})(); }}")
    tab.clock.run_for(4900)
    assert tab.evaluate("told") == [""]
    tab.clock.run_for(200)
    assert tab.evaluate("told") == ["", "silent"]
    tab.evaluate("answer()")
    assert tab.evaluate("given") == ALL
    assert tab.evaluate("told") == ["", "silent", ""]


RECORDS = """([graph, jobs]) => jobs.map(([model, events]) => {
  const course = stillbench.course(graph, model);
  const record = stillbench.record(course, events);
  return { known: course.states(record.known), proofs: Object.keys(record.proofs).sort(), at: record.at };
})"""


@pytest.mark.parametrize("name", ["no-ice-double-valve", "laundry-fill-valve"])
def test_the_record_of_a_job_says_of_the_energies_what_the_search_says(name: str, tab: Page) -> None:
    shop = parse.folder(ROOT / "procedures")
    page = next(p.page for p in shop.pages if p.page and p.page.id == name)
    analysis = check.analyse(page, shop)[1]
    view = look(page, analysis, shop.shop, None)
    drawn = graph.graph(page, analysis, course.machines(view, repr))
    assert len(courses(page, analysis)) == len(alike(page))
    walks = [(models[0].name, search(page, machine(page, models))) for models in alike(page)]
    nodes = [(model, walk, node) for model, walk in walks for node in list(walk.came)[:: max(1, len(walk.came) // 40)]]
    jobs = [[model, [{"kind": "begin", "at": 0}, *_done(walk, node)]] for model, walk, node in nodes]
    for (_, walk, node), got in zip(nodes, tab.evaluate(RECORDS, [drawn, jobs]), strict=True):
        names = [e.name for e in walk.machine.energies]
        assert got["known"] == {n: s.name.lower() for n, s in zip(names, node.now.states, strict=True)}
        assert got["proofs"] == sorted(n for n, s in got["known"].items() if s == "proved")
        assert got["at"] == (node.place + 1 if walk.came[node] else 0)


def _done(walk: object, node: object) -> list[dict[str, object]]:
    """The events of the path by which the search came to a node."""
    events: list[dict[str, object]] = []
    while came := walk.came[node]:
        before, way = came
        verdict = {True: "proved", False: "not proved", None: None}[way.proof]
        passed = {"passed": way.skipped} if way.skipped else {}
        events.append({"kind": "done", "at": 1, "step": before.place + 1, "to": node.place + 1, "verdict": verdict, **passed})
        node = before
    return json.loads(json.dumps(events[::-1]))
