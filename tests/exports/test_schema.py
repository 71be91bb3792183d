"""The schemas take what the parser takes and refuse what it refuses for its keys and its shape."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft7Validator, Draft202012Validator, FormatChecker

from hooks.diagnostics import Finding
from hooks.export import schema
from hooks.model import Kind, Shop
from hooks.parse import page, shop_facts
from hooks.parse.fields import APPLIANCE, CONDITION, ENERGY, PAGE, PART, PEOPLE, READING, SHOP
from hooks.parse.fit import NAME
from hooks.source import from_text
from tests.exports.yaml_core import load
from tests.parse.cases import HERE, Case, cases

ROOT = Path(__file__).parents[2]
FRONT, FACTS, READINGS = schema.front_matter(), schema.shop(), schema.reading()
ALL = {"front matter": FRONT, "shop": FACTS, "reading": READINGS}
_FOUND = [p for folder in ("procedures", "tests/samples", "tests/real") for p in sorted((ROOT / folder).rglob("*.md"))]
PAGES = [p for p in _FOUND if p.read_text("utf-8").startswith("---\n")]
SHAPE = re.compile(
    r"is not a key of|the front matter lacks|`[\w-]+` lacks|entry of .* lacks|reading lacks `|must be text|must be a list|must have"
    r"|is a sentence with a colon|is an empty list| is empty$|has \d+ entries|is not one word|is not known|is not (a number|a whole number|true or false)|kind of page|names nothing|not a day|is not a time"
)  # fmt: skip
FENCE = re.compile(r"^```reading\n(.*?)^```$", re.MULTILINE | re.DOTALL)
CASES = [case for file in sorted(HERE.glob("*.txt")) for case in cases(file.name)]


def refused(made: schema.Schema, node: Any) -> list[str]:
    """Why a schema does not take it."""
    found = Draft202012Validator(made, format_checker=FormatChecker()).iter_errors(node)
    return [f"{'/'.join(map(str, error.absolute_path))}: {error.message}" for error in found]


def by_itself(made: schema.Schema, node: Any) -> list[str]:
    """The same without the keys that only a rule asks for: the parser reads a page that lacks them."""
    asked = {f": '{row.name}' is a required property" for row in PAGE if row.asked}
    return [error for error in refused(made, node) if error not in asked]


def front_of(text: str) -> Any:
    return load(text.split("\n---", 1)[0].removeprefix("---"))


def written(case: Case) -> Iterator[tuple[schema.Schema, Any]]:
    """Each piece of YAML in a case, beside the schema it must keep; none where it is no YAML."""
    try:
        if case.name.startswith("shop:"):
            yield FACTS, load(case.text)
        elif case.text.startswith("---"):
            yield FRONT, front_of(case.text)
            for fence in FENCE.findall(case.text):
                yield READINGS, load(fence)
    except yaml.YAMLError:
        return


def findings(case: Case) -> tuple[Finding, ...]:
    source = from_text(case.text, "page.md")
    return shop_facts(source)[1] if case.name.startswith("shop:") else page(source, Shop(None)).findings


RULES = ("front-matter", "shop-facts", "reading-incomplete", "page-unidentified")


def is_of_shape(case: Case) -> bool:
    """Whether the parser refuses it for its keys or its shape, and not for what a schema never sees: anchors, tags."""
    said = [f.message for f in findings(case) if f.rule in RULES]
    return any(map(SHAPE.search, said)) and not any("stands here" in one for one in said)


WRONG = [c for c in CASES if tuple(written(c)) and is_of_shape(c)]
RIGHT = [c for c in CASES if not c.expected and tuple(written(c))]


@pytest.mark.parametrize("made", ALL.values(), ids=ALL.keys())
def test_a_schema_is_one_and_means_the_same_in_the_older_draft_that_editors_read(made: schema.Schema) -> None:
    Draft202012Validator.check_schema(made)
    Draft7Validator.check_schema({**made, "$schema": "http://json-schema.org/draft-07/schema#"})
    newer = {"$ref", "$defs", "prefixItems", "unevaluatedProperties", "dependentRequired", "dependentSchemas", "minContains"}
    assert not newer & set(_keywords(made))


def _keywords(node: Any) -> Iterator[str]:
    if isinstance(node, dict):
        yield from node
    for value in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
        yield from _keywords(value)


@pytest.mark.parametrize("path", PAGES, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_front_matter_of_real_pages_is_taken(path: Path) -> None:
    assert refused(FRONT, front_of(path.read_text("utf-8"))) == []


def test_the_shop_facts_of_the_demo_are_taken() -> None:
    assert refused(FACTS, load((ROOT / "procedures/shop.yml").read_text("utf-8"))) == []


def test_the_readings_of_real_pages_are_taken() -> None:
    fences = [fence for path in PAGES for fence in FENCE.findall(path.read_text("utf-8"))]
    assert len(fences) > 5
    assert [refused(READINGS, load(fence)) for fence in fences] == [[]] * len(fences)


def test_enough_cases_are_about_keys_and_shapes() -> None:
    assert len(WRONG) >= 25 and len(RIGHT) > 30


@pytest.mark.parametrize("case", WRONG, ids=lambda c: c.name)
def test_what_the_parser_refuses_for_keys_or_shape_the_schema_refuses(case: Case) -> None:
    assert any(by_itself(made, node) for made, node in written(case))


@pytest.mark.parametrize("case", RIGHT, ids=lambda c: c.name)
def test_what_the_parser_takes_the_schema_takes_but_for_keys_that_a_rule_asks(case: Case) -> None:
    assert [error for made, node in written(case) for error in by_itself(made, node)] == []


@pytest.mark.parametrize("kind", Kind)
def test_a_key_stands_in_the_schema_of_a_kind_of_page_if_it_may_stand_on_it(kind: Kind) -> None:
    made = schema.of_kind(kind)
    assert set(made["properties"]) == {row.name for row in PAGE if kind in row.may}
    assert made["additionalProperties"] is False
    assert all(field["description"] for field in made["properties"].values())


KEYED = {"appliance": APPLIANCE, "energy": ENERGY, "people": PEOPLE, "condition": CONDITION, "part": PART, "reading": READING, "shop": SHOP}


@pytest.mark.parametrize("name", KEYED)
def test_every_mapping_with_known_keys_takes_no_other(name: str) -> None:
    keys = {field.name for field in KEYED[name].fields}
    found = [one for made in ALL.values() for one in _objects(made) if set(one["properties"]) == keys]
    assert found and all(one["additionalProperties"] is False for one in found)


def _objects(node: Any) -> Iterator[dict[str, Any]]:
    if isinstance(node, dict) and isinstance(node.get("properties"), dict):
        yield node
    for value in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
        yield from _objects(value)


@given(st.text(max_size=8))
def test_a_name_to_the_parser_is_a_name_to_the_schema(text: str) -> None:
    if NAME.fullmatch(text):
        assert re.fullmatch(schema.NAME, text)


@given(st.text("ab1-_ .:/é", max_size=6))
def test_of_letters_digits_and_ascii_signs_both_know_the_same_names(text: str) -> None:
    assert bool(NAME.fullmatch(text)) is bool(re.fullmatch(schema.NAME, text))


PIECES = {
    "title": "A page", "page": "procedure", "appliance": "Test machine", "models": "{A1: []}",
    "energies": "{electricity: {points: [plug]}}", "people": "{number: 1, skill: basic}", "time": "5 min", "tools": "none",
    "parts": "[{name: valve}]", "before": "none", "reviewed": "2026-11-02",
}  # fmt: skip
VALUES = (
    "", "[]", "{}", "none", "[none]", "[a, b]", "{a: 1}", "{a: []}", "{a: none}", "x y", "a", "0", "1", "1.5", "true", "'2'", "5 min", "1 h 30 min",
    "[{name: a}]", "[{nam: a}]", "[{name: a, quantity: 0}]", "{number: 2, skill: any}", "{number: none, skill: any}", "2026-01-31", "2026-1-31",
    "[{page: a, holds: {b: proved}}]", "[{page: a, holds: {b: cut}}]", "{e: {points: none, charged-by: e}}", "{e: {points: [a], traped: true}}",
)  # fmt: skip


@settings(max_examples=400)
@given(st.sampled_from([key for key in PIECES if key != "page"]), st.sampled_from(VALUES), st.sampled_from(("", "", "", "x")))
def test_parser_and_schema_refuse_the_same_shapes_whatever_stands_under_a_key(key: str, value: str, slip: str) -> None:
    lines = [f"{k}{slip}: {value}" if k == key else f"{k}: {usual}" for k, usual in PIECES.items()]
    text = "\n".join(("---", *lines, "---", "### Look {#a check}", "Look.", ""))
    said = [f.message for f in page(from_text(text, "page.md"), Shop(None)).findings if f.rule in (*RULES, *BY_KEY)]
    of_shape = [one for one in said if SHAPE.search(one)]
    found = by_itself(FRONT, front_of(text))
    assert bool(of_shape) is bool(found), (said, found)


BY_KEY = {row.unsaid for row in PAGE if row.unsaid}
"""The rules that a key which is empty is reported by."""
