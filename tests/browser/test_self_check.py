"""Every self-check of the demo, followed by touch on a phone along every path, and in every state looked at."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from hooks.model import Page as Source
from tests.browser.asked import CHECKS, address, answer, ended, paths, phone, shown, title, ways
from tests.browser.conftest import ROOT, Serve

AXE = (ROOT / "node_modules/axe-core/axe.min.js").read_text("utf-8")
RUN = "axe.run().then(r => r.violations.map(v => [v.id, ...v.nodes.map(n => n.target.join(' '))]))"
SMALL = """() => [...document.querySelectorAll('.job :is(a, button, input)')].filter((e) => e.checkVisibility())
    .map((e) => [e.textContent.trim() || e.name, e.getBoundingClientRect()])
    .filter(([, box]) => box.height < 43.9 || box.width < 43.9).map(([text]) => text)"""
LEFT = {word: n for n, word in enumerate("no one two three four five six seven eight nine".split())}
every_check = pytest.mark.parametrize("id", CHECKS)


def most_left(page: Page) -> int:
    """What the page says of the questions left, in numbers."""
    said = page.locator(".question[data-open] .left span").inner_text()
    return 1 if "last" in said else LEFT[said.split()[2]]


def stop_is_in_view(page: Page) -> bool:
    box = page.locator(".stop-bar .way").bounding_box()
    size = page.viewport_size
    assert box and size
    on_top = "([x, y]) => Boolean(document.elementFromPoint(x, y)?.closest('.stop-bar .way'))"
    middle = [box["x"] + box["width"] / 2, box["y"] + box["height"] / 2]
    return box["x"] >= 0 and box["y"] + box["height"] <= size["height"] and page.evaluate(on_top, middle)


def follow(page: Page, source: Source, gone: tuple[tuple[str, str], ...], found: list[tuple[str, ...]]) -> int:
    """Try every answer from here on, going back after each; gives the questions on the longest way."""
    here = shown(page)
    assert stop_is_in_view(page)
    if ended(source, here):
        found.append((*(id for id, _ in gone), here))
        told = page.locator(".summary .told").inner_text()
        expected = [f"{title(source, id)}\n- {words}" for id, words in gone]
        assert told.split("\n\n")[1:] == expected
        assert told.split("\n\n")[0].endswith(title(source, here))
        assert len(told) <= 2000
        return 0
    expect(page.locator(".summary")).to_be_hidden()
    said, longest = most_left(page) if source.language == "en" else 99, 0
    asked = [id for id, _ in gone] + [here]
    for words, to in ways(source, here):
        answer(page, words)
        assert shown(page) == to
        if to not in asked:
            longest = max(longest, follow(page, source, (*gone, (here, words)), found))
        page.locator(".question[data-open] .back").tap()
        assert shown(page) == here
    assert longest + 1 <= said
    return longest + 1


@every_check
def test_every_path_is_followed_by_touch_to_its_end_and_back(
    id: str, browser: Browser, demo_site: Path, serve: Serve
) -> None:
    source, found, errors = CHECKS[id], [], []
    with phone(browser) as context:
        page = context.new_page()
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.goto(serve(demo_site) + address(source))
        most = most_left(page) if source.language == "en" else 0
        longest = follow(page, source, (), found)
    assert errors == []
    assert sorted(found) == sorted(paths(source))
    assert {path[-1] for path in found} | {s.id for s in source.steps if s.end is None} >= {s.id for s in source.steps}
    assert longest <= 9 and (most == longest or source.language != "en")


@every_check
def test_every_question_asks_little_and_the_first_asks_for_danger(id: str) -> None:
    source = CHECKS[id]
    first, *_ = source.steps
    assert any(source.step(to).end == "stop using it" for _, to in ways(source, first.id))
    assert all(2 <= len(step.ways) <= 3 for step in source.steps if step.end is None)


@every_check
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_access_rules_are_kept_in_every_state(
    id: str, scheme: str, browser: Browser, demo_site: Path, serve: Serve
) -> None:
    source, faults = CHECKS[id], {}
    with phone(browser, color_scheme=scheme) as context:
        page = context.new_page()
        page.goto(serve(demo_site) + address(source))
        page.evaluate(AXE)
        for step in source.steps if scheme == "light" else source.steps[::4]:
            page.evaluate("id => (location.hash = id)", step.id)
            expect(page.locator(f"[id='{step.id}']")).to_be_visible()
            faults[step.id] = page.evaluate(RUN)
    assert {state: found for state, found in faults.items() if found} == {}


@every_check
def test_on_the_smallest_phone_nothing_runs_off_and_all_can_be_touched(
    id: str, browser: Browser, demo_site: Path, serve: Serve
) -> None:
    source = CHECKS[id]
    page = browser.new_page(viewport={"width": 320, "height": 640})
    page.goto(serve(demo_site) + address(source))
    for step in source.steps:
        page.evaluate("id => (location.hash = id)", step.id)
        expect(page.locator(f"[id='{step.id}']")).to_be_visible()
        assert page.evaluate("document.documentElement.scrollWidth") <= 320, step.id
        assert page.evaluate(SMALL) == [], step.id
        assert stop_is_in_view(page), step.id
    page.close()


@every_check
def test_without_a_script_all_questions_stand_there_and_their_answers_lead_to_each_other(
    id: str, browser: Browser, demo_site: Path, serve: Serve
) -> None:
    source = CHECKS[id]
    with phone(browser, java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(serve(demo_site) + address(source))
        for step in source.steps:
            question = page.locator(f"[id='{step.id}']")
            expect(question).to_be_visible()
            for words, to in ways(source, step.id):
                assert question.locator(".ways a", has_text=words).first.get_attribute("href") == f"#{to}"
        expect(page.locator(".script-only:visible, .summary:visible")).to_have_count(0)
        page.locator(".ways a").first.tap()
        expect(page.locator(f"[id='{ways(source, source.steps[0].id)[0][1]}'] h2")).to_be_in_viewport()
        assert page.locator(".stop-bar a").is_visible()


@every_check
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_prints_as_a_leaflet_on_one_sheet(
    id: str, paper: str, page: Page, demo_site: Path, serve: Serve
) -> None:
    page.goto(serve(demo_site) + address(CHECKS[id]))
    assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper))) == 1
    page.emulate_media(media="print")
    assert page.locator(".question:visible").count() == len(CHECKS[id].steps)
    expect(page.locator(".summary")).to_be_hidden()


def test_the_keyboard_alone_leads_from_question_to_question(page: Page, demo_site: Path, serve: Serve) -> None:
    source = next(iter(CHECKS.values()))
    page.goto(serve(demo_site) + address(source))
    path = next(iter(paths(source)))
    for here, to in zip(path, path[1:], strict=False):
        assert shown(page) == here
        link = page.locator(f".question[data-open] .ways a[href='#{to}']").first
        for _ in range(40):
            page.keyboard.press("Tab")
            if link.evaluate("a => a === document.activeElement"):
                break
        page.keyboard.press("Enter")
        expect(page.locator(f"[id='{to}']")).to_be_focused()
    assert shown(page) == path[-1]


@every_check
def test_it_is_found_from_the_first_page_by_what_is_seen(id: str, page: Page, demo_site: Path, serve: Serve) -> None:
    source = CHECKS[id]
    page.goto(serve(demo_site) + ("index.html" if source.language == "en" else f"customers.{source.language}.html"))
    seen = source.front.symptoms[0].text
    link = page.locator(".symptoms a", has_text=re.compile(re.escape(seen), re.IGNORECASE)).first
    assert link.get_attribute("href") == address(source)


def test_search_from_a_customers_page_names_customers_pages_first_and_says_where_the_others_begin(
    page: Page, demo_site: Path, serve: Serve
) -> None:
    source = next(iter(CHECKS.values()))
    page.goto(serve(demo_site) + address(source))
    page.get_by_role("button", name="Search").click()
    page.locator("#search-words").fill("no ice")
    expect(page.locator(".search .others")).to_have_count(1)
    expect(page.locator(".search")).not_to_have_attribute("data-looking", "")
    rows = page.locator(".search .found li").evaluate_all(
        "rows => rows.map(row => row.matches('.others') ? '|' : row.textContent.includes('Customers’ check'))"
    )
    line = rows.index("|")
    assert all(rows[:line]) and not any(rows[line + 1 :]) and 0 < line < len(rows) - 1
