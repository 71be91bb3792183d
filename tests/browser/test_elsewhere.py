"""The calculators on pages of other sites: with PyScript, with Pyodide alone, all from one address."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from calculators._lib.entry import answer
from tests.browser.conftest import Recorder, Serve
from tests.browser.elsewhere import EXAMPLE, lay_elsewhere

REQUEST = json.dumps({"fields": {"readings": "312"}, "limits": {"low": "100", "high": "500", "unit": "ohm"}})
WITH_PYODIDE = """async ([wheel, request]) => {
  const { loadPyodide } = await import(new URL("pyodide/pyodide.mjs", location).href);
  const pyodide = await loadPyodide();
  await pyodide.loadPackage(wheel);
  return pyodide.pyimport("calculators._lib.entry").answer("coil", request);
}"""


@pytest.fixture(scope="module")
def elsewhere(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("elsewhere")
    lay_elsewhere(folder)
    (folder / "bare.html").write_text("<!doctype html><title>Bare</title>", "utf-8")
    return folder


def test_the_documented_page_judges_what_is_typed_and_asks_nobody_else(
    elsewhere: Path, serve: Serve, page: Page, recorder: Recorder
) -> None:
    base = serve(elsewhere)
    page.goto(base + EXAMPLE.name)
    said = page.locator("output")
    expect(said).to_contain_text("is between 100 and 500", timeout=60_000)
    assert said.text_content() == json.loads(answer("coil", REQUEST))["sentence"]
    page.get_by_label("Coil").fill("900")
    expect(said).to_contain_text("above 500")
    page.get_by_label("Coil").fill("")
    expect(said).to_contain_text("nothing is typed")
    assert recorder.beyond(base) == []
    assert any(url.endswith(".whl") for url in recorder.urls)


def test_pyodide_alone_takes_the_wheel(elsewhere: Path, serve: Serve, page: Page, recorder: Recorder) -> None:
    base = serve(elsewhere)
    page.goto(base + "bare.html")
    wheel = next((elsewhere / "calculators").glob("*.whl"))
    assert page.evaluate(WITH_PYODIDE, [f"calculators/{wheel.name}", REQUEST]) == answer("coil", REQUEST)
    assert recorder.beyond(base) == []
