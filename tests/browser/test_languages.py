"""Every customers' page in every language, in a browser: language marked, links, switch, access, paper, search."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from hooks.model import LANGUAGES, ORIGINAL
from hooks.page.languages import language
from tests.browser.conftest import ROOT
from tests.browser.queries import Query, queries
from tests.browser.server import serving
from tests.browser.test_access import AXE

OTHERS = [code for code in LANGUAGES if code != ORIGINAL]
CHECKS = sorted(p.stem for p in (ROOT / "procedures/self-checks").glob("*.md") if "." not in p.stem)
NAMES = ["customers", "first-minute", *(f"self-checks/{name}" for name in CHECKS)]
PAGES = [(name, code) for name in NAMES for code in LANGUAGES]
TRANSLATED = [(query, code) for query in queries() for code in OTHERS if all(f".{code}.html" in to for to in query.finds)]
PHONE = {"width": 390, "height": 844}
SMALL = {"width": 320, "height": 640}


def address(name: str, code: str) -> str:
    return f"{name}.html" if code == ORIGINAL else f"{name}.{code}.html"


def translated(name: str, code: str) -> bool:
    return not name.startswith("self-checks/") or code == ORIGINAL or (ROOT / f"procedures/{name}.{code}.md").is_file()


@pytest.fixture(scope="module")
def base(demo_site: Path) -> Iterator[str]:
    with serving(demo_site) as served:
        yield served


@pytest.fixture(scope="module")
def phone(browser: Browser) -> Iterator[Page]:
    page = browser.new_page(viewport=PHONE)
    yield page
    page.close()


@pytest.fixture
def at(phone: Page, base: str, name: str, code: str) -> Page:
    phone.emulate_media(media="screen")
    phone.goto(base + address(name, code))
    return phone


def test_some_pages_are_translated_and_some_are_not() -> None:
    known = [translated(name, code) for name, code in PAGES if name.startswith("self-checks/") and code in OTHERS]
    assert any(known) and not all(known)


@pytest.mark.parametrize(("name", "code"), PAGES)
def test_each_text_is_marked_with_its_language(at: Page, name: str, code: str) -> None:
    assert at.evaluate("document.documentElement.lang") == code
    inside = ORIGINAL if not translated(name, code) else code
    spoken = "(e) => e.closest('[lang]').lang"
    assert at.locator("main h1").evaluate(spoken) == inside
    assert at.locator(".skip").evaluate(spoken) == code


@pytest.mark.parametrize(("name", "code"), [(n, c) for n, c in PAGES if not translated(n, c)])
def test_a_page_not_yet_translated_says_so_first_in_the_readers_language(at: Page, name: str, code: str) -> None:
    notice = at.locator("main > .not-translated")
    expect(notice).to_have_text(language(code)("not-translated"))
    expect(notice).to_be_in_viewport()
    assert at.locator("link[hreflang]").evaluate_all("all => all.map((a) => a.hreflang)") == [ORIGINAL]


@pytest.mark.parametrize(("name", "code"), PAGES)
def test_links_stay_in_the_language(at: Page, name: str, code: str) -> None:
    links = at.locator("a[href*='.html']:not([hreflang])")
    hrefs = links.evaluate_all("all => all.map((a) => new URL(a.href).pathname)")
    workshop = ("/index.html", "/offline.html", "/machines/")
    away = [h for h in hrefs if not any(w in h for w in workshop) and bool(re.search(rf"\.({'|'.join(OTHERS)})\.html$", h)) is (code == ORIGINAL)]
    assert len(hrefs) > 4 and away == []


@pytest.mark.parametrize(("name", "code"), [(n, c) for n, c in PAGES if c in OTHERS])
def test_the_switch_leads_to_the_same_page_and_back(at: Page, name: str, code: str) -> None:
    at.get_by_role("link", name=language().name).click()
    at.wait_for_url(f"**/{address(name, ORIGINAL)}")
    at.get_by_role("link", name=language(code).name).click()
    at.wait_for_url(f"**/{address(name, code)}")


@pytest.mark.parametrize(("name", "code"), [(n, c) for n, c in PAGES if c in OTHERS])
def test_nothing_of_a_translated_page_breaks_a_rule_of_access_or_a_small_phone(at: Page, name: str, code: str) -> None:
    at.set_viewport_size(SMALL)
    assert at.evaluate("document.documentElement.scrollWidth") <= SMALL["width"]
    at.set_viewport_size(PHONE)
    at.evaluate(AXE.read_text("utf-8"))
    found = at.evaluate("axe.run(document)")
    assert len(found["passes"]) > 10
    assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []


@pytest.mark.parametrize(("name", "code"), [(n, c) for n, c in PAGES if n.startswith("self-checks/") and translated(n, c)])
def test_on_paper_the_sites_words_are_in_the_language_of_the_page(at: Page, name: str, code: str) -> None:
    at.emulate_media(media="print")
    printed = " ".join(at.locator("main").inner_text().split())
    own = ("danger-signs", "look-only", "follow-numbers", "limits")
    assert [key for key in own if language(code)(key) not in printed] == []
    others = [language(other) for other in LANGUAGES if other != code]
    assert [key for say in others for key in own if say(key) in printed] == []


@pytest.mark.parametrize(("query", "code"), TRANSLATED, ids=lambda one: getattr(one, "typed", one))
def test_what_is_typed_in_a_language_finds_its_page_first_from_a_page_in_it(
    phone: Page, base: str, query: Query, code: str
) -> None:
    phone.emulate_media(media="screen")
    phone.goto(base + address("customers", code))
    phone.get_by_role("button", name=language(code)("search")).click()
    phone.locator("#search-words").fill(query.typed)
    first = phone.locator(".search .found a").first
    expect(first).to_have_attribute("href", re.compile("|".join(map(re.escape, query.finds))))
    expect(first.locator("b")).to_have_attribute("lang", code)


@pytest.mark.parametrize("code", OTHERS)
def test_the_start_page_leads_to_what_customers_read_in_their_language(phone: Page, base: str, code: str) -> None:
    phone.goto(base + "index.html")
    phone.get_by_role("link", name=language(code).name).click()
    phone.wait_for_url(f"**/{address('customers', code)}")
