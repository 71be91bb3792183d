"""The printed table says what the calculator says."""

from __future__ import annotations

import json
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators._lib import conformity
from calculators._lib.declare import Refusal
from calculators._lib.entry import answer
from calculators._lib.table import Table, table
from calculators._lib.words import fixed

bands = st.sampled_from(
    [(100, 500), (180, 220), (0.3, 0.7), (1.2, 2.0), (700, 1500), (860, 880), (2000, 5000), (0, 40), (100, None), (None, 500)]
)
meters = st.fixed_dictionaries(
    {},
    optional={
        "meter_pct": st.sampled_from(["0", "0.5", "1.2", "5"]),
        "meter_counts": st.sampled_from(["0", "3", "10"]),
        "resolution": st.sampled_from(["0.1", "1", "10"]),
        "lead": st.sampled_from(["0.2", "3"]),
        "coil_temperature": st.sampled_from(["-10", "35", "80"]),
    },
)


def limits(band: tuple, unit: str = "ohm") -> dict[str, object]:
    return {"low": band[0], "high": band[1], "unit": unit}


def asked(fields: dict[str, str], band: tuple, text: str) -> dict:
    return json.loads(answer("coil", json.dumps({"fields": fields | {"readings": text}, "limits": limits(band)})))


@given(bands, meters, st.data())
def test_the_table_agrees_with_the_answer_at_every_step(band: tuple, fields: dict, data: st.DataObject) -> None:
    printed = table("coil", fields, limits(band))
    edges = [round(r.first / printed.step) for r in printed.rows if r.first < inf]
    near = st.sampled_from(edges).flatmap(lambda e: st.integers(max(e - 2, 0), e + 2))
    index = data.draw(near | st.integers(0, edges[-1] * 2 + 10))
    text = fixed(index * printed.step, printed.step).replace("\u202f", "")
    got = asked({"resolution": f"{printed.step:.12g}"} | fields, band, text)
    if got["refused"]:
        assert printed.verdict(float(text)) == conformity.CLOSE
        return
    row = next(r for r in printed.rows if r.first <= float(text) <= r.last)
    assert (row.verdict, row.kind, row.word, row.sign) == (got["verdict"], got["kind"], got["word"], got["sign"])


@given(bands, meters)
def test_the_table_agrees_with_the_answer_to_an_open_coil(band: tuple, fields: dict) -> None:
    row, got = table("coil", fields, limits(band)).rows[-1], asked(fields, band, "OL")
    assert (row.verdict, row.kind) == (got["verdict"], got["kind"]) == (conformity.ABOVE, "open")
    assert row.words.endswith("OL")


@given(bands, st.integers(0, 700_000))
def test_a_finer_meter_never_contradicts_the_table(band: tuple, hundredths: int) -> None:
    printed = table("coil", {}, limits(band)).verdict(hundredths / 100)
    got = asked({}, band, f"{hundredths / 100:.2f}")
    assert printed in (got["verdict"], conformity.CLOSE)


@given(bands, meters)
def test_the_rows_follow_one_another_by_one_step(band: tuple, fields: dict) -> None:
    printed = table("coil", fields, limits(band))
    numbered = [r for r in printed.rows if r.first < inf]
    for one, next_one in zip(numbered, numbered[1:], strict=False):
        assert next_one.first - one.last == pytest.approx(printed.step)
        assert (one.verdict, one.kind) != (next_one.verdict, next_one.kind)


def words(printed: Table) -> list[tuple[str, str]]:
    return [(r.words, r.word) for r in printed.rows]


def test_a_table_in_words() -> None:
    printed = table("coil", {}, limits((100, 500)))
    assert printed.assumed == "± (0.8 % + 1 digit), shows steps of 1 ohm"
    assert words(printed) == [
        ("0", "BELOW LIMITS"),
        ("1 to 9", "BELOW LIMITS"),
        ("10 to 97", "BELOW LIMITS"),
        ("98 to 102", "TOO CLOSE TO CALL"),
        ("103 to 494", "IN LIMITS"),
        ("495 to 505", "TOO CLOSE TO CALL"),
        ("506 to 4999", "ABOVE LIMITS"),
        ("5000 or more, or OL", "ABOVE LIMITS"),
    ]
    assert [r.sentence for r in printed.rows][3:5] == [
        "May be in or out: the measurement can err by more than is left to the limit.",
        "Between 100 and 500, however the measurement errs.",
    ]


def test_a_narrow_row_in_limits_is_not_overlooked() -> None:
    assert ("870", "IN LIMITS") in words(table("coil", {"resolution": "1"}, limits((860, 880))))


def test_a_table_for_a_meter_that_cannot_tell_has_no_row_in_limits() -> None:
    printed = table("coil", {"meter_counts": "3"}, limits((0.3, 0.7)))
    assert conformity.IN not in {r.verdict for r in printed.rows}
    assert "cannot tell" in {r.kind for r in printed.rows}


@pytest.mark.parametrize(
    ("fields", "band", "field"),
    [
        ({"meter_pct": "abc"}, (100, 500), "meter_pct"),
        ({}, (500, 100), "limits"),
        ({}, (None, None), "limits"),
        ({}, (0, None), "limits"),
        ({"meter": "1"}, (100, 500), "meter"),
    ],
)
def test_what_the_page_says_wrongly_is_refused(fields: dict, band: tuple, field: str) -> None:
    with pytest.raises(Refusal) as refused:
        table("coil", fields, limits(band))
    assert refused.value.field == field


def test_an_unknown_calculator_has_no_table() -> None:
    with pytest.raises(KeyError):
        table("no-such", {}, limits((100, 500)))


@pytest.mark.parametrize(
    ("calculator", "fields", "limits", "stands_for"),
    [
        ("flow", {}, {"low": 1.9, "unit": "L/min"}, "water caught 1000 mL, jug ± 10 mL, watch ± 0.3 s"),
        ("flow", {"volumes": "2 L"}, {"low": 1.9, "unit": "L/min"}, "water caught 2 L, jug ± 10 mL, watch ± 0.3 s"),
        ("fill", {"flow": "0.9"}, {"low": 100, "unit": "mL"}, "flow through the valve 0.9 L/min, watch ± 0.3 s"),
        ("coil", {}, {"low": 100, "unit": "ohm"}, "± (0.8 % + 1 digit), shows steps of 0.1 ohm"),
    ],
)
def test_a_table_says_what_else_it_holds_for(calculator: str, fields: dict, limits: dict, stands_for: str) -> None:
    assert table(calculator, fields, limits).stands_for == stands_for
