"""Shared steps in place: ids, ways, readings, links; and what cannot be put in place is never passed over."""

from __future__ import annotations

import pytest

from hooks.check import examine
from hooks.model import Page, Shop
from hooks.page import graph
from hooks.parse import ParsedPage, ParsedShop, drawn, page
from hooks.source import Place, Span, from_text
from tests.parse.cases import HEAD

LINES = HEAD.count("\n")
SHARED_HEAD = "---\ntitle: Make safe\npage: shared-steps\nid: {}\n---\n"
SAFE = """### Unplug {#unplug isolate="electricity"}
Pull the plug; see [the notes](../notes.md), ![the plug](plug.svg) and [a norm](https://example.org/x).
### Read it {#read decide reads="volts" judges="volts"}
```reading
id: volts
label: Voltage
unit: V
at-most: 1
```
- **In limits**: [Wait](#wait)
- **Out of limits**, or too close: [Unplug](#unplug)
- **Too close to call**: [It is on](#on)
### It is on {#on end="goes on"}
### Wait {#wait check}
A minute.
"""
USING = """### Make it safe {#safe uses="safe"}
- It is on: [Stop](#stop)
### Look again {#again decide check}
- Sure: [As it was](#end)
- Not sure: [Make it safe](#safe)
### As it was {#end end="as found"}
Tell them.
### Stop {#stop end="stopped"}
Tell the office.
"""


def shop(*texts: tuple[str, str]) -> tuple[ParsedPage, ...]:
    """Pages by name and text; one of shared steps gets its head by its name."""
    whole = ((n, t if t.startswith("---") else SHARED_HEAD.format(n.split("/")[-1][:-3]) + t) for n, t in texts)
    return drawn(page(from_text(text, name), Shop(None)) for name, text in whole)


def using(text: str = USING, shared: str = SAFE, name: str = "machines/a.md") -> Page:
    """A page that uses shared steps, drawn."""
    made = shop((name, HEAD + text), ("shared/safe.md", shared))[0]
    assert made.sound and made.page, made.findings
    return made.page


def test_the_first_shared_step_takes_the_id_of_the_line_and_the_others_have_it_before_their_own() -> None:
    steps = using().steps
    assert [s.id for s in steps] == ["safe", "safe.read", "safe.wait", "again", "end", "stop"]
    assert [s.number for s in steps] == [1, 2, 3, 4, 5, 6]
    assert [s.title for s in steps[:3]] == ["Unplug", "Read it", "Wait"]


def test_jumps_lead_to_the_drawn_steps_and_an_end_that_goes_on_leads_where_the_line_says() -> None:
    read = using().step("safe.read")
    assert read and [(w.target, w.label) for w in read.ways] == [
        ("safe.wait", "Wait"), ("safe", "Unplug"), ("stop", "Stop"),
    ]  # fmt: skip
    line = LINES + 2
    assert [w.bound for w in read.ways] == [None, None, Place("machines/a.md", Span(line, 1, line, 26))]


def test_an_end_may_have_several_ways_each_with_more_words() -> None:
    several = USING.replace("- It is on: [Stop](#stop)", "- It is on, and hums: [Stop](#stop)\n- It is on, and is still: [As it was](#end)")
    read = using(several).step("safe.read")
    assert read and [(w.words, w.verdict, w.target) for w in read.ways[2:]] == [
        ("Too close to call, and hums", "too close to call", "stop"),
        ("Too close to call, and is still", "too close to call", "end"),
    ]  # fmt: skip


def test_a_reading_of_shared_steps_is_one_for_each_use() -> None:
    twice = USING.replace("### Look again", '### Once more {#more uses="safe"}\n- It is on: [Stop](#stop)\n### Look again')
    made = using(twice)
    assert [(s.reads, s.judges, [r.id for r in s.readings]) for s in made.steps if s.reads] == [
        (("safe.volts",), "safe.volts", ["safe.volts"]), (("more.volts",), "more.volts", ["more.volts"]),
    ]  # fmt: skip
    assert len({s.id for s in made.steps}) == len(made.steps)
    assert [p.id for p in made.shared] == ["safe"]


def test_a_shared_step_knows_its_file_and_the_lines_that_use_it() -> None:
    inner = ("shared/safe.md", SAFE)
    outer = ("shared/both.md", '### All of it {#all uses="safe"}\n- It is on: [On](#on)\n### On {#on end="goes on"}\n')
    text = USING.replace('uses="safe"', 'uses="both"').replace("It is on:", "On:")
    made = shop(("a.md", HEAD + text), outer, inner)[0].page
    assert made is not None
    first = made.steps[0]
    assert (first.file, first.span.line) == ("shared/safe.md", 6)
    assert [(p.file, p.span.line) for p in first.used] == [("a.md", LINES + 1), ("shared/both.md", 6)]
    assert [s.id for s in made.steps[:3]] == ["safe", "safe.all.read", "safe.all.wait"]
    assert made.source_of(first).name == "shared/safe.md"
    assert made.source_of(made.steps[-1]).name == "a.md"


def test_links_and_pictures_lead_where_they_led_from_the_page_of_shared_steps() -> None:
    assert using().steps[0].prose == (
        "Pull the plug; see [the notes](../notes.md), ![the plug](../shared/plug.svg) and [a norm](https://example.org/x)."
    )
    assert "(../notes.md), ![the plug](plug.svg)" in using(name="shared/a.md").steps[0].prose


def test_a_page_is_another_whenever_a_page_of_shared_steps_that_it_uses_is_another() -> None:
    assert graph.digest(using()) != graph.digest(using(shared=SAFE.replace("A minute", "Two minutes")))
    assert graph.digest(using()) == graph.digest(using())


def test_an_only_at_the_line_holds_for_all_the_shared_steps() -> None:
    made = using(USING.replace('uses="safe"', 'uses="safe" only="hot-fill"'))
    assert [s.only.option if s.only else None for s in made.steps] == ["hot-fill"] * 3 + [None] * 3


FAULTS = {
    "no id": (USING.replace("{#safe uses", "{uses").replace("[Make it safe](#safe)", "[Stop](#stop)"), SAFE),
    "no such page": (USING.replace('"safe"', '"cord"'), SAFE),
    "errors in the shared steps": (USING, SAFE.replace("isolate=", "isolat=")),
    "a jump out": (USING, SAFE.replace("#on)", "#stop)")),
    "an end that is not bound": (USING.replace("- It is on: [Stop](#stop)\n", ""), SAFE),
    "a way to no step": (USING.replace("is on: [Stop](#stop)", "is on: [Stop](#halt)"), SAFE),
    "an only of both": (USING.replace('"safe"}', '"safe" only="hot-fill"}'), SAFE.replace("#wait check", '#wait check only="x"')),
    "text under the line": (USING.replace("- It is on", "Take care.\n\n- It is on"), SAFE),
    "two ways on without a question": (
        USING.replace("- It is on: [Stop](#stop)", "- It is on, and hums: [Stop](#stop)\n- It is on, or not: [Stop](#stop)"),
        SAFE.replace("### It is on", "### Hear it {#hear check}\nListen.\n### It is on"),
    ),
    "no step at all": (USING, '### It is on {#on end="goes on"}\n'),
    "two lines of one id": (USING + '### Again {#safe uses="safe"}\n- It is on: [Stop](#stop)\n', SAFE),
    "a next past a step that may be left out": (
        USING.replace("- It is on: [Stop](#stop)", "Next: [Stop](#stop)"),
        SAFE.replace("#on)", "#wait)").replace('### It is on {#on end="goes on"}\n', "").replace("#wait check", "#wait check optional"),
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_what_cannot_be_put_in_place_makes_the_page_unsound_with_a_finding(fault: str) -> None:
    text, shared = FAULTS[fault]
    pages = shop(("a.md", HEAD + text), ("safe.md", shared))
    assert not pages[0].sound
    assert any(f.rule == "shared-page" and f.file == "a.md" for f in pages[0].findings)
    assert examine(ParsedShop(Shop(None), pages, ())).analyses == {}


def test_two_pages_of_one_id_are_not_chosen_from() -> None:
    pages = shop(("a.md", HEAD + USING), ("x/safe.md", SAFE), ("y/safe.md", SAFE))
    assert not pages[0].sound


def test_a_page_that_was_not_drawn_with_its_shop_is_never_analysed() -> None:
    alone = page(from_text(HEAD + USING, "a.md"), Shop(None))
    report = examine(ParsedShop(Shop(None), (alone,), ()))
    assert report.analyses == {}
    assert [f.message for f in report.findings if f.rule == "shared-page"] == ["the shared steps `safe` are not in place"]
