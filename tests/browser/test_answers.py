"""What a customer answered: kept for as long as the tab, told as text, taken along in whichever way the device has."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from hooks.page import bundle
from tests.browser.asked import CHECKS, address, answer, ended, paths, phone, shown, title, ways
from tests.browser.conftest import Serve
from tests.browser.framed import FRAME
from tests.pages.drawn import draw

SOURCE = CHECKS["self-check-no-ice"]
PATH = max(paths(SOURCE), key=len)
TWICE, ENDING = next(
    (path, ends)
    for path in paths(SOURCE)
    if len(ends := [(words, to) for words, to in ways(SOURCE, path[-2]) if ended(SOURCE, to)]) > 1 and len(path) > 2
)
"""A path to a question that more than one answer ends, and those answers."""
SHARED = "navigator.share = async (given) => void (window.given = given);"
LONG = """---
title: Long
page: self-check
id: long
revision: 1
reviewed: 2026-11-02
appliance: Machine
models: {{A1: []}}
time: 3 min
---
{questions}
### The end {{#end end="solved"}}
"""
WORDY = "so that there is very much to read on it, more than anybody would like to have to read at a machine " * 3


@pytest.fixture
def touched(browser: Browser, demo_site: Path, serve: Serve) -> Iterator[Page]:
    """The page at its first question, on a phone that can copy and share."""
    with phone(browser, permissions=["clipboard-read", "clipboard-write"]) as context:
        context.add_init_script(SHARED)
        page = context.new_page()
        page.goto(serve(demo_site) + address(SOURCE))
        yield page


def go(page: Page, path: tuple[str, ...] = PATH) -> None:
    """Answer along a path."""
    for here, to in zip(path, path[1:], strict=False):
        answer(page, next(words for words, leads in ways(SOURCE, here) if leads == to))
    assert shown(page) == path[-1]


def told(page: Page) -> str:
    return page.locator(".summary .told").inner_text()


def test_the_text_says_what_it_is_when_where_it_ended_and_each_question_with_its_answer(touched: Page) -> None:
    go(touched)
    head, *asked = told(touched).split("\n\n")
    lines = head.split("\n")
    assert lines[0] == "No ice · Ice and water cabinet · revision " + str(SOURCE.front.revision)
    assert lines[1] == touched.evaluate("new Date().toLocaleDateString('sv')") + lines[1][10:]
    assert re.fullmatch(r"\d{4}-\d\d-\d\d \d\d:\d\d", lines[1])
    assert lines[2] == f"This is where it ended: {title(SOURCE, PATH[-1])}"
    assert [one.split("\n")[0] for one in asked] == [title(SOURCE, id) for id in PATH[:-1]]


def test_model_and_serial_stand_in_it_if_given_and_are_all_that_can_be_given(touched: Page) -> None:
    go(touched)
    assert "Model" not in told(touched)
    touched.get_by_label("Model", exact=True).fill("IW40")
    touched.get_by_label("Serial number").fill("O-1 <b>")
    assert told(touched).split("\n")[2:4] == ["Model: IW40", "Serial number: O-1 <b>"]
    assert touched.locator(".job :is(input, textarea, select)").count() == 2


def test_stop_tells_which_question_was_left_open(touched: Page) -> None:
    go(touched, PATH[:3])
    touched.locator(".stop-bar .way").tap()
    assert shown(touched) == "stop"
    assert told(touched).split("\n\n")[-1] == f"{title(SOURCE, PATH[2])}\n- not answered"
    assert "dry" in touched.locator("#stop .prose").inner_text()
    touched.locator("#stop .back").tap()
    assert shown(touched) == PATH[2]


def test_loading_anew_and_the_browsers_back_and_forward_keep_the_answers(touched: Page) -> None:
    go(touched)
    touched.get_by_label("Model", exact=True).fill("IW40")
    before = told(touched)
    touched.reload()
    assert told(touched) == before
    touched.go_back()
    assert shown(touched) == PATH[-2]
    touched.go_forward()
    assert re.sub(r"\d\d:\d\d\n", "", told(touched)) == re.sub(r"\d\d:\d\d\n", "", before)


def test_an_answer_given_anew_takes_the_place_of_the_one_before(touched: Page) -> None:
    go(touched, TWICE[:-1])
    for words, to in ENDING:
        answer(touched, words)
        assert shown(touched) == to
        assert told(touched).split("\n\n")[-1] == f"{title(SOURCE, TWICE[-2])}\n- {words}"
        touched.locator(".question[data-open] .back").tap()


def test_starting_again_forgets_all_and_another_tab_knows_nothing(touched: Page, demo_site: Path) -> None:
    go(touched)
    touched.get_by_label("Model", exact=True).fill("IW40")
    other = touched.context.new_page()
    other.goto(touched.url)
    assert "\n- " not in told(other)
    other.close()  # what is behind another tab is drawn once a second
    touched.locator(".question[data-open] .first").tap()
    go(touched)
    assert "IW40" not in told(touched)
    assert "self-check" not in touched.evaluate("Object.keys(localStorage).join()")


def test_it_is_copied_and_pasted_as_the_complaint_of_a_new_job(touched: Page) -> None:
    go(touched)
    text = told(touched)
    touched.get_by_role("button", name="Copy").tap()
    expect(touched.locator(".summary .outcome")).to_have_text("Copied.")
    touched.goto(re.sub(r"self-checks/.*", "ice-cabinet/no-ice-double-valve.html", touched.url))
    complaint = touched.locator("#page--complaint")
    complaint.focus()
    touched.keyboard.press("Control+V")
    assert complaint.input_value() == text


def test_where_nothing_can_be_copied_the_text_is_marked(browser: Browser, demo_site: Path, serve: Serve) -> None:
    with phone(browser) as context:
        context.add_init_script("Object.defineProperty(navigator, 'clipboard', { value: undefined })")
        page = context.new_page()
        page.goto(serve(demo_site) + address(SOURCE))
        go(page)
        page.get_by_role("button", name="Copy").tap()
        assert page.evaluate("getSelection().toString()").strip() == told(page)
        expect(page.locator(".summary .outcome")).to_contain_text("choose Copy")


def test_the_device_shares_it_where_it_can(touched: Page) -> None:
    go(touched)
    touched.get_by_role("button", name="Share").tap()
    assert touched.evaluate("given") == {"title": told(touched).split("\n")[0], "text": told(touched)}


def test_where_the_device_cannot_share_nothing_offers_it(browser: Browser, demo_site: Path, serve: Serve) -> None:
    with phone(browser) as context:
        context.add_init_script("Object.defineProperty(Navigator.prototype, 'share', { value: undefined })")
        page = context.new_page()
        page.goto(serve(demo_site) + address(SOURCE))
        go(page)
        expect(page.get_by_role("button", name="Share")).to_be_hidden()
        expect(page.get_by_role("button", name="Copy")).to_be_visible()


def test_a_mail_to_the_shop_holds_it(touched: Page) -> None:
    go(touched)
    mail = urlsplit(touched.get_by_role("link", name="Send by mail").get_attribute("href"))
    assert (mail.scheme, mail.path) == ("mailto", "help@orsel-valley.example")
    assert parse_qs(mail.query)["body"] == [told(touched).replace("\n", "\r\n")]


def test_nothing_is_sent(browser: Browser, demo_site: Path, serve: Serve) -> None:
    base, sent = serve(demo_site), []
    with phone(browser) as context:
        context.on("request", lambda request: sent.append((request.method, request.url.removeprefix(base))))
        page = context.new_page()
        page.goto(base + address(SOURCE))
        go(page)
        page.get_by_label("Model", exact=True).fill("IW40")
        page.get_by_role("button", name="Copy").tap()
        page.wait_for_load_state("networkidle")
    assert {method for method, _ in sent} == {"GET"}
    assert [path for _, path in sent if not (demo_site / path).is_file()] == []


def test_the_answers_print_alone(touched: Page) -> None:
    go(touched)
    touched.evaluate("window.print = () => (window.printing = document.querySelector('.job').dataset.printing)")
    touched.get_by_role("button", name="Print the answers").tap()
    assert touched.evaluate("printing") == "answers"
    touched.emulate_media(media="print")
    expect(touched.locator(".summary .told")).to_be_visible()
    expect(touched.locator(".question:visible, .stop-bar:visible, .summary button:visible")).to_have_count(0)
    touched.evaluate("dispatchEvent(new Event('afterprint'))")
    expect(touched.locator(".summary")).to_be_hidden()


def test_what_is_too_long_for_a_complaint_leaves_out_the_earliest_answers_and_says_so(
    page: Page, tmp_path: Path, serve: Serve
) -> None:
    asked = "\n".join(f"### {n}: {WORDY}? {{#q{n} decide}}\n- Yes: [on](#{to})\n- No: [on](#{to})" for n, to in enumerate(
        [f"q{n}" for n in range(1, 9)] + ["end"]))
    (tmp_path / "bench.css").write_text(bundle.css(), "utf-8")
    (tmp_path / "bench.js").write_text(bundle.js(), "utf-8")
    (tmp_path / "long.html").write_text(FRAME.format(draw(LONG.format(questions=asked)).html), "utf-8")
    page.goto(serve(tmp_path) + "long.html")
    for _ in range(9):
        page.locator(f"#{shown(page)} .ways a").first.click()
    assert shown(page) == "end"
    text = told(page)
    assert 1500 < len(text) <= 2000
    left_out = re.search(r"\((\d+) earlier answers left out\)", text)
    assert left_out and text.count("\n- Yes") == 9 - int(left_out[1]) and "8: so that" in text
