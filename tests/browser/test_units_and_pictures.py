"""Calculators' pages in a browser: metric or US kept on the device, pictures whose words have room."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from calculators._lib import entry, shelf
from hooks.page import bundle
from tests.browser.framed import CALCULATE, FRAME, Go, Serve
from tests.browser.test_access import AXE
from tests.site.drawn import generated

CALCULATORS = [shelf.get(i) for i in shelf.ids()]
ANSWERS = {
    (c.id, units): entry.answer_to(
        c.id,
        {
            "fields": c.example.fields,
            "limits": {"low": c.example.low, "high": c.example.high, "unit": c.example.unit or None},
            "units": units,
        },
    )
    for c in CALCULATORS
    for units in ("metric", "US")
}
PLAIN = FRAME.replace("<meta ", "<meta charset=utf-8><meta ", 1)
COLLISIONS = """() => {
  const boxes = [...document.querySelectorAll(".picture text")].map((t) => [t.textContent, t.getBoundingClientRect()]);
  const frame = document.documentElement.clientWidth;
  const out = boxes.filter(([, a]) => a.left < -1 || a.right > frame + 1).map(([words]) => `outside: ${words}`);
  boxes.forEach(([one, a], i) => boxes.slice(i + 1).forEach(([other, b]) => {
    const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
    const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
    if (wide > 1 && high > 6) out.push(`${one} on ${other}`);
  }));
  return out;
}"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = generated(tmp_path_factory.mktemp("shop"))
    here = tmp_path_factory.mktemp("pages")
    (here / "bench.css").write_text(bundle.css(["body.plain { margin: 0; }"]), "utf-8")
    (here / "bench.js").write_text(bundle.js([CALCULATE]), "utf-8")
    for name in ("index", *shelf.ids()):
        (here / f"{name}.html").write_text(PLAIN.format(made[f"calculators/{name}.md"].html), "utf-8")
    return here


@pytest.fixture
def go(folder: Path, serve: Serve, page: Page) -> Go:
    base = serve(folder).rstrip("/")
    page.expose_function("ask", entry.answer)

    def to(address: str) -> Page:
        page.goto(f"{base}/{address}")
        return page

    return to


def test_the_reader_s_units_are_chosen_once_and_kept(go: Go) -> None:
    page = go("index.html")
    expect(page.get_by_label("metric")).to_be_checked()
    page.get_by_label("US").check()
    page = go("ice.html")
    expect(page.get_by_label("US")).to_be_checked()
    assert page.get_by_label("Air round the ice, unit").input_value() == "°F"
    page.locator("[name=air]").fill("0")
    expect(page.locator(".outcome .sentence")).to_contain_text("The first ice comes in")
    assert "lb/day" in page.locator(".outcome .outputs").inner_text()
    page.get_by_label("metric").check()
    expect(page.locator(".outcome .outputs")).to_contain_text("kg/day")


def test_a_number_keeps_the_unit_it_was_typed_in_when_the_reader_s_units_change(go: Go) -> None:
    page = go("ice.html")
    page.locator("[name=air]").fill("-18")
    expect(page.locator(".outcome .sentence")).to_contain_text("52 to 120 min")
    page.get_by_label("US").check()
    assert page.get_by_label("Air round the ice, unit").input_value() == "°C"
    assert page.get_by_label("Air now, if still warm, unit").input_value() == "°F"
    expect(page.locator(".outcome .sentence")).to_contain_text("52 to 120 min")
    assert page.locator("[name=thickness]").locator("xpath=../select").input_value() == "mm"


def test_the_units_hold_where_the_device_keeps_nothing(go: Go) -> None:
    page = go("index.html")
    page.evaluate("() => { Storage.prototype.setItem = () => { throw new Error('full'); }; }")
    page.get_by_label("US").check()
    expect(page.get_by_label("US")).to_be_checked()
    assert page.evaluate("system.chosen()") == "US"


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(
    ("address", "field", "text"), [("ice", "air", "-18"), ("units", "value", "3/8 in"), ("index", "", "")]
)
def test_access_rules_are_kept(go: Go, address: str, field: str, text: str, scheme: str) -> None:
    page = go(f"{address}.html")
    page.evaluate(f"document.documentElement.dataset.scheme = '{scheme}'")
    page.add_style_tag(content="body { background: var(--paper); }")
    if field:
        page.locator(f"[name={field}]").fill(text)
        expect(page.locator(".calculator")).to_have_attribute("data-state", "judged")
    page.add_script_tag(path=AXE)
    frame_rules = {"landmark-one-main": {"enabled": False}, "region": {"enabled": False}}
    found = page.evaluate("(rules) => axe.run(document, { rules })", frame_rules)
    assert len(found["passes"]) > 10
    assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []


@pytest.fixture(scope="module")
def look(browser: Browser) -> Page:
    page = browser.new_page()
    yield page
    page.close()


@pytest.mark.parametrize("width", [820, 390, 360])
@pytest.mark.parametrize(("which", "units"), [k for k, a in ANSWERS.items() if a["picture"]], ids=str)
def test_the_words_of_a_picture_have_room(folder: Path, look: Page, which: str, units: str, width: int) -> None:
    look.set_viewport_size({"width": width, "height": 900})
    body = f'<article class="job calculator"><div class="picture">{ANSWERS[which, units]["picture"]}</div></article>'
    look.set_content(f"<style>{bundle.css()}</style>{body}")
    assert look.evaluate(COLLISIONS) == []


def test_every_pattern_that_pictures_are_filled_with_is_on_their_page(folder: Path) -> None:
    named = {part.split(")")[0] for a in ANSWERS.values() for part in a["picture"].split("url(#")[1:]}
    assert named
    for calculator in CALCULATORS:
        assert all(f'id="{name}"' in (folder / f"{calculator.id}.html").read_text("utf-8") for name in named)
