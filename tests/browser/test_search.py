"""Search: what readers type finds its page first, on the published site and from a folder with the light finder."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from tests.browser.conftest import Recorder, Serve
from tests.browser.queries import Query, queries
from tests.browser.server import serving
from tests.build.shop import PAGE, lay, run

TABLE = queries()
HOSTILE = "<img src=x onerror=document.body.dataset.struck=1>"
STRUCK = (
    PAGE.replace("Change the switch", f"{HOSTILE} switch")
    .replace("title: ", "title: '")
    .replace("switch\npage:", "switch'\npage:")
    .replace("after: none", f"after: none\nsymptoms: ['{HOSTILE} hums']")
    .replace("parts: none", f"parts: [{{name: '{HOSTILE} spring', number: '{HOSTILE}S-1', quantity: 1}}]")
    .replace("### Swap the switch", f"### {HOSTILE} Swap the lever")
    .replace("One wire at a time.", f"`{HOSTILE}` One wire at a time. 1 < 2 &amp;lt; 3 <mark>x</mark>.")
)


def opened(page: Page, address: str) -> Page:
    page.goto(address)
    page.get_by_role("button", name="Search").click()
    return page


def search(page: Page, typed: str) -> list[tuple[str, str]]:
    """Address from the site's root, and text, of all that is found for what is typed into the open sheet."""
    page.get_by_role("textbox", name="What is wrong").fill(typed)
    expect(page.locator(".search .count")).to_contain_text("ound")
    expect(page.locator(".search")).not_to_have_attribute("data-looking", "")
    found = page.locator(".search .found a").all()
    return [((a.get_attribute("href") or "").removeprefix("./"), a.inner_text()) for a in found]


@pytest.fixture(scope="module")
def published(browser: Browser, demo_site: Path) -> Iterator[Page]:
    with serving(demo_site) as base:
        page = browser.new_page()
        yield opened(page, base + "index.html")
        page.close()


@pytest.fixture(scope="module")
def light(browser: Browser, demo_site: Path) -> Iterator[Page]:
    page = browser.new_page()
    yield opened(page, (demo_site / "index.html").as_uri())
    page.close()


@pytest.mark.parametrize("query", TABLE, ids=lambda q: q.typed)
def test_the_published_site_finds_it_first(query: Query, published: Page) -> None:
    assert search(published, query.typed)[0][0] in query.finds


@pytest.mark.parametrize("query", [q for q in TABLE if not q.light], ids=lambda q: q.typed)
def test_the_light_finder_finds_it_first(query: Query, light: Page) -> None:
    assert search(light, query.typed)[0][0] in query.finds


def test_what_is_found_says_its_kind_its_appliance_and_its_stage(published: Page) -> None:
    found = dict(search(published, "no ice"))
    assert "Customers’ check · Ice and water cabinet" in found["self-checks/no-ice.html"]
    assert "Procedure · Ice and water cabinet · find the fault, change the part" in found["ice-cabinet/no-ice-double-valve.html"]
    step = dict(search(published, "thaw the fill tube"))["ice-cabinet/no-ice-double-valve.html#thaw"]
    assert "Step · Ice and water cabinet · Find the fault · on: No ice: the double water valve" in step


def test_what_stands_under_a_heading_of_an_ordinary_page_is_found_there(published: Page) -> None:
    address, told = search(published, "backflow devices")[0]
    assert address == "about.html#what-we-leave-to-licensed-people"
    assert "What we leave to licensed people" in told


def test_a_title_that_was_kept_without_its_machine_is_whole_again(page: Page, demo_site: Path) -> None:
    page.goto((demo_site / "index.html").as_uri())
    told = {"address": "a.html\nb.html", "title": "Leaks: \nLeaks:", "appliance": "Ice cabinet\t0 1"}
    told |= dict.fromkeys(("sort", "stage", "about", "language", "symptoms", "codes", "on"), "")
    titles = """told => (stillbench.shelve(told), stillbench.find("leaks").found.map(({ entry }) => entry.title))"""
    assert set(page.evaluate(titles, told)) == {"Leaks: Ice cabinet", "Leaks:"}


def test_the_words_of_a_text_that_were_typed_are_marked(published: Page) -> None:
    search(published, "red ring")
    first = published.locator(".search .found a").first
    assert [m.inner_text() for m in first.locator("mark").all()] == ["red", "ring:"]


def test_what_is_found_at_once_stays_where_it_is(published: Page) -> None:
    published.evaluate("""() => {
        window.seen = [];
        const list = document.querySelector(".search .found");
        const links = () => [...list.querySelectorAll("a")].map((a) => a.getAttribute("href"));
        window.watcher = new MutationObserver(() => window.seen.push(links()));
        window.watcher.observe(list, { childList: true });
    }""")
    search(published, "valve hums but no water")
    states = [s for s in published.evaluate("(window.watcher.disconnect(), window.seen)") if s]
    assert len(states) == 2 and states[1][: len(states[0])] == states[0]


def test_who_asks_before_the_scripts_are_here_gets_the_search_then(page: Page, demo_site: Path, serve: Serve) -> None:
    late: list[Route] = []
    page.route("**/stillbench-*.js", lambda route: late.append(route))
    page.goto(serve(demo_site) + "index.html", wait_until="commit")
    page.get_by_role("button", name="Search").click()
    expect(page.locator(".search")).not_to_be_visible()
    late[0].continue_()
    expect(page.locator(".search")).to_be_visible()


def test_while_a_search_is_open_nothing_is_fetched_to_be_kept(page: Page, demo_site: Path, serve: Serve) -> None:
    page.goto(serve(demo_site) + "index.html", wait_until="commit")
    page.get_by_role("button", name="Search").click()
    expect(page.locator(".search")).to_be_visible()
    page.wait_for_load_state("load")
    page.wait_for_timeout(1000)
    assert page.evaluate("navigator.serviceWorker.getRegistration().then(String)") == "undefined"
    page.get_by_role("button", name="Close").click()
    assert page.evaluate("navigator.serviceWorker.ready.then(() => true)")


def test_enter_before_anything_is_found_goes_to_what_is_found_first(page: Page, demo_site: Path, serve: Serve) -> None:
    opened(page, serve(demo_site) + "index.html")
    page.get_by_role("textbox", name="What is wrong").fill("red ring")
    page.keyboard.press("Enter")
    page.wait_for_url("**/laundry-machine/fill-valve.html#hot-coil")


def test_what_is_found_is_reached_by_the_keyboard(page: Page, demo_site: Path, serve: Serve) -> None:
    opened(page, serve(demo_site) + "index.html")
    search(page, "thaw the fill tube")
    links = page.locator(".search .found a")
    while not links.first.evaluate("a => a === document.activeElement"):
        assert page.evaluate("document.activeElement !== document.body")
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_url("**/ice-cabinet/no-ice-double-valve.html#thaw")


def test_from_a_sub_path_with_wrong_types_the_texts_are_looked_into_too(
    page: Page, recorder: Recorder, demo_site: Path, serve: Serve
) -> None:
    wrong = dict.fromkeys((".pagefind", ".pf_meta", ".pf_index", ".pf_fragment", ".json"), "text/html")
    base = serve(demo_site, under="/shop/site", types=wrong)
    opened(page, base + "calculators/coil.html")
    found = search(page, "red ring")
    assert found[0][0] == "../laundry-machine/fill-valve.html#hot-coil"
    assert recorder.beyond(base) == []


def test_where_the_index_is_missing_steps_are_found_by_their_titles(page: Page, demo_site: Path, serve: Serve) -> None:
    opened(page, serve(demo_site, missing=("pagefind.js",)) + "index.html")
    assert search(page, "thaw the fill tube")[0][0] == "ice-cabinet/no-ice-double-valve.html#thaw"


def test_what_looks_like_html_in_a_shop_is_shown_as_text(page: Page, tmp_path: Path, serve: Serve) -> None:
    built = run(lay(tmp_path, STRUCK), "mkdocs", "build", "-q", "-d", "site")
    assert built.returncode == 0, built.stderr
    opened(page, serve(tmp_path / "site") + "index.html")
    for typed in ("switch", "hums", "spring", "S-1", "lever", "wire at a time", "img"):
        texts = " ".join(text for _, text in search(page, typed))
        assert HOSTILE in texts or typed == "wire at a time"
    assert page.locator(".search .found img").count() == 0
    assert page.evaluate("document.body.dataset.struck") is None
