"""What stands in a template is escaped, whichever way it takes."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup, escape

from hooks.kept import generator
from hooks.page.templates import ENVIRONMENT, _compiled

SHOWN = ENVIRONMENT.from_string("{{ shown }}")
IN_A_MACRO = ENVIRONMENT.from_string("{% macro one(it) %}<b>{{ it }}</b>{% endmacro %}{{ one(shown) }}")
TEXT = st.text(alphabet="ab &<>\"'é;#", max_size=12)


@given(st.one_of(TEXT, TEXT.map(Markup), st.integers(), st.floats(), st.none(), st.booleans()))
def test_a_value_is_shown_as_markupsafe_escapes_it(shown: object) -> None:
    assert SHOWN.render(shown=shown) == str(escape(shown))
    assert IN_A_MACRO.render(shown=shown) == f"<b>{escape(shown)}</b>"


class Word(str):
    """Text of a kind of its own."""


def test_text_of_another_kind_is_escaped_too() -> None:
    assert SHOWN.render(shown=Word("<i>")) == "&lt;i&gt;"


def test_what_was_compiled_is_kept_for_this_generator_alone(tmp_path: Path) -> None:
    earlier = tmp_path / "of an earlier generator"
    earlier.mkdir()
    kept = _compiled(tmp_path)
    assert kept and kept.directory == str(tmp_path / generator())
    assert not earlier.exists()


def test_where_it_cannot_be_kept_the_templates_are_compiled_each_time(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    assert _compiled(tmp_path / "file") is None
