"""What holds for any text at all."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from hooks.model import Kind, Page, Shop
from hooks.parse import page, page_text, shop_facts
from hooks.parse.notes import Notes
from hooks.parse.result import ParsedPage
from hooks.parse.step_line import step_line
from hooks.parse.words import ENDS, OUTCOMES, STEP_LINE, Takes, Word
from hooks.source import Source, Span, from_text
from tests.parse.cases import HEAD, HERE, cases

CASES = [case for file in sorted(HERE.glob("*.txt")) for case in cases(file.name)]
LINES = sorted({line for case in CASES for line in case.text.split("\n")})
SCRAPS = st.sampled_from(
    [
        *"{}[]()#:,.-*_~`'\"|>!&<\\= \t\n\r\u00a0\u2028\x85\ufeffé€𝄞",
        "{#a ",
        "<!--",
        "-->",
        "```",
        "### ",
        "## ",
        "\n- ",
        "](#a)",
        "!!! warning ",
        "none",
        "[]",
        "work",
        'isolate="',
        "\n    ",
        "---\n",
    ]
)
ANY = st.one_of(
    st.text(),
    st.lists(SCRAPS).map("".join),
    st.lists(st.one_of(st.sampled_from(LINES), SCRAPS)).map("\n".join),
)
SHOP = Shop(None)
untimed = settings(deadline=None)


def inside(source: Source, span: Span) -> bool:
    """Whether a span begins and ends in the file; it may reach one column past a line."""
    ends = ((span.line, span.column, 1), (span.end_line, span.end_column, 2))
    return (span.line, span.column) <= (span.end_line, span.end_column) and all(
        1 <= line <= len(source.lines) and 1 <= column <= len(source.line(line)) + more
        for line, column, more in ends
    )


def spans(page: Page) -> list[Span]:
    """Every span of a page's own file."""
    steps = page.steps
    own = [page.span, *page.front.spans.values(), *(m.span for m in page.messages)]
    own += [x.span for x in (*page.models, *page.energies, *page.stages, *steps)]
    own += [span for step in steps for _, span in step.spans]
    own += [x.span for s in steps for x in (*s.messages, *s.readings, *s.ways)]
    return own + [span for s in steps for span in s.jumpless]


def sane(parsed: ParsedPage) -> None:
    source = parsed.source
    for finding in parsed.findings:
        assert inside(source, finding.span), finding
        assert finding.message and finding.help and finding.rule
    assert not (parsed.sound and parsed.page is None)
    assert parsed.sound or parsed.findings
    if parsed.page:
        assert all(inside(source, span) for span in spans(parsed.page))


@untimed
@given(ANY)
def test_any_file_is_read_without_an_exception(text: str) -> None:
    sane(page(from_text(text, "a.md"), SHOP))


@untimed
@given(ANY)
def test_any_front_matter_is_read_without_an_exception(text: str) -> None:
    sane(page(from_text(f"---\n{text}\n---\n### A\n", "a.md"), SHOP))
    sane(page(from_text(HEAD.replace("---\ntitle", f"---\n{text}\ntitle", 1), "a.md"), SHOP))


@untimed
@given(ANY)
def test_any_body_is_read_without_an_exception(text: str) -> None:
    parsed = page(from_text(HEAD + text, "a.md"), SHOP)
    assert parsed.page is not None
    sane(parsed)


@untimed
@given(ANY)
def test_any_step_line_is_read_without_an_exception(text: str) -> None:
    sane(page(from_text(HEAD + "### A {#a " + text, "a.md"), SHOP))


@untimed
@given(ANY)
def test_any_reading_is_read_without_an_exception(text: str) -> None:
    sane(page(from_text(HEAD + f"### A\n```reading\n{text}\n```\n", "a.md"), SHOP))


@untimed
@given(ANY)
def test_any_shop_facts_are_read_without_an_exception(text: str) -> None:
    for source in (from_text(text, "shop.yml"), from_text(f"appliances:\n  a: {text}", "shop.yml")):
        shop, findings = shop_facts(source)
        assert shop.source is source
        assert all(inside(source, finding.span) for finding in findings)


NAMES = st.text("abcé-_0", min_size=1, max_size=8).filter(lambda name: name[0] not in "-_")
FREE = st.text("ab é,.'=:#", min_size=1, max_size=12).filter(
    lambda text: text.strip() == text and not text.endswith("=")
)
PARTS = st.text("ab é.'", min_size=1, max_size=8).filter(lambda text: text.strip() == text)
VALUES: dict[Takes, st.SearchStrategy[tuple[str, Any]]] = {
    Takes.ENERGIES: st.lists(NAMES, min_size=1, unique=True).map(lambda v: (" ".join(v), tuple(v))),
    Takes.NAMES: st.lists(PARTS, min_size=1, unique=True).map(lambda v: (", ".join(v), tuple(v))),
    Takes.READINGS: st.lists(NAMES, min_size=1, unique=True).map(lambda v: (",".join(v), tuple(v))),
    Takes.NAME: NAMES.map(lambda v: (v, v)),
    Takes.TEXT: FREE.map(lambda v: (v, v)),
    Takes.TIME: st.sampled_from(["20 min", "1 h 30 min", "0.5 s", "2 days"]).map(lambda v: (v, v)),
    Takes.COUNT: st.integers(1, 9999).map(lambda v: (str(v), v)),
    Takes.GUARD: st.tuples(st.booleans(), NAMES.filter(lambda name: name != "not")).map(
        lambda v: ("not " * v[0] + v[1], (v[1], v[0]))
    ),
    Takes.END: st.sampled_from(ENDS[Kind.PROCEDURE]).map(lambda v: (v, v)),
    Takes.OUTCOME: st.sampled_from(OUTCOMES).map(lambda v: (v, v)),
}


@st.composite
def attribute_lists(draw: st.DrawFn) -> tuple[str, dict[str, Any]]:
    """An attribute list, and the facts it states."""
    known = [word for word in STEP_LINE if word.name != "uses"]
    words: list[Word] = draw(st.lists(st.sampled_from(known), unique=True))
    written, facts = [], {}
    for word in words:
        text, value = draw(VALUES[word.takes]) if word.takes in VALUES else (None, True)
        written.append(word.name if text is None else f'{word.name}="{text}"')
        facts[word.field] = value
    gap = draw(st.sampled_from([" ", "  ", "\t"]))
    return gap.join(["{#id", *written]) + draw(st.sampled_from(["}", " }", "} ##"])), facts


@untimed
@given(st.sampled_from(["Look", "Öffne (die) #5 Klappe", "Is it {open}?"]), attribute_lists())
def test_an_attribute_list_gives_back_what_was_written(
    title: str, made: tuple[str, dict[str, Any]]
) -> None:
    text, facts = made
    notes = Notes("a.md")
    line = f"### {title} {text}"
    read = step_line(line, 1, Kind.PROCEDURE, notes)
    assert notes.found == []
    assert (read.id, read.title) == ("id", title)
    found = {**read.facts}
    if "only" in found:
        found["only"] = (found["only"].option, found["only"].negated)
    assert found == facts
    for word, span in read.spans:
        shown = line[span.column - 1 : span.end_column - 1]
        assert shown.startswith(word) or shown == word.partition(" ")[2] or word == "id"


@untimed
@given(attribute_lists(), st.integers(0, 200))
def test_a_quote_or_brace_lost_from_a_step_line_is_always_reported(
    made: tuple[str, dict[str, Any]], index: int
) -> None:
    text = "### Look " + made[0]
    places = [i for i, char in enumerate(text) if char in '"{}']
    lost = places[index % len(places)]
    notes = Notes("a.md")
    step_line(text[:lost] + text[lost + 1 :], 1, Kind.PROCEDURE, notes)
    assert notes.found


@given(st.text(alphabet="aZ é*-+#=>.1) \t!?`~{}<h\u200b\u00ad_", max_size=12), st.text(max_size=3))
def test_a_line_that_passes_for_words_is_one_of_which_nothing_can_be_said(line: str, above: str) -> None:
    notes = Notes("page.md")
    if page_text._ORDINARY.fullmatch(line):
        page_text._heading_like(1, line, notes)
        page_text._underline(1, line, above, notes)
        page_text._stray_list(1, line, notes)
        page_text._unseen(1, line, notes)
        page_text._elsewhere(1, line, notes)
    assert not notes.found
