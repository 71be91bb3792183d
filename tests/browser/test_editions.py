"""A site that changes while a device keeps it: old and new never mix, and nothing half comes of a download."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from tests.browser.kept import LIMIT, MACHINE, SELF_CHECK, Shop, ask, keep, on_tablet, replaced, shop, style, until, visit

CHANGED = "parts-and-tools.html"
TITLE, NEW_TITLE = "Parts and tools</h1>", "Parts, tools and more</h1>"
OTHER = "customers.html"


@pytest.fixture
def tablet_shop(demo_site: Path, tmp_path: Path, playwright: Playwright) -> Shop:
    return shop(demo_site, tmp_path, playwright)


def change(tablet_shop: Shop) -> str:
    """A new edition: other styles on every page, another title on one; gives its name."""
    tablet_shop.restyle()
    tablet_shop.rewrite(CHANGED, TITLE, NEW_TITLE)
    return tablet_shop.publish()


def looks(page: Page, base: str, *paths: str) -> set[str]:
    """The styles that the pages wear; each page must have been drawn."""
    found = set()
    for path in paths:
        page.goto(base + path)
        assert page.url == base + path
        found.add(style(page))
    return found


def offered(page: Page) -> None:
    expect(page.get_by_role("button", name="Take it")).to_be_visible(timeout=LIMIT)


def test_a_newer_edition_is_taken_whole_on_a_press_and_not_before(tablet_shop: Shop) -> None:
    base = tablet_shop.base
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page, second = context.new_page(), context.new_page()
        visit(page, base, OTHER)
        keep(page, base)
        old = ask(page)["edition"]
        worn = looks(page, base, CHANGED, OTHER, "index.html")
        second.goto(base + OTHER)
        second.evaluate("window.opened = 'before'")
        new = change(tablet_shop)
        fetched: list[str] = []
        context.on("request", lambda request: fetched.append(request.url))
        page.goto(base + CHANGED)
        offered(page)
        assert looks(page, base, CHANGED, OTHER, SELF_CHECK, "index.html") == worn
        page.goto(base + CHANGED)
        expect(page.get_by_role("heading", level=1)).to_have_text("Parts and tools")
        assert ask(page)["edition"] == old
        page.get_by_role("button", name="Take it").click()
        replaced(page, "document.querySelector('h1')?.textContent === 'Parts, tools and more'")
        assert ask(page)["edition"] == new
        assert not [url for url in fetched if "/assets/runtime/" in url]
        expect(second.get_by_role("button", name="Load this page anew")).to_be_visible(timeout=LIMIT)
        assert second.evaluate("window.opened") == "before"
    with tablet_shop.tablet() as context:
        page = context.new_page()
        assert looks(page, base, CHANGED, OTHER, SELF_CHECK, MACHINE, "index.html") == {"stillbench-000000000000.css"}
        assert ask(page)["edition"] == new
        names = page.evaluate("caches.keys()")
        assert names and all(name.split()[2] == new for name in names)


def test_a_newer_edition_comes_by_itself_when_no_page_is_open(tablet_shop: Shop) -> None:
    base = tablet_shop.base
    with tablet_shop.open():
        with tablet_shop.tablet() as context:
            page = context.new_page()
            visit(page, base, CHANGED)
            new = change(tablet_shop)
            page.goto(base + CHANGED)
            offered(page)
        with tablet_shop.tablet() as context:
            page = context.new_page()
            page.goto(base + CHANGED)
            expect(page.get_by_role("heading", level=1)).to_have_text("Parts, tools and more")
            assert ask(page)["edition"] == new


def test_a_page_of_a_newer_edition_comes_whole_from_the_network_and_is_not_kept(tablet_shop: Shop) -> None:
    base = tablet_shop.base
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page = context.new_page()
        visit(page, base, CHANGED)
        tablet_shop.restyle()
        assert looks(page, base, OTHER) == {"stillbench-000000000000.css"}
        assert looks(page, base, CHANGED) != {"stillbench-000000000000.css"}
        assert OTHER not in on_tablet(page)


def cut_off(tablet_shop: Shop) -> None:
    tablet_shop.cut.append(SELF_CHECK)


def wrong_byte(tablet_shop: Shop) -> None:
    tablet_shop.rewrite(SELF_CHECK, "</title>", "!</title>")


def mend(tablet_shop: Shop) -> None:
    tablet_shop.cut.clear()
    if "!</title>" in (tablet_shop.site / SELF_CHECK).read_text("utf-8"):
        tablet_shop.rewrite(SELF_CHECK, "!</title>", "</title>")


@pytest.mark.parametrize(("harm", "says"), [(cut_off, "network broke off"), (wrong_byte, "not the ones")])
def test_a_machine_that_comes_in_part_is_not_kept_and_goes_on_from_there(
    harm: Callable[[Shop], None], says: str, tablet_shop: Shop
) -> None:
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page = context.new_page()
        harm(tablet_shop)
        page.goto(tablet_shop.base + MACHINE)
        page.get_by_role("button", name="Keep on this device").click()
        expect(page.locator(".keep .said")).to_contain_text(says, timeout=LIMIT)
        assert not ask(page)["sets"]["machines/ice-cabinet"]["kept"]
        assert SELF_CHECK not in on_tablet(page)
        mend(tablet_shop)
        keep(page, tablet_shop.base)
        assert {MACHINE, SELF_CHECK} <= on_tablet(page)


def test_a_browser_killed_while_it_fetches_keeps_nothing_half(tablet_shop: Shop) -> None:
    tablet_shop.stalled.append(SELF_CHECK)
    with tablet_shop.open():
        with tablet_shop.tablet() as context:
            page = context.new_page()
            page.goto(tablet_shop.base + MACHINE)
            with context.expect_event("request", lambda request: request.url.endswith(SELF_CHECK), timeout=LIMIT):
                page.get_by_role("button", name="Keep on this device").click()
        tablet_shop.stalled.clear()
        with tablet_shop.tablet() as context:
            page = context.new_page()
            page.goto(tablet_shop.base + MACHINE)
            assert not ask(page)["sets"]["machines/ice-cabinet"]["kept"]
            keep(page, tablet_shop.base)


def test_an_edition_that_comes_in_part_leaves_the_one_before_as_it_was(tablet_shop: Shop) -> None:
    base = tablet_shop.base
    with tablet_shop.tablet() as context:
        page = context.new_page()
        with tablet_shop.open():
            visit(page, base, CHANGED, OTHER)
            old = ask(page)["edition"]
            worn = looks(page, base, CHANGED)
            new = change(tablet_shop)
            tablet_shop.rewrite(OTHER, "</title>", " !</title>")
            page.goto(base + CHANGED)
            page.evaluate("async () => (await navigator.serviceWorker.getRegistration()).update().catch(String)")
            until(page, "!(await navigator.serviceWorker.getRegistration()).installing")
            assert page.evaluate("navigator.serviceWorker.getRegistration().then((r) => r.waiting)") is None
            assert any(new in name for name in page.evaluate("caches.keys()"))
            expect(page.get_by_role("button", name="Take it")).to_be_hidden()
        assert looks(page, base, CHANGED, OTHER, "index.html") == worn
        assert ask(page)["edition"] == old


def test_what_was_kept_while_a_newer_edition_waited_is_in_it(tablet_shop: Shop) -> None:
    base = tablet_shop.base
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page = context.new_page()
        visit(page, base, CHANGED)
        tablet_shop.rewrite(CHANGED, TITLE, NEW_TITLE)
        tablet_shop.publish()
        page.goto(base + CHANGED)
        offered(page)
        visit(page, base, OTHER)
        page.get_by_role("button", name="Take it").click()
        replaced(page, "!(await navigator.serviceWorker.getRegistration()).waiting")
        page.wait_for_load_state()
        page.goto(base + "index.html")
        assert {CHANGED, OTHER} <= on_tablet(page)
