"""A customer's page: one question after the other, Stop always there."""

from __future__ import annotations

from dataclasses import replace

from tests.pages.drawn import SAMPLES, SHOP, draw, sample, words

TEXT = (SAMPLES / "cooler-self-check.md").read_text("utf-8")
LOOP = TEXT.replace("- No, it is hot now: [All good](#good)", "- No: [Is the hot light on?](#light)")
STOP = "\n### Leave it alone {#alone end=\"stop using it\"}\n"


def left(text: str) -> list[str]:
    return [words(p.span) for p in draw(text).soup.select(".question .left")]


def test_the_longest_way_to_an_end_is_counted() -> None:
    assert left(TEXT) == ["At most two questions left", "The last question", "The last question"]


def test_a_circle_is_counted_once() -> None:
    assert left(LOOP) == ["At most two questions left", "The last question", "At most three questions left"]


def test_answers_lead_to_the_next_question() -> None:
    page = sample("cooler-self-check.md")
    light = page.step("light")
    assert [(words(a.b), a["href"]) for a in light.select(".way")] == [("Yes", "#wait"), ("No", "#button")]


def test_on_paper_an_answer_names_the_number_it_leads_to() -> None:
    page = sample("cooler-self-check.md")
    for answer in page.soup.select(".question .ways a[href^='#']"):
        number = page.step(answer["href"][1:])["data-number"]
        assert words(answer.i) == f": go to {number}"
        assert words(page.step(answer["href"][1:]).h2.span) == number


def test_stop_leads_to_the_end_that_says_so_or_rings_the_shop() -> None:
    assert draw(TEXT).soup.select_one(".stop-bar a")["href"] == "tel:555-0142"
    assert draw(TEXT + STOP).soup.select_one(".stop-bar a")["href"] == "#alone"


def test_an_end_says_who_to_ring() -> None:
    closing = words(sample("cooler-self-check.md").step("book").select_one(".closing"))
    assert closing == "Orsel Valley Workshop, Monday to Saturday Call 555-0142"


def test_the_answers_can_be_mailed_only_where_the_shop_says_where_to() -> None:
    assert not draw(TEXT).soup.select("[data-mail]")
    mail = draw(TEXT, shop=replace(SHOP, mail="help@shop.example")).soup.select_one(".summary [data-mail]")
    assert (mail["href"], mail["data-mail"]) == ("mailto:help@shop.example", "help@shop.example")


def test_the_answers_stay_out_of_sight_until_a_script_has_some() -> None:
    summary = draw(TEXT).soup.select_one(".summary")
    assert summary.has_attr("hidden") and words(summary.select_one(".told")) == ""
    assert [field["name"] for field in summary.select("input")] == ["model", "serial"]


def test_a_word_of_the_trade_is_explained_on_each_question_that_has_it_and_nowhere_else() -> None:
    shop = replace(SHOP, trade_words=(("hot button", "the red one <on> the front"), ("breaker", "not on this page")))
    page = draw(TEXT, shop=shop)
    assert words(page.step("button").select_one(".meanings")) == "Hot button the red one <on> the front"
    assert len(page.soup.select(".meanings")) == 1


def test_the_end_that_stops_leads_to_what_to_do_in_the_first_minute() -> None:
    page = draw(TEXT + STOP)
    assert page.step("alone").select_one(".first-minute a")["href"] == "./first-minute.html"
    assert not page.step("book").select(".first-minute")


def test_only_looking_and_pressing_is_asked_for() -> None:
    soup = sample("cooler-self-check.md").soup
    assert words(soup.select_one(".look-only b")) == "LOOK AND PRESS ONLY"
    assert not soup.select(".board")
