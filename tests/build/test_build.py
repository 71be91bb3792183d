"""`mkdocs build`: a shop with an error is not built, and keeps what it had."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from PIL import Image

from hooks.export import editor
from tests.build import shop

GPS = 0x8825
SITE = "https://shop.example/pages/"


def listing(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.suffix != ".gz"
    }


def laid(folder: Path, how: str = "") -> Path:
    """The shop with a photo that says where it was taken, on its page, and one of a kind that is not shown."""
    shop.lay(folder, shop.PAGE.replace("Keep the plug in sight.\n", "Keep the plug in sight.\n\n![The plug](plug.jpg)\n"), how)
    exif = Image.Exif()
    exif.get_ifd(GPS)[2] = (46.0, 30.0, 0.0)
    Image.new("RGB", (2000, 1000), "#912b00").save(folder / "procedures/plug.jpg", exif=exif)
    (folder / "procedures/notes.md").write_text("---\ntitle: Notes\npage: text\n---\n# Notes\n\nSee ![the plug](plug.jpg).\n", "utf-8")
    (folder / "procedures/tour.heic").write_bytes(b"where it was taken")
    with (folder / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write(f"site_url: {SITE}\n")
    return folder


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = laid(tmp_path_factory.mktemp("good") / "shop")
    done = shop.run(folder, "mkdocs", "build", "--strict")
    assert done.returncode == 0, done.stderr
    return folder


def test_a_clean_shop_is_built_and_its_facts_are_not_published(built: Path) -> None:
    files = listing(built / "site")
    assert {"index.html", "switch.html", "calculators/coil.html"} <= set(files)
    assert "shop.yml" not in files


def test_a_photo_is_published_in_two_sizes_and_says_nowhere_where_it_was_taken(built: Path) -> None:
    own = Image.open(built / "procedures/plug.jpg")
    assert own.getexif().get_ifd(GPS)
    found = {name: Image.open(built / "site" / name) for name in listing(built / "site") if name.endswith((".jpg", ".heic"))}
    assert {name: one.size for name, one in found.items()} == {"plug.jpg": (1640, 820), "plug.narrow.jpg": (780, 390)}
    assert not any(one.getexif() for one in found.values())
    sizes = 'srcset="plug.narrow.jpg 780w, plug.jpg 1640w"'
    for page in ("switch.html", "notes.html"):
        html = (built / "site" / page).read_text("utf-8")
        assert sizes in html and 'width="1640" height="820"' in html
    listed = json.loads((built / "site/assets/offline/machines/kettle.json").read_text("utf-8"))
    assert {"switch.html", "plug.jpg", "plug.narrow.jpg"} <= set(listed)


def test_what_editors_complete_by_lies_in_the_site(built: Path) -> None:
    laid = {path.name: path.read_text("utf-8") for path in (built / "site/schemas").iterdir()}
    assert laid == editor.files()
    schemas = [json.loads(text) for name, text in laid.items() if name.endswith(".schema.json")]
    assert len(schemas) == 3
    for schema in schemas:
        Draft202012Validator.check_schema(schema)


def test_no_search_engine_is_led_to_the_pages_to_look_at_again(built: Path) -> None:
    assert '<meta name="robots" content="noindex">' in (built / "site/review.html").read_text("utf-8")
    assert "noindex" not in (built / "site/switch.html").read_text("utf-8")
    sitemap = (built / "site/sitemap.xml").read_text("utf-8")
    assert f"{SITE}switch.html" in sitemap and "review.html" not in sitemap


def test_the_same_shop_gives_the_same_bytes(built: Path, tmp_path: Path) -> None:
    again = laid(tmp_path / "again")
    assert shop.run(again, "mkdocs", "build").returncode == 0
    dated = {"sitemap.xml"}
    first, second = listing(built / "site"), listing(again / "site")
    assert {k: v for k, v in first.items() if k not in dated} == {
        k: v for k, v in second.items() if k not in dated
    }


@pytest.mark.parametrize("flags", [(), ("--strict",), ("-q",), ("--strict", "-q")], ids=" ".join)
def test_an_error_stops_the_build_and_the_last_good_site_stands(
    built: Path, tmp_path: Path, flags: tuple[str, ...]
) -> None:
    folder = shop.lay(tmp_path / "shop", shop.BROKEN)
    (folder / "site").symlink_to(built / "site")
    before = listing(built / "site")
    done = shop.run(folder, "mkdocs", "build", *flags)
    assert done.returncode != 0
    assert "procedures/switch.md:33:28: error hands-on-live" in done.stderr
    assert listing(built / "site") == before


def test_the_installed_plugin_builds_the_same_shop(built: Path, tmp_path: Path) -> None:
    folder = laid(tmp_path / "shop", how="plugins: [stillbench]")
    done = shop.run(folder, "mkdocs", "build", "--strict")
    assert done.returncode == 0, done.stderr
    page = "switch.html"
    assert (folder / "site" / page).read_bytes() == (built / "site" / page).read_bytes()
