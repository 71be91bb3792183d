"""The calculators in a real browser: they answer, alone on their origin, and say when they cannot."""

from __future__ import annotations

import csv
import gzip
import json
import shutil
import struct
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

from calculators._lib.entry import answer
from hooks.device import SCRIPTS
from hooks.runtime import FOLDER, RuntimeFiles, lay
from tests.browser.conftest import ROOT, Recorder, Serve
from tests.reference.rows import EXCEPTIONS, is_case, name_of

REFERENCE = ROOT / "tests/reference"

POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; "
    "worker-src 'self'; connect-src 'self'"
)
ASK = "request => window.stillbench.calculate('coil', request)"
STATE = "window.stillbench.state"
COIL = {"fields": {"readings": "312"}, "limits": {"low": "100", "high": "500", "unit": "ohm"}}


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, RuntimeFiles]:
    """A site of two pages, one with a calculator and one without."""
    folder = tmp_path_factory.mktemp("runtime")
    laid = lay(folder, ROOT / "calculators", ROOT / ".cache/runtime")
    script = "\n".join(path.read_text("utf-8") for path in SCRIPTS)
    (folder / "deep").mkdir()
    (folder / "deep/stillbench.js").write_text(script, "utf-8")
    tag = f'<!doctype html><script src="stillbench.js" data-runtime="../{laid.folder}"></script>'
    (folder / "deep/coil.html").write_text(tag + "<form data-calculator=coil></form>", "utf-8")
    (folder / "deep/plain.html").write_text(tag + "<p>No calculator here.", "utf-8")
    return folder, laid


def ready(page: Page, state: str = "ready") -> None:
    page.wait_for_function(f"{STATE} === '{state}'", timeout=60_000)


@pytest.mark.parametrize(
    "manner",
    [
        pytest.param({}, id="plain"),
        pytest.param({"under": "/shops/orsel"}, id="under a sub-path"),
        pytest.param({"headers": {"Content-Security-Policy": POLICY}}, id="strict policy"),
        pytest.param({"types": {".wasm": "text/plain", ".zip": "text/html"}}, id="wrong MIME types"),
    ],
)
def test_an_answer_comes_from_the_worker_and_nothing_from_elsewhere(
    manner: dict, site: tuple[Path, RuntimeFiles], serve: Serve, page: Page, recorder: Recorder
) -> None:
    base = serve(site[0], **manner)
    page.goto(base + "deep/coil.html")
    assert page.evaluate(ASK, COIL)["verdict"] == "in limits"
    assert recorder.beyond(base) == []
    library = base + site[1].folder + "python.zip"
    assert {base + name for name in site[1].files} - {library} <= set(recorder.urls)
    assert library not in recorder.urls


def test_one_worker_serves_a_visit_and_starts_before_it_is_asked(
    site: tuple[Path, RuntimeFiles], serve: Serve, page: Page
) -> None:
    page.goto(serve(site[0]) + "deep/coil.html")
    ready(page)
    answers = page.evaluate(
        "request => Promise.all([1, 2, 3].map(() => window.stillbench.calculate('coil', request)))",
        COIL,
    )
    assert [answer["verdict"] for answer in answers] == ["in limits"] * 3
    assert len(page.workers) == 1


def test_a_page_without_a_calculator_fetches_nothing_of_it(
    site: tuple[Path, RuntimeFiles], serve: Serve, page: Page, recorder: Recorder
) -> None:
    page.goto(serve(site[0]) + "deep/plain.html")
    page.evaluate("new Promise(done => requestIdleCallback(() => setTimeout(done, 200)))")
    assert page.evaluate(STATE) == "off"
    assert page.workers == []
    assert [url for url in recorder.urls if FOLDER in url] == []


def test_the_answer_in_the_page_is_that_of_the_same_python_outside_it(
    site: tuple[Path, RuntimeFiles], serve: Serve, page: Page
) -> None:
    page.goto(serve(site[0]) + "deep/coil.html")
    assert page.evaluate(ASK, COIL) == json.loads(answer("coil", json.dumps(COIL)))


LOST = ["worker.js", "pyodide.js", "pyodide.asm.js", ".wasm", "lock.json", "memory.bin python.zip"]


@pytest.mark.parametrize("lost", LOST)
def test_a_runtime_with_a_file_missing_says_so_and_refuses(
    lost: str, site: tuple[Path, RuntimeFiles], serve: Serve, page: Page
) -> None:
    page.goto(serve(site[0], missing=tuple(lost.split())) + "deep/coil.html")
    refused = page.evaluate(ASK, COIL)
    assert refused.keys() == json.loads(answer("no such", "{}")).keys()
    assert refused["refused"][0]["message"]
    assert refused["verdict"] is None
    assert page.evaluate(STATE) == "failed"
    assert page.evaluate("window.stillbench.reason") == refused["refused"][0]["message"]


def test_a_damaged_runtime_says_so_and_does_not_hang(
    site: tuple[Path, RuntimeFiles], serve: Serve, page: Page, tmp_path: Path
) -> None:
    damaged = tmp_path / "damaged"
    shutil.copytree(site[0], damaged)
    wasm = next(damaged.rglob("*.wasm"))
    wasm.write_bytes(b"<!doctype html> a page of the hotel's network")
    page.goto(serve(damaged) + "deep/coil.html")
    assert page.evaluate(ASK, COIL)["refused"]
    assert page.evaluate(STATE) == "failed"


def cut_short(packed: bytes) -> bytes:
    return packed[:-999]


def of_another_pyodide(packed: bytes) -> bytes:
    data = bytearray(gzip.decompress(packed))
    first_page = 8 + 4 * int.from_bytes(data[4:8], "little")
    data[first_page + 16 : first_page + 48] = bytes(32)
    return gzip.compress(data, 1)


@pytest.mark.parametrize("damage", [cut_short, of_another_pyodide])
def test_a_memory_that_cannot_be_taken_only_costs_time(
    damage: Callable[[bytes], bytes],
    site: tuple[Path, RuntimeFiles],
    serve: Serve,
    page: Page,
    recorder: Recorder,
    tmp_path: Path,
) -> None:
    damaged = shutil.copytree(site[0], tmp_path / "damaged")
    memory = damaged / site[1].folder / "memory.bin"
    memory.write_bytes(damage(memory.read_bytes()))
    base = serve(damaged)
    page.goto(base + "deep/coil.html")
    assert page.evaluate(ASK, COIL) == json.loads(answer("coil", json.dumps(COIL)))
    assert base + site[1].folder + "python.zip" in recorder.urls


def test_after_a_failure_the_next_question_starts_anew(
    site: tuple[Path, RuntimeFiles], serve: Serve, page: Page
) -> None:
    page.goto(serve(site[0]) + "deep/coil.html")
    ready(page)
    page.route("**/worker.js", lambda route: route.abort())
    page.reload()
    assert page.evaluate(ASK, COIL)["refused"]
    page.unroute("**/worker.js")
    assert page.evaluate(ASK, COIL)["verdict"] == "in limits"
    assert page.evaluate(STATE) == "ready"


def test_a_page_that_is_left_stops_its_worker_and_one_come_back_to_starts_it(
    site: tuple[Path, RuntimeFiles], serve: Serve, page: Page
) -> None:
    page.goto(serve(site[0]) + "deep/coil.html")
    ready(page)
    page.evaluate("dispatchEvent(new PageTransitionEvent('pagehide', { persisted: true }))")
    assert page.evaluate(STATE) == "off"
    page.evaluate("dispatchEvent(new PageTransitionEvent('pageshow', { persisted: true }))")
    ready(page)
    assert page.evaluate(ASK, COIL)["verdict"] == "in limits"


def test_listeners_hear_every_state(site: tuple[Path, RuntimeFiles], serve: Serve, page: Page) -> None:
    page.add_init_script(
        "window.heard = []; document.addEventListener('DOMContentLoaded',"
        " () => window.stillbench.onstate(state => window.heard.push(state)))"
    )
    page.goto(serve(site[0]) + "deep/coil.html")
    ready(page)
    assert page.evaluate("window.heard") == ["off", "starting", "ready"]


def test_from_a_folder_on_a_stick_nothing_is_tried(site: tuple[Path, RuntimeFiles], page: Page) -> None:
    page.goto((site[0] / "deep/coil.html").as_uri())
    assert page.evaluate(ASK, COIL)["refused"]
    assert page.evaluate(STATE) == "off"
    assert page.workers == []


@pytest.mark.parametrize("way", ["remembered", "the long way"])
def test_every_reference_row_passes_in_the_browsers_python(
    way: str, site: tuple[Path, RuntimeFiles], serve: Serve, page: Page
) -> None:
    folder, laid = site
    rows = [row for path in sorted(REFERENCE.glob("*.csv")) for row in read_rows(path)]
    assert rows
    scripts = {str(p.relative_to(ROOT)): p.read_text("utf-8") for p in REFERENCE.rglob("*.py") if p.name == "rows.py" or p.parent.name == "ops"}
    (folder / "rows.html").write_text("<!doctype html><title>Rows</title>", "utf-8")
    memory = unpacked((folder / laid.folder / "memory.bin").read_bytes())
    (folder / "memory.raw").write_bytes(memory)
    page.goto(serve(folder) + "rows.html")
    engine = next(name for name in laid.files if name.endswith("pyodide.js")).removesuffix("pyodide.js")
    given = {"engine": engine, "folder": laid.folder, "rows": rows, "scripts": scripts, "quick": way == "remembered"}
    results = page.evaluate(RUN_ROWS, given)
    wrong = [(row, detail) for row, (passed, detail) in zip(rows, results, strict=True) if not passed]
    failed = [(row, detail) for row, detail in wrong if name_of(row) not in EXCEPTIONS]
    assert failed == []


def read_rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as text:
        return [row for row in csv.DictReader(text) if is_case(row)]


def unpacked(memory: bytes) -> bytes:
    """The whole memory: what the worker makes of the file, written apart from it."""
    data = gzip.decompress(memory)
    length, count = struct.unpack_from("<2I", data)
    pages = iter(data[at : at + 4096] for at in range(8 + 4 * count, len(data), 4096))
    whole = bytearray(length)
    for number in struct.unpack_from(f"<{count}I", data, 8):
        whole[number * 4096 : number * 4096 + 4096] = next(pages)
    return bytes(whole)


RUN_ROWS = """async ({ engine, folder, rows, scripts, quick }) => {
  const from = (path) => new URL(path, location).href;
  const { loadPyodide } = await import(from(engine + "pyodide.js"));
  const { default: createPyodideModule } = await import(from(engine + "pyodide.asm.js"));
  const memory = quick && { _loadSnapshot: await (await fetch("memory.raw")).arrayBuffer() };
  const pyodide = await loadPyodide({
    indexURL: from(engine), stdLibURL: from(folder + "python.zip"), createPyodideModule, ...memory,
  });
  pyodide.FS.mkdirTree("tests/reference/ops");
  for (const [path, text] of Object.entries(scripts)) pyodide.FS.writeFile(path, text);
  const { run_row } = pyodide.pyimport("tests.reference.rows");
  return rows.map((row) => run_row(pyodide.toPy(row)).toJs());
}"""
