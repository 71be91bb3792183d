"""What a page and a shop are once parsed."""

from __future__ import annotations

from hooks.model import Kind, Page, Shop, Step
from hooks.parse import page, shop_facts
from hooks.source import Span, from_text
from tests.parse.cases import HEAD

NO_SHOP = Shop(None)
LINES = HEAD.count("\n")


def parsed(body: str, head: str = HEAD, shop: Shop = NO_SHOP) -> Page:
    made = page(from_text(head + body, "procedures/a/page-1.md"), shop).page
    assert made is not None
    return made


def step(body: str) -> Step:
    (made,) = parsed(body).steps
    return made


def test_a_page_knows_its_machine_and_takes_its_id_from_the_file() -> None:
    made = parsed("# Fix it\n\n### Look {#a check}\n")
    assert (made.id, made.kind, made.title, made.appliance, made.appliance_id) == (
        "page-1",
        Kind.PROCEDURE,
        "A page",
        "Test machine",
        None,
    )
    assert [(m.name, m.options) for m in made.models] == [
        ("A1", frozenset()),
        ("A2", frozenset({"hot-fill"})),
    ]
    assert [(e.name, e.points, e.trapped, e.charged_by, e.span.line) for e in made.energies] == [
        ("electricity", ("plug",), False, None, 7),
        ("water", ("tap",), True, None, 8),
        ("heat", (), False, "electricity", 9),
    ]
    assert made.span == Span(LINES + 1, 1, LINES + 1, 9)


def test_a_step_knows_where_each_of_its_words_stands() -> None:
    made = step(
        '### Shut it {#shut isolate="water heat" needs="tap key, jug" only="not hot-fill"}\n'
    )
    line = LINES + 1
    assert (made.id, made.id_written, made.title, made.number) == ("shut", True, "Shut it", 1)
    assert (made.isolate, made.needs) == (("water", "heat"), ("tap key", "jug"))
    assert made.only is not None and (made.only.option, made.only.negated) == ("hot-fill", True)
    assert made.span_of("id") == Span(line, 14, line, 19)
    assert made.span_of("isolate") == Span(line, 20, line, 40)
    assert made.span_of("isolate heat") == Span(line, 35, line, 39)
    assert made.span_of("needs jug") == Span(line, 57, line, 60)
    assert made.span_of("work") == made.span


def test_an_id_that_is_not_written_is_made_from_the_title_and_is_free() -> None:
    made = parsed("### Öffne **die** Klappe!\n### Look\n### Look\n### See {#look-2}\n### €\n")
    assert [(s.id, s.id_written) for s in made.steps] == [
        ("öffne-die-klappe", False),
        ("look", False),
        ("look-3", False),
        ("look-2", True),
        ("step", False),
    ]


def test_ids_written_twice_are_kept_for_the_rule_on_ids() -> None:
    assert [s.id for s in parsed("### A {#a}\n### B {#a}\n").steps] == ["a", "a"]


def test_an_unmarked_step_is_hands_on_and_a_step_with_a_fault_is_never_less() -> None:
    assert step("### Look\n").hands_on
    assert step("### Look {#a chekc}\n").hands_on


def test_messages_before_the_instruction_count_and_later_ones_do_not() -> None:
    made = step(
        "### Look {#a}\n<!-- hidden -->\n\n"
        '!!! danger electricity water "Shock"\n    Kills.\n\n    Keep **off**.\n'
        '!!! notice "Paint"\n    Stains.\n\nLook.\n\n!!! warning heat "Burn"\n\tHot.\n'
    )
    assert [(m.word, m.energies, m.title, m.text) for m in made.messages] == [
        ("danger", ("electricity", "water"), "Shock", "Kills.\n\nKeep **off**."),
        ("notice", (), "Paint", "Stains."),
    ]
    assert made.messages[0].span == Span(LINES + 4, 1, LINES + 7, 18)
    assert [(m.word, m.text) for m in made.late_messages] == [("warning", "Hot.")]
    assert made.prose == "Look."


def test_messages_before_the_first_step_are_for_the_page_and_under_a_later_stage_late() -> None:
    made = parsed(
        '!!! warning water "One"\n    x\n\nHello.\n\n'
        '## First\n\nWhy.\n\n!!! warning heat "Two"\n    x\n\n### A {#a}\n'
        '## Second\n!!! danger water "Three"\n    x\n\n### B {#b}\n!!! notice "Four"\n    x\n'
    )
    assert [m.title for m in made.messages] == ["One", "Two"]
    assert made.intro == "Hello."
    assert [(s.title, s.intro) for s in made.stages] == [("First", "Why."), ("Second", "")]
    assert [
        (s.stage, [m.title for m in s.messages], [m.title for m in s.late_messages])
        for s in made.steps
    ] == [(0, [], []), (1, ["Four"], ["Three"])]


def test_ways_out_know_their_words_verdict_label_and_target() -> None:
    made = step(
        '### Prove it {#a verify="water"}\nLook.\n'
        "- **Proved** — _dry_ & `0 V`: [Go **on**](#go%20on)\n"
        "* __Not  proved__, it\n  drips: [Stop](#stop).\n"
        "+ Not proved at all: [Stop](#stop)\n  - \n- [Only this](#only)\n- **Proved**\n"
    )
    assert [(w.words, w.verdict, w.label, w.target, w.span.line - LINES) for w in made.ways] == [
        ("Proved — dry & 0 V", "proved", "Go on", "go on", 3),
        ("Not proved, it drips", "not proved", "Stop", "stop", 4),
        ("Not proved at all", "not proved", "Stop", "stop", 6),
        ("Only this", None, "Only this", "only", 8),
    ]
    assert made.jumpless == (Span(LINES + 7, 3, LINES + 7, 4), Span(LINES + 9, 1, LINES + 9, 13))
    assert made.prose == "Look.\n\n  - \n\n- **Proved**"


def test_verdicts_on_a_reading_stand_in_bold() -> None:
    made = step(
        "### Good? {#a decide}\n- **In limits**: [A](#a)\n- **OUT OF LIMITS:** [A](#a)\n"
        "- **Too close to call** [A](#a)\n- Below limits: [A](#a)\n- **Nonsense**: [A](#a)\n"
    )
    assert [w.verdict for w in made.ways] == [
        "in limits",
        "out of limits",
        "too close to call",
        None,
        None,
    ]


def test_a_next_line_is_no_bullet() -> None:
    made = step("### Look {#a}\nLook.\n\nNext: [Go on](#b)\n")
    assert made.next is not None
    assert (made.next.words, made.next.label, made.next.target) == ("", "Go on", "b")
    assert (made.ways, made.prose) == ((), "Look.")


def test_prose_keeps_its_fences_and_loses_comments_readings_and_ways_out() -> None:
    made = step(
        '### Look {#a decide reads="x"}\nLook <!-- no -->at\n<!-- a -->it.\n'
        "Soon. <!-- b -->\nDone  \nnow.\n\n"
        "```reading\nid: x\nlabel: X\nunit: V\nat-most: 1.5\n```\n"
        "~~~text\n### no\n\n    <!-- kept -->\n~~~\n- Yes: [A](#a)\n- No: [A](#a)\n"
    )
    assert (
        made.prose
        == "Look at\nit.\nSoon.\nDone  \nnow.\n\n~~~text\n### no\n\n    <!-- kept -->\n~~~"
    )
    (reading,) = made.readings
    assert (reading.id, reading.unit, reading.low, reading.high) == ("x", "V", None, 1.5)
    assert reading.span == Span(LINES + 8, 1, LINES + 8, 11)


def test_an_ordinary_page_is_its_text() -> None:
    head = "---\ntitle: About\npage: text\n---\n"
    made = parsed('# About\n\nHi.\n\n### Small\n\n!!! tip "x"\n    y\n', head)
    assert made.intro == 'Hi.\n\n### Small\n\n!!! tip "x"\n    y'
    assert (made.steps, made.messages, made.models) == ((), (), ())


def test_other_line_ends_and_a_byte_order_mark_change_nothing() -> None:
    body = (
        '### Shut it {#a isolate="water"}\n'
        '!!! warning water "Flood"\n    It floods.\n\n- é: [A](#a)\n'
    )
    plain = parsed(body)
    other = page(
        from_text("\ufeff" + (HEAD + body).replace("\n", "\r\n"), "procedures/a/page-1.md"),
        Shop(None),
    )
    assert other.page == plain


SHOP = """
skills: [basic, live work]
appliances:
  laundry:
    title: Laundry machine
    models: {LM20: [], LM30: [hot-fill]}
    energies:
      water: {points: [tap], only: not hot-fill}
    off-limit: 2 h
"""


def shop() -> Shop:
    made, findings = shop_facts(from_text(SHOP, "shop.yml"))
    assert findings == ()
    return made


def test_the_shop_facts_hold_what_is_not_written_by_default() -> None:
    made = shop()
    assert (made.skills, made.live_skills) == (("basic", "live work"), ("live work",))
    assert made.clearing == Shop(None).clearing
    (machine,) = made.appliances
    assert (machine.id, machine.title, machine.off_limit) == ("laundry", "Laundry machine", "2 h")
    assert machine.energies[0].file == "shop.yml"


def head(more: str, kind: str = "procedure") -> str:
    return f"---\ntitle: A page\npage: {kind}\n{more}\n---\n"


def test_a_page_takes_the_facts_of_a_machine_of_the_shop_by_word_or_title() -> None:
    for name in ("laundry", "Laundry machine"):
        made = parsed("### A {#a}\n", head(f"appliance: {name}\nmodels: [LM30]"), shop())
        assert (made.appliance, made.appliance_id, made.off_limit) == (
            "Laundry machine",
            "laundry",
            "2 h",
        )
        assert [m.name for m in made.models] == ["LM30"]
        assert [e.name for e in made.energies] == ["water"]


def test_a_self_check_takes_the_models_of_a_machine_and_not_its_energies() -> None:
    made = parsed("### A {#a}\n", head("appliance: laundry", "self-check"), shop())
    assert ([m.name for m in made.models], made.energies) == (["LM20", "LM30"], ())


def test_a_self_check_without_models_has_one_so_that_it_is_analysed() -> None:
    made = parsed("### A {#a}\n", head("appliance: Kettle", "self-check"), shop())
    assert [m.name for m in made.models] == ["any"]


def findings(more: str) -> list[tuple[int, int, str]]:
    made = page(from_text(head(more) + "### A {#a}\n", "a.md"), shop())
    assert not made.sound
    return [(f.span.line, f.span.column, f.message) for f in made.findings]


def test_a_page_about_a_machine_of_the_shop_declares_no_energies() -> None:
    assert findings("appliance: laundry\nenergies: {}\noff-limit: 1 h") == [
        (5, 11, "`energies` of `Laundry machine` is said in the shop facts"),
        (6, 12, "`off-limit` of `Laundry machine` is said in the shop facts"),
    ]


def test_a_page_about_a_machine_of_the_shop_only_narrows_its_models() -> None:
    assert findings("appliance: laundry\nmodels: {LM20: []}") == [
        (5, 9, "the options of `Laundry machine` are said in the shop facts")
    ]
    assert findings("appliance: laundry\nmodels: [LM2O]") == [
        (5, 10, "`LM2O` is not a model of `Laundry machine`")
    ]
    assert findings("appliance: laundry\nmodels: none") == [(5, 9, "the page holds for no model")]


def test_a_machine_with_an_error_is_left_out_of_the_shop() -> None:
    made, found = shop_facts(from_text(SHOP.replace("points: [tap]", "pionts: [tap]"), "shop.yml"))
    assert made.appliances == () and made.unread == ("laundry", "Laundry machine")
    assert len(found) == 1
    parsed = page(from_text(head("appliance: laundry") + "### A {#a}\n", "a.md"), made)
    assert [f.message for f in parsed.findings] == [
        "the facts of `laundry` in the shop facts have errors, so they are left out"
    ]
    assert not parsed.sound
