"""Pages kept on a device: no network, a browser that was killed, no room, no service worker."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright, expect

from hooks.device import withdraw
from tests.browser.conftest import Serve
from tests.browser.kept import LIMIT, MACHINE, OTHER, PROCEDURE, Shop, ask, keep, on_tablet, replaced, settle, shop, style, until, visit

FIGURES = """() => Promise.all([...document.querySelectorAll("main img")].map(async (image) => {
  image.loading = "eager";
  return image.decode().then(() => image.naturalWidth > 0, () => false);
}))"""
"""For each figure of a page, also of steps that are folded, whether it is shown."""
JOBS = ("jobs.html", "job-sheet.html")
"""Pages of the shell that list and show what the device keeps of jobs."""
KINDS = {
    "index.html": "What is wrong?",
    MACHINE: "Ice and water cabinet",
    PROCEDURE: "No ice: the double water valve",
    "self-checks/no-ice.html": "",
    "calculators/coil.html": "Coil resistance",
    "symptoms.html": "All symptoms",
    "parts-and-tools.html": "Parts and tools",
    "first-minute.html": "",
    "about.html": "",
}
"""One page of each kind and its heading, where it is not left to the shop."""
SAME = {"": "index.html", "machines/ice-cabinet": MACHINE, f"{PROCEDURE}?a=b#page--steps": PROCEDURE}
"""Other addresses of a page."""


@pytest.fixture
def tablet_shop(demo_site: Path, tmp_path: Path, playwright: Playwright) -> Shop:
    return shop(demo_site, tmp_path, playwright)


def coil(page: Page) -> None:
    """Have the calculator judge a coil."""
    page.get_by_label("Coil reading", exact=True).fill("312")
    page.get_by_label("At least").fill("100")
    page.get_by_label("At most").fill("500")
    expect(page.get_by_role("status", name="Answer").locator(".word")).to_have_text("IN LIMITS", timeout=LIMIT)


def find(page: Page, words: str) -> str:
    """The address of what the search finds first."""
    page.get_by_role("button", name="Search").click()
    page.get_by_role("textbox", name="What is wrong").fill(words)
    found = page.locator(".search .found a").first
    expect(found).to_be_visible(timeout=LIMIT)
    return found.evaluate("(link) => link.href")


def test_every_kind_of_page_that_was_visited_opens_after_a_kill_without_a_network(tablet_shop: Shop) -> None:
    base = tablet_shop.base
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page = context.new_page()
        visit(page, base, "calculators/coil.html")
        coil(page)
        until(page, "(await stillbench.keeper.ask('ask')).sets.runtime.kept")
        visit(page, base, *KINDS)
    with tablet_shop.tablet() as context:
        page = context.new_page()
        for path, heading in KINDS.items():
            page.goto(base + path)
            assert page.url == base + path and style(page)
            assert heading in page.locator("h1").first.inner_text()
            assert all(page.evaluate(FIGURES))
            settle(page)
        for path, same in SAME.items():
            page.goto(base + path)
            assert page.url == base + path
            assert KINDS[same] in page.locator("h1").first.inner_text()
            settle(page)
        page.goto(base + PROCEDURE)
        assert len(page.evaluate(FIGURES)) == 3
        page.goto(page.locator(".figure a").first.evaluate("(link) => link.href"))
        assert page.url == f"{base}ice-cabinet/water-path.svg" and page.locator("svg > title").inner_html() == "The way of the water"
        page.goto(base)
        assert find(page, "DV-2").startswith(base + PROCEDURE)
        page.goto(f"{base}calculators/coil.html")
        coil(page)
        page.goto(f"{base}{OTHER}?from=search")
        expect(page.get_by_role("heading", level=1)).to_have_text("This page is not on this device")
        expect(page.get_by_role("link", name="Try again")).to_have_attribute("href", base + OTHER)
        expect(page.locator(".missing[lang=de] .again")).to_have_attribute("href", base + OTHER)
        expect(page.locator(".missing[lang=de]")).to_contain_text("Diese Seite ist nicht auf diesem Gerät")
        wanted = {*KINDS, *JOBS} - {"job-sheet.html"}
        expect(page.locator("[data-pages] a")).to_have_count(len(wanted))
        listed = page.locator("[data-pages] a").evaluate_all("(links) => links.map((link) => link.href)")
        assert {base + path for path in wanted} == set(listed)


def test_a_kept_machine_opens_whole_and_says_before_and_after_what_it_takes(tablet_shop: Shop) -> None:
    base = tablet_shop.base
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page = context.new_page()
        page.goto(base + MACHINE)
        said = page.locator(".keep .said")
        expect(said).to_contain_text("Takes ", timeout=LIMIT)
        size = ask(page)["sets"]
        bytes_ = sum(size[id]["bytes"] for id in ("runtime", "library", "machines/ice-cabinet"))
        expect(said).to_contain_text(f"Takes {bytes_ / 1e6:.1f} MB")
        assert PROCEDURE not in on_tablet(page)
        keep(page, base)
        expect(said).to_contain_text(f"{bytes_ / 1e6:.1f} MB")
        expect(page.locator(".keep .promise")).to_contain_text("promised")
        assert PROCEDURE in on_tablet(page)
        page.get_by_role("button", name="Take off this device").click()
        expect(said).to_contain_text("Takes ")
        assert PROCEDURE not in on_tablet(page)
        keep(page, base)
    with tablet_shop.tablet() as context:
        page = context.new_page()
        page.goto(base + "index.html")
        page.goto(find(page, "no ice"))
        expect(page.locator("main")).to_have_attribute("data-kind", "self-check")
        page.goto(base + PROCEDURE)
        assert page.evaluate(FIGURES) == [True] * 3
        given = page.evaluate(
            "stillbench.calculate('coil', {fields: {readings: '312'}, limits: {low: '100', high: '500', unit: 'ohm'}})"
        )
        assert given["verdict"] == "in limits"


@pytest.mark.parametrize("room", ["for the pages alone", "for nothing"])
def test_a_full_device_is_said_at_once_and_the_pages_work(room: str, tablet_shop: Shop) -> None:
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page = context.new_page()
        quota = {"origin": tablet_shop.base.removesuffix("/shop/"), "quotaSize": 3_000_000 if "pages" in room else 20_000}
        context.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", quota)
        page.goto(tablet_shop.base + MACHINE)
        if "pages" in room:
            page.get_by_role("button", name="Keep on this device").click()
            assert not ask(page)["sets"]["machines/ice-cabinet"]["kept"]
        else:
            expect(page.locator(".newer")).to_contain_text("no room", timeout=LIMIT)
        expect(page.locator(".keep .said")).to_contain_text("no room", timeout=LIMIT)
        page.goto(tablet_shop.base + PROCEDURE)
        expect(page.get_by_role("heading", level=1)).to_be_visible()


def test_without_a_secure_connection_the_pages_work_and_say_why_they_cannot_be_kept(tablet_shop: Shop) -> None:
    with tablet_shop.open(), tablet_shop.tablet("--host-resolver-rules=MAP shop.test 127.0.0.1") as context:
        page = context.new_page()
        base = tablet_shop.base.replace("127.0.0.1", "shop.test")
        page.goto(base + MACHINE)
        expect(page.locator(".keep .said")).to_contain_text("https")
        expect(page.get_by_role("button", name="Keep on this device")).to_be_hidden()
        page.goto(f"{base}calculators/coil.html")
        coil(page)


def test_from_a_folder_and_where_workers_are_blocked_the_pages_work(browser: Browser, demo_site: Path, serve: Serve) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto((demo_site / MACHINE).as_uri())
    expect(page.locator(".keep .said")).to_contain_text("folder")
    page.goto(serve(demo_site) + "calculators/coil.html")
    coil(page)
    context.close()
    assert errors == []


def test_a_service_worker_that_is_gone_from_the_server_breaks_nothing(tablet_shop: Shop) -> None:
    with tablet_shop.tablet() as context:
        page = context.new_page()
        errors: list[str] = []
        page.on("pageerror", lambda error: errors.append(str(error)))
        with tablet_shop.open():
            visit(page, tablet_shop.base, PROCEDURE)
            (tablet_shop.site / "sw.js").unlink()
            for path in (PROCEDURE, OTHER, "calculators/coil.html"):
                page.goto(tablet_shop.base + path)
                expect(page.get_by_role("heading", level=1)).to_be_visible()
                settle(page)
            coil(page)
        page.goto(tablet_shop.base + PROCEDURE)
        assert style(page) and errors == []


def test_a_preview_takes_away_what_the_published_site_left(tablet_shop: Shop) -> None:
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page = context.new_page()
        visit(page, tablet_shop.base, PROCEDURE)
        withdraw(tablet_shop.site)
        page.reload()
        replaced(page, "!(await caches.keys()).length && !(await navigator.serviceWorker.getRegistrations()).length")


def test_the_site_can_be_installed(tablet_shop: Shop) -> None:
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page = context.new_page()
        page.goto(tablet_shop.base + MACHINE)
        browser = context.new_cdp_session(page)
        manifest = browser.send("Page.getAppManifest")
        assert manifest["url"] == f"{tablet_shop.base}manifest.webmanifest" and manifest["errors"] == []
        assert browser.send("Page.getInstallabilityErrors")["installabilityErrors"] == []


def test_the_service_worker_asks_nobody_else(tablet_shop: Shop, serve: Serve) -> None:
    (tablet_shop.site / "bare.html").write_text("<!doctype html><title>A page without a policy</title>", "utf-8")
    abroad = serve(tablet_shop.site, headers={"Access-Control-Allow-Origin": "*"}) + "index.html"
    ask_abroad = "(url) => fetch(url).then((response) => response.status, () => 'refused')"
    with tablet_shop.open(), tablet_shop.tablet() as context:
        page = context.new_page()
        page.goto(f"{tablet_shop.base}bare.html")
        assert page.evaluate(ask_abroad, abroad) == 200
        visit(page, tablet_shop.base, PROCEDURE)
        page.goto(f"{tablet_shop.base}bare.html")
        assert page.evaluate(ask_abroad, abroad) == "refused"
