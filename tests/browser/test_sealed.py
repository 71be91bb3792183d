"""A page runs the site's own scripts and asks its own site, whatever a writer or a reader has put into it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from hooks.page import theme
from tests.browser import hostile
from tests.browser.conftest import Serve
from tests.browser.published import headers, kinds

WATCH = """window.broken = [];
document.addEventListener("securitypolicyviolation", (e) => broken.push(`${e.violatedDirective} ${e.blockedURI} ${e.sample}`));"""
ALIVE = """() => ({
  taken: window.taken,
  handlers: [...document.querySelectorAll("*")].filter((e) => [...e.attributes].some((a) => a.name.startsWith("on") || a.name === "style" && e.style.cssText !== "" && !e.isSameNode(document.documentElement))).map((e) => e.outerHTML),
  links: [...document.querySelectorAll("[href], [src]")].map((e) => e.getAttribute("href") ?? e.getAttribute("src")).filter((a) => /^\\s*(javascript|data|blob|vbscript):/i.test(a)),
  strange: [...document.querySelectorAll("iframe, object, embed, script:not([src]):not([type='application/json'])")].map((e) => e.outerHTML),
})"""
"""What could do something on the page that no script of the site has made."""
INERT = {"taken": None, "handlers": [], "links": [], "strange": []}
SEEN = """() => {
  const page = document.body.cloneNode(true);
  for (const gone of page.querySelectorAll("script, template")) gone.remove();
  return document.title + page.textContent;
}"""
POLICIES = {"in the page": {}, "and as headers": headers()}


@contextmanager
def through(browser: Browser, base: str, **options: object) -> Iterator[BrowserContext]:
    """A browser all of whose requests go through the server at `base`, those of its workers too."""
    root = "/".join(base.split("/")[:3])
    with browser.new_context(proxy={"server": root, "bypass": "<-loopback>"}, **options) as context:
        context.add_init_script(WATCH)
        yield context


def search(page: Page, words: str) -> None:
    page.locator("[data-search-open]").first.click()
    page.locator("dialog.search [name=words]").fill(words)
    expect(page.locator("dialog.search:not([data-looking]) .count")).not_to_contain_text("Fetching")


def use(page: Page) -> None:
    """Do what readers do: search, light, fields, paper."""
    search(page, "ice valve")
    page.locator("dialog.search [data-search-close]").first.click()
    page.locator(".lamp").click()
    page.emulate_media(media="print")
    page.emulate_media(media="screen")
    for field in page.locator("main input[type=text]:visible").all()[:3]:
        field.fill("312")


def test_the_headers_of_the_document_hold_the_policy_of_the_pages() -> None:
    policy = headers()["Content-Security-Policy"]
    assert policy == f"{theme.POLICY}; frame-ancestors 'none'"
    assert "unsafe-eval'" not in policy.replace("'wasm-unsafe-eval'", "") and "unsafe-inline" not in policy


@pytest.mark.parametrize("manner", POLICIES)
def test_no_kind_of_page_breaks_its_policy_or_asks_anybody_else(
    manner: str, browser: Browser, demo_site: Path, serve: Serve
) -> None:
    asked: list[str] = []
    base = serve(demo_site, headers=POLICIES[manner], asked=asked)
    said: list[str] = []
    broken = {}
    with through(browser, base) as context:
        context.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
        context.on("weberror", lambda error: said.append(str(error.error)))
        page = context.new_page()
        for path in kinds(demo_site).values():
            page.goto(base + path)
            use(page)
            page.wait_for_load_state("networkidle")
            if found := page.evaluate("broken"):
                broken[path] = found
    assert broken == {}
    assert [text for text in said if "404" not in text] == []
    assert [a for a in asked if a.endswith(("worker.js", "sw.js", "memory.bin"))]
    assert [address for address in asked if not address.startswith(base)] == []


def test_the_recording_hears_pages_and_workers_and_the_policy_keeps_them(
    browser: Browser, demo_site: Path, serve: Serve
) -> None:
    """What the other tests trust in: a request to somebody else is seen where it is made, and is not made."""
    asked: list[str] = []
    base = serve(demo_site, asked=asked)
    ask = "(a) => fetch(a, { mode: 'no-cors' }).then(() => 'asked', () => 'kept')"
    far = f"{hostile.ELSEWHERE}/far"
    with through(browser, base) as context:
        page = context.new_page()
        page.goto(base + "404.html")
        assert page.evaluate(ask, far) == "kept"
        page.evaluate("document.body.append(Object.assign(document.createElement('script'), { textContent: 'window.taken = 1' }))")
        assert page.evaluate("window.taken") is None
        assert len(page.evaluate("broken")) == 2
    assert far not in asked
    with through(browser, base, bypass_csp=True) as context:
        page = context.new_page()
        page.goto(base + "404.html")
        worker = f"new Worker(URL.createObjectURL(new Blob([`fetch('{far}/worker', {{ mode: 'no-cors' }})`])))"
        with page.expect_request(f"{far}/**"):
            page.evaluate(worker)
        page.evaluate(ask, far)
    assert {far, f"{far}/worker"} <= set(asked)


@pytest.fixture(scope="session")
def hostile_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return hostile.build(tmp_path_factory.mktemp("hostile") / "shop")


@pytest.fixture
def open_page(browser: Browser, hostile_site: Path, serve: Serve) -> Iterator[tuple[Page, str, list[str]]]:
    """A page without any policy to help it, where the site lies, and what goes wrong."""
    asked: list[str] = []
    wrong: list[str] = []
    base = serve(hostile_site, asked=asked)
    with through(browser, base, bypass_csp=True, service_workers="block") as context:
        page = context.new_page()
        page.on("dialog", lambda dialog: (wrong.append(dialog.message), dialog.dismiss()))
        page.on("pageerror", lambda error: wrong.append(str(error)))
        yield page, base, wrong
        page.wait_for_timeout(100)
    assert wrong == []
    assert [address for address in asked if not address.startswith(base)] == []


def inert(page: Page) -> bool:
    alive = page.evaluate(ALIVE)
    assert alive == INERT
    return True


def test_what_a_writer_writes_is_text_on_every_page(
    open_page: tuple[Page, str, list[str]], hostile_site: Path
) -> None:
    page, base, _ = open_page
    seen = ""
    for path in kinds(hostile_site).values():
        page.goto(base + path)
        assert inert(page), path
        seen += page.evaluate(SEEN)
    assert [field for field in hostile.FIELDS if hostile.attack(field) not in seen] == []
    assert [field for field in hostile.ARMS if f"{field}'>" not in seen.lower()] == []


def test_a_name_of_a_file_is_a_name(open_page: tuple[Page, str, list[str]]) -> None:
    page, base, _ = open_page
    page.goto(base + "about.html")
    page.locator("main a", has_text="text-title").first.click()
    expect(page.locator("h1")).to_contain_text(hostile.attack("text-heading"))
    assert inert(page)


@pytest.mark.parametrize("words", ["title", "message-text", "part", "label"])
def test_what_search_finds_is_text(words: str, open_page: tuple[Page, str, list[str]]) -> None:
    page, base, _ = open_page
    page.goto(base + "index.html")
    search(page, hostile.attack(words))
    search_again = page.locator(".search .found a")
    expect(search_again.first).to_be_visible()
    assert inert(page)


ADDRESSES = ("?x={}#{}", "?page={}", "#%", "#%E0%A4%A", "#__proto__", "#graph", "#page--board-1")


@pytest.mark.parametrize("path", ["procedure.html", "check.html", "index.html", "calculators/coil.html", "offline.html"])
def test_an_address_is_only_an_address(path: str, open_page: tuple[Page, str, list[str]]) -> None:
    page, base, _ = open_page
    for address in ADDRESSES:
        page.goto("about:blank")
        page.goto(base + path + address.replace("{}", hostile.attack("address")))
        expect(page.locator("h1").first).to_be_visible()
        assert inert(page), address


KEPT = [
    json.dumps({"accuracy": hostile.attack("kept"), "resolution": hostile.attack("kept"), "__proto__": {"x": 1}}),
    hostile.attack("kept"),
    json.dumps(hostile.attack("kept")),
    json.dumps([hostile.attack("kept")]),
    "null",
    "7",
    "{",
]


@pytest.mark.parametrize("kept", KEPT)
def test_what_lies_on_the_device_is_only_words(kept: str, open_page: tuple[Page, str, list[str]]) -> None:
    page, base, _ = open_page
    page.goto(base + "procedure.html")
    page.evaluate("kept => ['stillbench.my-meter', 'stillbench.scheme', ...Object.keys(localStorage)].forEach((k) => localStorage.setItem(k, kept))", kept)
    for path in ("procedure.html#measure", "calculators/coil.html"):
        page.goto(base + path)
        page.reload()
        page.locator("main input[type=text]:visible").first.fill("312")
        expect(page.locator("html")).to_have_attribute("data-scheme", "light")
        assert inert(page)


TYPED = "3<svg onload=taken=1>"


def test_what_a_reader_types_is_only_words(open_page: tuple[Page, str, list[str]]) -> None:
    page, base, _ = open_page
    page.goto(base + "calculators/coil.html")
    field = page.get_by_label("Coil reading", exact=True)
    field.fill(TYPED)
    why = page.locator("[data-field=readings] .why").first
    expect(why).to_contain_text(TYPED, timeout=60_000)
    page.goto(base + "procedure.html#measure")
    for field in page.locator("#measure input[type=text]:visible").all():
        field.fill(TYPED)
    expect(page.locator("#measure .why").first).to_contain_text(TYPED, timeout=60_000)
    assert inert(page)
