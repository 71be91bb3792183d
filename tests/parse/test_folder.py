"""What is read from the folder of a shop."""

from __future__ import annotations

from pathlib import Path

import pytest

from hooks.parse import folder, page_paths
from tests.parse.cases import HEAD

PAGE = HEAD + "### Look {#a check}\n"
SHOP = (
    "appliances: {m: {title: Test machine, models: {A1: []}, energies: {water: {points: [tap]}}}}\n"
)


def shop(root: Path, files: dict[str, str | bytes]) -> Path:
    """A shop's folder below `root` with these files."""
    for name, text in files.items():
        path = root / "procedures" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return root / "procedures"


def test_pages_are_read_in_the_order_of_their_names_and_hidden_ones_are_not(tmp_path: Path) -> None:
    files = dict.fromkeys(
        ["b.md", "a/z.md", "a.md", ".hidden/x.md", "a/.x.md", "a/picture.png"], PAGE
    )
    made = folder(shop(tmp_path, files))
    assert [parsed.source.name for parsed in made.pages] == [
        "procedures/a.md",
        "procedures/a/z.md",
        "procedures/b.md",
    ]
    assert made.shop.source is None and made.findings == ()
    assert [path.name for path in page_paths(tmp_path / "procedures")] == ["a.md", "z.md", "b.md"]


def test_names_are_shown_as_the_folder_was_given(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = shop(tmp_path / "shops", {"a.md": PAGE})
    monkeypatch.chdir(tmp_path)
    for given in (Path("shops/procedures"), place):
        assert folder(given).pages[0].source.name == "shops/procedures/a.md"
    monkeypatch.chdir(place)
    assert folder(Path()).pages[0].source.name == "a.md"


def test_the_shop_facts_reach_the_pages(tmp_path: Path) -> None:
    head = "---\ntitle: A\npage: procedure\nappliance: m\n---\n### Look {#a check}\n"
    made = folder(shop(tmp_path, {"shop.yml": SHOP, "a.md": head}))
    (parsed,) = made.pages
    assert parsed.sound and parsed.page is not None and parsed.page.appliance_id == "m"
    assert parsed.page.energies[0].file == "procedures/shop.yml"


def found(place: Path) -> list[tuple[str, str, int, str]]:
    return [(f.file, f.rule, f.span.line, f.message) for f in folder(place).findings]


def test_two_pages_with_one_id(tmp_path: Path) -> None:
    place = shop(tmp_path, {"a.md": PAGE, "b.md": PAGE.replace("title", "id: a\ntitle")})
    assert found(place) == [
        ("procedures/b.md", "front-matter", 2, "the page id `a` is that of procedures/a.md too")
    ]


def test_a_page_that_is_not_text(tmp_path: Path) -> None:
    (parsed,) = folder(shop(tmp_path, {"a.md": b"---\ntitle: \xe9\n---\n"})).pages
    assert (parsed.page, parsed.sound) == (None, False)
    assert [(f.rule, f.span.line, f.span.column) for f in parsed.findings] == [("page-text", 2, 8)]


def test_a_page_that_cannot_be_read(tmp_path: Path) -> None:
    place = shop(tmp_path, {"a.md": PAGE})
    (place / "b.md").symlink_to(tmp_path / "nowhere.md")
    _, parsed = folder(place).pages
    assert (parsed.page, parsed.sound) == (None, False)
    assert [(f.rule, f.file) for f in parsed.findings] == [("page-text", "procedures/b.md")]


def test_shop_facts_that_are_not_text(tmp_path: Path) -> None:
    place = shop(tmp_path, {"shop.yml": b"shop: \xff"})
    assert found(place) == [("procedures/shop.yml", "shop-facts", 1, "byte 0xff is not UTF-8 text")]
    assert folder(place).shop.source is not None


def test_files_that_would_be_drawn_and_not_checked(tmp_path: Path) -> None:
    place = shop(
        tmp_path,
        {"a.markdown": PAGE, "b.MD": PAGE, "c.html": "", "shop.yaml": SHOP, "a/shop.yml": SHOP},
    )
    assert found(place) == [
        ("procedures/a.markdown", "page-text", 1, "a page named `.markdown` is not checked"),
        ("procedures/a/shop.yml", "shop-facts", 1, "the shop facts are not read from here"),
        ("procedures/b.MD", "page-text", 1, "a page named `.MD` is not checked"),
        ("procedures/c.html", "page-text", 1, "a page named `.html` is not checked"),
        ("procedures/shop.yaml", "shop-facts", 1, "the shop facts are not read from here"),
    ]


def test_a_linked_folder_is_drawn_and_not_checked(tmp_path: Path) -> None:
    place = shop(tmp_path, {"a.md": PAGE})
    (tmp_path / "elsewhere").mkdir()
    (place / "more").symlink_to(tmp_path / "elsewhere")
    assert found(place) == [("procedures/more", "page-text", 1, "a linked folder is not checked")]


@pytest.mark.parametrize(
    "machine",
    [
        "appliance: test MACHINE\nmodels: {B1: []}",
        "appliance: Test-machines\nmodels: {B1: []}",
        "appliance: Another machine\nmodels: {A-1: []}",
    ],
)
def test_a_page_that_seems_to_mean_a_machine_of_the_shop_may_not_declare_its_own(
    tmp_path: Path, machine: str
) -> None:
    head = f"---\ntitle: A\npage: procedure\n{machine}\nenergies: none\n---\n"
    (parsed,) = folder(shop(tmp_path, {"shop.yml": SHOP, "a.md": head + "### Open {#a work}\n"})).pages
    (finding,) = parsed.findings
    assert finding.rule == "front-matter" and "seems to mean" in finding.message
    assert not parsed.sound


@pytest.mark.parametrize("name", ["samples", "cases", "real"])
def test_the_pages_kept_for_the_check_can_be_trusted(name: str) -> None:
    place = Path(__file__).parents[1] / name
    pages = [p for p in folder(place).pages if not Path(p.source.name).stem.isupper()]
    assert pages and all(parsed.sound for parsed in pages)
    assert all("`good`" in f.message for parsed in pages for f in parsed.findings)
