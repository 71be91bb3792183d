"""What is kept of a shop never says anything else than a fresh look does."""

from __future__ import annotations

import pickle
import sqlite3
from collections.abc import Callable
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hooks import check, kept, parse
from hooks.diagnostics import Finding
from tests.build import edits, shop


def fresh(folder: Path) -> tuple[Finding, ...]:
    return check.examine(parse.folder(folder)).findings


def remembered(folder: Path) -> tuple[Finding, ...]:
    with kept.beside(folder) as known:
        return check.findings(parse.contents(folder), known)


@given(st.lists(st.sampled_from(sorted(edits.EDITS)), min_size=1, max_size=8), st.integers(0, 99))
@settings(max_examples=30, deadline=None)
def test_after_any_edits_what_is_kept_finds_what_a_fresh_look_finds(names: list[str], seed: int) -> None:
    chance = Random(seed)
    with TemporaryDirectory() as name:
        folder = edits.lay(Path(name, "shop"))
        for edit in names:
            edits.EDITS[edit](folder, chance)
            assert remembered(folder / "procedures") == fresh(folder / "procedures"), edit


@pytest.fixture
def laid(tmp_path: Path) -> Path:
    folder = edits.lay(tmp_path / "shop")
    remembered(folder / "procedures")
    return folder


def looked_at(folder: Path, monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """The pages that are analysed when the shop is checked."""
    seen: set[str] = set()
    analyse = check.analyse
    monkeypatch.setattr(check, "analyse", lambda page, *more: seen.add(page.id) or analyse(page, *more))
    remembered(folder / "procedures")
    return seen


def test_an_unchanged_shop_is_not_looked_at(laid: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert looked_at(laid, monkeypatch) == set()


@pytest.mark.parametrize(
    ("edit", "again"),
    [
        ("say more", {"cord"}),
        ("lose a page that one goes on at", {"lever", "lamp"}),
        ("another kettle", {"switch", "lamp", "cord", "notes"}),
    ],
)
def test_a_page_is_looked_at_again_when_something_that_it_depends_on_changed(
    laid: Path, monkeypatch: pytest.MonkeyPatch, edit: str, again: set[str]
) -> None:
    edits.EDITS[edit](laid, Random(1) if edit != "say more" else _First())
    assert looked_at(laid, monkeypatch) == again


def test_a_page_is_looked_at_again_when_the_shared_steps_in_it_are_others(laid: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for edit in ("shared steps", "use them"):
        edits.EDITS[edit](laid, _Last())
    assert remembered(laid / "procedures") == ()
    edits.change("Keep the plug in sight.", "Keep it in sight.", "make-it-dead.md")(laid, Random())
    assert looked_at(laid, monkeypatch) == {"make-it-dead", "switch", "lamp"}  # the last goes on at the second


class _Last(Random):
    def choice(self, seq):  # type: ignore[no-untyped-def]
        return seq[-1]


class _First(Random):
    def choice(self, seq):  # type: ignore[no-untyped-def]
        return seq[0]


def test_other_code_python_or_packages_make_all_of_it_new(laid: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for module in (kept, parse.shop_folder):
        monkeypatch.setattr(module, "generator", lambda: "another")
    assert looked_at(laid, monkeypatch) == {"switch", "lamp", "cord", "notes"}


def test_every_file_of_the_generator_and_of_the_calculators_counts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("hooks/a.py", "hooks/page/a.html", "calculators/b.py"):
        file = tmp_path / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text("1", "utf-8")
    monkeypatch.setattr(kept, "ROOT", tmp_path)
    known = {kept.generator.__wrapped__()}
    for file in [p for p in tmp_path.rglob("*.*")]:
        file.write_text("2", "utf-8")
        known.add(kept.generator.__wrapped__())
    assert len(known) == 4


def spoil(file: Path, what: Callable[[bytes], bytes]) -> None:
    with sqlite3.connect(file) as database:
        rows = database.execute("SELECT sort, key, value FROM kept").fetchall()
        database.executemany("UPDATE kept SET value = ? WHERE sort = ? AND key = ?", [(what(v), s, k) for s, k, v in rows])


def test_a_damaged_file_or_entry_is_not_believed(laid: Path) -> None:
    file = kept.place(laid / "procedures")
    assert file
    edits.EDITS["take a proof out"](laid, _First())
    found = remembered(laid / "procedures")
    assert found == fresh(laid / "procedures") != ()
    nothing = pickle.dumps(())
    for what in (lambda v: v[:-1], lambda v: b"", lambda v: v[:16] + nothing, lambda v: bytes(16) + nothing):
        spoil(file, what)
        assert remembered(laid / "procedures") == found
    file.write_bytes(b"no database")
    assert remembered(laid / "procedures") == found
    file.unlink()
    file.mkdir()
    assert remembered(laid / "procedures") == found


def test_entries_that_changed_places_are_not_believed(laid: Path) -> None:
    edits.EDITS["take a proof out"](laid, _First())
    found = remembered(laid / "procedures")
    file = kept.place(laid / "procedures")
    assert file
    with sqlite3.connect(file) as database:
        rows = database.execute("SELECT key, value FROM kept WHERE sort = 'check' ORDER BY key").fetchall()
        turned = zip(rows, [*rows[1:], rows[0]], strict=True)
        database.executemany("UPDATE kept SET value = ? WHERE sort = 'check' AND key = ?", [(v, k) for (k, _), (_, v) in turned])
        database.execute("DELETE FROM kept WHERE sort = 'shop'")
    assert remembered(laid / "procedures") == found


def test_only_the_house_s_own_kinds_of_data_are_read(laid: Path, tmp_path: Path) -> None:
    file = kept.place(laid / "procedures")
    mark = tmp_path / "ran"

    class Runs:
        def __reduce__(self) -> tuple[object, ...]:
            return Path.touch, (mark,)

    known = kept.Kept(file)
    known.put("page", "k", Runs())
    known.save()
    assert kept.Kept(file).get("page", "k") is None
    assert not mark.exists()


def test_what_is_no_longer_wanted_is_thrown_away(laid: Path) -> None:
    file = kept.place(laid / "procedures")
    assert file

    def rows() -> int:
        with sqlite3.connect(file) as database:
            return database.execute("SELECT count(*) FROM kept").fetchone()[0]

    before = rows()
    for text in ("Slowly.", "More slowly.", "Slower still."):
        edits.change("One wire at a time.", f"One wire at a time. {text}")(laid, _First())
        remembered(laid / "procedures")
    assert rows() == before


def test_a_shop_without_settings_keeps_nothing(tmp_path: Path) -> None:
    folder = shop.lay(tmp_path / "shop")
    (folder / "mkdocs.yml").unlink()
    assert kept.place(folder / "procedures") is None or tmp_path not in kept.place(folder / "procedures").parents
    remembered(folder / "procedures")
    assert not (folder / ".cache").exists()


def test_rules_and_parsing_ask_neither_the_clock_nor_the_disk() -> None:
    """Else a page could depend on more than its digest holds. The folder is read in one place."""
    asking = ("import os", "import time", "random", "from pathlib import Path\n", "open(", ".today(", ".now(", "environ")
    files = [p for name in ("parse", "check", "model") for p in (kept.ROOT / "hooks" / name).rglob("*.py")]
    texts = [(p.name, p.read_text("utf-8").replace("Image.open(BytesIO(", "")) for p in files]  # what it opens is in memory
    found = {name for name, text in texts if any(word in text for word in asking)}
    assert found == {"shop_folder.py", *found & {"rules.py", "__init__.py"}}
