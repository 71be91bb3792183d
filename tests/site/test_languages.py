"""Customers' pages in several languages: what leads where, what is said, what stands in."""

from __future__ import annotations

import re
from pathlib import Path
from string import Formatter

import pytest
from bs4 import BeautifulSoup

from hooks import check
from hooks.library import together
from hooks.model import LANGUAGES, ORIGINAL
from hooks.page import languages
from hooks.page.generated import address
from hooks.page.languages import language
from hooks.page.site import Site
from tests.library.shops import FACTS, page, parsed
from tests.site.shelved import entries

OTHERS = [code for code in LANGUAGES if code != ORIGINAL]
SITE = Path(languages.__file__).parents[1]
BRACES = Formatter()


ENDS = """### Brennt es? {#fire check decide}

- Ja: [Halt](#stop)
- Nein: [Gut](#good)

### Gut {#good end="solved"}

Schön.

### Halt {#stop end="stop using it"}

Weg.
"""
FILES = {
    "no-ice.md": page("no-ice", "No ice", ENDS, page="self-check", symptoms="[no ice]"),
    "no-ice.de.md": page("no-ice", "Kein Eis", ENDS, page="self-check", symptoms="[kein Eis]").replace("id: no-ice\n", ""),
    "drum.md": page("drum", "Drum stands still", ENDS, page="self-check", appliance="washer", symptoms="[no spin]"),
    "valve.md": page("valve", "The valve", symptoms="[no ice]"),
}
GERMAN = FACTS.replace("    title: Ice cabinet\n", "    title: Ice cabinet\n    translated: {de: Eisschrank}\n").replace(
    "hours: always", "hours: always, translated: {de: {hours: immer}}"
)


def flat(texts: object, at: str = "") -> dict[str, str]:
    """Every text of a catalogue by its place; lists of what people type may differ in length."""
    if isinstance(texts, dict):
        return {k: v for key, one in texts.items() for k, v in flat(one, f"{at}/{key}").items()}
    if isinstance(texts, list) and not at.endswith("/said"):
        return {k: v for n, one in enumerate(texts) for k, v in flat(one, f"{at}/{n}").items()}
    return {at: str(texts)}


def braces(text: str) -> set[str]:
    return {name for _, name, _, _ in BRACES.parse(text) if name}


def test_every_language_has_a_file_and_every_file_a_language() -> None:
    assert {path.stem for path in languages.FOLDER.glob("*.yml")} == set(LANGUAGES)


@pytest.mark.parametrize("code", OTHERS)
def test_a_translation_of_the_sites_words_has_the_same_keys_and_braces(code: str) -> None:
    original, other = flat(language().texts), flat(language(code).texts)
    assert original.keys() == other.keys()
    assert [key for key in original if braces(original[key]) != braces(other[key])] == []


@pytest.mark.parametrize("code", OTHERS)
def test_no_sentence_of_the_sites_words_was_left_in_the_original_language(code: str) -> None:
    original, other = flat(language().texts), flat(language(code).texts)
    assert [key for key, text in original.items() if " " in braces_out(text) and text == other[key]] == []


def braces_out(text: str) -> str:
    return re.sub(r"\W*\{\w+\}\W*", "", text).strip()


def test_every_key_is_said_somewhere() -> None:
    used = "".join(p.read_text("utf-8") for p in SITE.rglob("*") if p.suffix in (".html", ".py", ".js"))
    own = {key for key in language().texts if key not in ("language", "scripts")}
    scripts = language().texts["scripts"]
    assert [k for k in own if f'("{k}"' not in used and f'["{k}"]' not in used] == []
    assert [k for k in scripts if f".{k}" not in used and f'["{k}"]' not in used and f"{k}:" not in used] == []


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Site:
    return drawn(tmp_path_factory.mktemp("shop"), FILES)


def drawn(folder: Path, files: dict[str, str]) -> Site:
    shop = parsed(folder, files, GERMAN)
    return Site(shop, check.examine(shop), f"{folder.name}/", preview=False)


def shown(site: Site, path: str) -> BeautifulSoup:
    return BeautifulSoup(site.html(path, ""), "html.parser")


def test_the_demo_of_a_translation_is_sound(site: Site) -> None:
    assert [f.message for f in site.report.findings if f.file.endswith("no-ice.de.md")] == []


def test_a_page_not_yet_translated_says_so_and_shows_the_original_marked_as_such(site: Site) -> None:
    page = shown(site, "drum.de.md")
    assert page.aside.get_text(strip=True) == language("de")("not-translated")
    assert page.find(lang="en").article.h1.get_text() == "Drum stands still"
    assert site.meta("drum.de.md")["language"] == "de"


def test_a_translated_page_says_the_sites_words_in_its_language(site: Site) -> None:
    article = shown(site, "no-ice.de.md").article
    said = article.get_text()
    assert article["lang"] == "de"
    assert "Test shop, immer" in said and "NUR SCHAUEN UND DRÜCKEN" in said and "Die letzte Frage" in said and "Stopp" in said


def test_the_list_in_a_language_leads_to_pages_in_it_and_names_the_machines_in_it(site: Site) -> None:
    page = shown(site, "customers.de.md")
    assert [h.get_text() for h in page.find_all("h2")] == ["Eisschrank", "Laundry machine"]
    assert [(a.b.get_text(), a["href"], a.get("lang")) for a in page.select(".symptoms a")] == [
        ("Kein Eis", "no-ice.de.html", None),
        ("No spin", "drum.de.html", "en"),
    ]
    assert "immer" in page.get_text()


def test_the_original_lists_name_no_translation(site: Site) -> None:
    for path in ("index.md", "customers.md", "symptoms.md", "machines/cabinet.md"):
        assert not [a["href"] for a in shown(site, path).select("a[href]") if ".de." in a["href"]], path


def test_a_customers_page_leads_to_itself_in_each_language_and_says_which_is_translated(site: Site) -> None:
    told = {path: site.meta(path)["versions"] for path in ("no-ice.md", "no-ice.de.md", "drum.md", "customers.de.md")}
    addresses = {path: [(v.code, v.address, v.translated) for v in found] for path, found in told.items()}
    both = [("en", "no-ice.html", True), ("de", "no-ice.de.html", True)]
    assert addresses["no-ice.md"] == addresses["no-ice.de.md"] == both
    assert addresses["drum.md"] == [("en", "drum.html", True), ("de", "drum.de.html", False)]
    assert addresses["customers.de.md"] == [("en", "customers.html", True), ("de", "customers.de.html", True)]
    assert [v.code for v in told["customers.de.md"] if v.here] == ["de"]


def test_every_link_of_a_customers_menu_stays_in_its_language_but_for_the_workshop(site: Site) -> None:
    *own, workshop = (place for _, place in site.meta("no-ice.de.md")["menu"])
    assert own == ["customers.de.html", "first-minute.de.html"] and workshop == "index.html"


def test_a_machines_pages_are_kept_on_a_device_in_each_language(site: Site) -> None:
    kept = together.machines(site.library)
    assert kept["machines/cabinet"] == ("machines/cabinet.html", "valve.html", "no-ice.html", "no-ice.de.html")
    assert "drum.de.html" in kept["machines/washer"]
    assert {"customers.de.html", "first-minute.de.html"} <= set(together.library(site.library))


def test_a_shop_with_one_language_has_no_page_in_another(tmp_path: Path) -> None:
    one = drawn(tmp_path, {name: text for name, text in FILES.items() if ".de." not in name})
    assert not [p.path for p in one.generated if ".de." in p.path]
    assert one.meta("no-ice.md")["versions"] == ()


@pytest.mark.parametrize("code", OTHERS)
def test_a_translation_is_found_by_its_own_words_and_a_stand_in_is_not_listed(code: str, site: Site) -> None:
    found = {entry["address"]: entry for entry in entries(site._finder(()))}
    assert "kein Eis" in found[f"no-ice.{code}.html"]["symptoms"]
    assert address(f"drum.{code}.md") not in found
