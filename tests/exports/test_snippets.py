"""Each snippet, with its places as they stand, is something that the parser reads without a finding."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from hooks.export.editor import files
from hooks.export.snippets import BODIES, snippets
from hooks.model import Kind, Shop
from hooks.parse import page
from hooks.parse.words import BY_NAME, EFFECTS, ENDS, SIGNAL_WORDS
from hooks.source import from_text
from tests.parse.cases import HEAD

MADE = snippets()
PLACE = re.compile(r"\$\{(\d+):([^{}]*)\}|\$\{(\d+)\|([^|{}]*)\|\}|\$(\d+)")
FRONT = "---\ntitle: A page\npage: {}\nappliance: Test machine\nmodels: {{A1: []}}\nenergies: {{electricity: {{points: [plug]}}}}\n---\n"
TARGETS = "".join(f"### The {name} {{#{name} check}}\nLook.\n" for name in ("next", "stop", "one", "other"))


def filled(name: str, choice: int = 0) -> str:
    """The text that an editor writes for it; of words to choose from, the one of that number or the last."""

    def place(found: re.Match[str]) -> str:
        words = (found[4] or found[2] or "").split(",") if found[4] else [found[2] or ""]
        return words[min(choice, len(words) - 1)]

    return PLACE.sub(place, "\n".join(MADE[name]["body"])) + "\n"


@pytest.mark.parametrize("kind", Kind)
def test_a_page_begins_with_its_snippet_and_only_its_machine_is_to_be_said(kind: Kind) -> None:
    body = "Text.\n" if kind is Kind.TEXT else "### Look {#a check}\nLook.\n"
    found = page(from_text(filled(f"page {kind}") + body, "page.md"), Shop(None)).findings
    wanted = {"the appliance is not in the shop facts, and the page lacks `models` and `energies`"} if kind is Kind.PROCEDURE else set()
    assert {f.message for f in found} == wanted


@pytest.mark.parametrize("word", EFFECTS)
def test_a_step_parses_as_its_snippet_writes_it(word: str) -> None:
    shared = word == "uses"
    text = (FRONT.format("procedure") if shared else HEAD) + filled(f"step {word}") + ("" if shared else TARGETS)
    parsed = page(from_text(text, "page.md"), Shop(None))
    assert [f.message for f in parsed.findings] == []
    assert parsed.page and getattr(parsed.page.steps[0], BY_NAME[word].field)




@pytest.mark.parametrize("kind", [k for k in Kind if k is not Kind.TEXT])
def test_every_end_that_a_kind_of_page_may_have_is_offered_and_parses(kind: Kind) -> None:
    texts = [filled("step end", n) for n in range(8)]
    offered = {end: text for end in ENDS[kind] for text in texts if f'end="{end}"' in text}
    assert list(offered) == list(ENDS[kind])
    for text in offered.values():
        assert page(from_text(FRONT.format(kind) + text, "page.md"), Shop(None)).findings == ()


@pytest.mark.parametrize("choice", range(len(SIGNAL_WORDS)))
def test_a_message_and_a_reading_parse(choice: int) -> None:
    text = f'{HEAD}### Look {{#a check reads="word"}}\n{filled("message", choice)}\n{filled("reading")}'
    parsed = page(from_text(text, "page.md"), Shop(None))
    assert [f.message for f in parsed.findings] == []
    assert parsed.page and parsed.page.steps[0].messages[0].word == SIGNAL_WORDS[choice]


def test_a_step_that_judges_parses_with_a_way_for_every_verdict() -> None:
    parsed = page(from_text(HEAD + filled("step that judges") + TARGETS, "page.md"), Shop(None))
    assert [f.message for f in parsed.findings] == []
    step = parsed.page.steps[0]
    assert step.judges == step.readings[0].id
    assert [way.verdict for way in step.ways] == ["in limits", "out of limits", "too close to call"]


def test_a_figure_parses_with_its_list() -> None:
    figure = page(from_text(f"{HEAD}### Look {{#look check}}\n{filled('figure')}", "page.md"), Shop(None)).page.steps[0].figures[0]
    assert (figure.words, figure.file, figure.caption) == ("What it shows", "picture.svg", "Seen from the left")
    assert [number for number, _ in figure.numbers] == [1]


def test_no_place_of_a_snippet_is_of_two_minds() -> None:
    for name, made in MADE.items():
        places: dict[str, str] = {}
        for found in PLACE.finditer("\n".join(made["body"])):
            number, text = found[1] or found[3] or found[5], found[2] or found[4] or ""
            assert places.setdefault(number, text) == text, name


def test_bodies_are_of_words_that_there_are() -> None:
    assert set(BODIES) <= set(EFFECTS)


def test_the_same_files_come_out_each_time() -> None:
    assert files() == files()
    assert all(text.endswith("\n") for text in files().values())


def test_the_page_about_editors_names_every_file_and_the_kinds_of_snippet() -> None:
    said = (Path(__file__).parents[2] / "docs/editors.md").read_text("utf-8")
    wanted = {*files(), *(f"page-{kind}" for kind in Kind), "message", "reading", "figure"}
    assert {name for name in wanted if f"`{name}`" not in said} == set()
    named = set(re.findall(r"`((?:step|page)-[\w-]+)`", said))
    assert named <= {made["prefix"] for made in MADE.values()}
