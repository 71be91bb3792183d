"""The list of a site's files: every file in its place, by digest; any change makes another edition."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path

import pytest

from hooks import device
from hooks.device import edition
from hooks.library import together
from tests.library.shops import library, page

PAGE = '<title>Valve</title><img class="wide" src="../pictures/a%20b.png"><img src="data:image/png;base64,x"><img src="https://else.where/x.png"><img src="../pictures/wide.png" srcset="../pictures/narrow%20one.png 780w, ../pictures/wide.png 1640w">'
SITE = {
    "index.html": "start",
    "404.html": "not here",
    "offline.html": "on this device",
    "sitemap.xml": "dated",
    "valve/valve.html": PAGE,
    "other.html": "another page",
    "pictures/a b.png": "a picture",
    "pictures/wide.png": "of a tablet",
    "pictures/narrow one.png": "of a phone",
    "pictures/lone.png": "of no page in a set",
    "assets/stillbench/stillbench-1.css": "styles",
    "assets/stillbench/pagefind/pagefind.js": "a search",
    "assets/runtime/1/worker.js": "a worker",
}
PICTURES = ("pictures/a b.png", "pictures/wide.png", "pictures/narrow one.png")
"""Those of the page, in each size."""
SETS = {
    "runtime": ["assets/runtime/1/worker.js"],
    "library": ["assets/stillbench/pagefind/pagefind.js", "no-such-page.html"],
    "machines/cabinet": ["valve/valve.html", "index.html"],
}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    for path, content in SITE.items():
        file = tmp_path / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(content, "utf-8")
    return tmp_path


def facts(site: Path) -> dict:
    """What the service worker knows of its edition."""
    return json.loads(re.match(r"const EDITION = (.*);\n", (site / "sw.js").read_text("utf-8"))[1])


def listed(site: Path, id: str) -> dict:
    return json.loads((site / f"assets/offline/{id}.json").read_text("utf-8"))


def test_each_file_is_listed_where_it_belongs(site: Path) -> None:
    edition.publish(site, SETS)
    shell = {"index.html", "404.html", "offline.html", "assets/stillbench/stillbench-1.css", "assets/offline/pages.json"}
    assert set(facts(site)["shell"]) == shell
    assert set(listed(site, "pages")) == {"valve/valve.html", "other.html", "pictures/lone.png", *PICTURES}
    assert set(listed(site, "runtime")) == {"assets/runtime/1/worker.js"}


def test_a_page_brings_its_own_pictures_along_and_what_every_device_has_is_left_out(site: Path) -> None:
    edition.publish(site, SETS)
    assert set(listed(site, "machines/cabinet")) == {"valve/valve.html", *PICTURES}
    assert set(listed(site, "library")) == {"assets/stillbench/pagefind/pagefind.js"}


def test_digest_and_size_are_those_of_the_file(site: Path) -> None:
    edition.publish(site, SETS)
    files = {**facts(site)["shell"], **listed(site, "pages"), **listed(site, "machines/cabinet")}
    files |= {f"assets/offline/{id}.json": known["list"] for id, known in facts(site)["sets"].items()}
    for path, (digest, size) in files.items():
        content = (site / path).read_bytes()
        assert (digest, size) == (hashlib.sha256(content).hexdigest()[:16], len(content)), path
    of_set = facts(site)["sets"]["machines/cabinet"]
    assert (of_set["bytes"], of_set["pages"]) == (len(PAGE) + sum(len(SITE[path]) for path in PICTURES), 1)


def test_the_same_files_are_the_same_edition_also_when_listed_again(site: Path) -> None:
    first = edition.publish(site, SETS)
    worker = (site / "sw.js").read_bytes()
    (site / "sitemap.xml").write_text("of another day", "utf-8")
    assert edition.publish(site, SETS) == first
    assert (site / "sw.js").read_bytes() == worker


@pytest.mark.parametrize("path", [path for path in SITE if path != "sitemap.xml"])
def test_any_other_byte_is_another_edition(path: str, site: Path) -> None:
    listed_ = {**SETS, "library": [*SETS["library"], "pictures/lone.png"]}
    first = edition.publish(site, listed_)
    (site / path).write_text(SITE[path] + "!", "utf-8")
    assert edition.publish(site, listed_) != first


def test_a_machine_is_kept_with_its_own_pages_and_the_lists_with_any(tmp_path: Path) -> None:
    files = {"cabinet/valve.md": page("valve", "Valve"), "prices.md": "---\ntitle: Prices\npage: text\n---\n# Prices\n"}
    known = library(tmp_path, files)
    assert together.machines(known)["machines/cabinet"] == ("machines/cabinet.html", "cabinet/valve.html")
    assert {"parts-and-tools.html", "prices.html"} <= set(together.library(known))


def test_every_calculator_is_kept_with_any_machine(site: Path, tmp_path: Path) -> None:
    (site / "calculators").mkdir()
    (site / "calculators/coil.html").write_text("a coil", "utf-8")
    device.publish(site, library(tmp_path / "shop", {}), runtime=SETS["runtime"])
    assert "calculators/coil.html" in listed(site, "library")
