"""What of a page goes into the index of texts."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import unquote

from bs4 import BeautifulSoup

from hooks.library.collect import collect
from hooks.page import text_index
from hooks.page.text_index import LISTED, Copies
from tests.library.shops import page, parsed

ROOT = Path(text_index.__file__).parent
WARNED = '''
!!! warning water "Flood"
    A cellar fills in minutes. Shut the valve.

'''
FILES = {
    f"p{n:02}.md": page(f"p{n:02}", f"Page {n:02}").replace("###", f"{WARNED if n else ''}###", 1).replace("Look.", f"Look at lamp {n}.")
    for n in range(LISTED + 3)
}


def copies(folder: Path) -> list[str]:
    """The copies of all pages of the shop, in their order."""
    shop = parsed(folder, FILES)
    entries = {e.name: e for e in collect(shop, lambda name: name).entries}
    plain = Copies()
    return [plain.copy(p.page, entries[p.source.name]) for p in shop.pages if p.page]


def test_a_message_in_the_same_words_is_taken_from_as_many_pages_as_a_search_lists(tmp_path: Path) -> None:
    made = copies(tmp_path)
    assert len(made) == len(FILES)
    assert ["A cellar fills" in one for one in made] == [False] + [True] * LISTED + [False] * 2
    assert all(f"Page {n:02}" in one for n, one in enumerate(made))


def test_a_title_that_many_steps_have_stands_in_the_id_of_its_heading_alone(tmp_path: Path) -> None:
    heads = [BeautifulSoup(one, "html.parser").find("h3") for one in copies(tmp_path)]
    titles = [unquote(head["id"].split("|")[2]) for head in heads]
    assert len(set(titles)) == 1 and titles[0]
    assert [head.text == title for head, title in zip(heads, titles)] == [n < LISTED for n in range(len(FILES))]


def test_the_search_lists_no_more_than_that() -> None:
    script = (ROOT / "blocks/search/search.js").read_text("utf-8")
    assert re.findall(r"const MOST = (\d+);", script) == [str(LISTED)]
