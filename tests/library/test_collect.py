"""What leads to which page."""

from __future__ import annotations

from pathlib import Path

from tests.library.shops import READING, library, page

STEP = "### Look {#look check}\n\nLook.\n"
SHARED = page("cord", "Cord and tap", STEP, page="shared-steps", tools="[bucket]", parts="[{name: washer, quantity: 1}]")
USES = '### Make it safe {#safe uses="cord"}\n\n### Done {#done end="as found"}\n'


def titles(found: object) -> list[str]:
    return [entry.title for entry in found.entries]


def test_customers_and_technicians_symptoms_are_kept_apart(tmp_path: Path) -> None:
    made = library(tmp_path, {
        "repair.md": page("repair", "Swap the valve", symptoms="[no ice]"),
        "ask.md": page("ask", "Your cabinet", page="self-check", symptoms="[no ice]"),
    })  # fmt: skip
    assert [titles(s) for s in made.customer_symptoms] == [["Your cabinet"]]
    assert [titles(s) for s in made.technician_symptoms] == [["Swap the valve"]]


def test_a_symptom_is_one_however_it_is_spelled(tmp_path: Path) -> None:
    made = library(tmp_path, {
        "a.md": page("a", "Valve", symptoms="[No ice.]"),
        "b.md": page("b", "Motor", symptoms='["no  ice"]'),
    })  # fmt: skip
    assert [(s.text, titles(s)) for s in made.technician_symptoms] == [("No ice.", ["Motor", "Valve"])]


def test_a_self_check_without_symptoms_is_found_by_its_title(tmp_path: Path) -> None:
    made = library(tmp_path, {"ask.md": page("ask", "No hot water", page="self-check")})
    assert [s.text for s in made.customer_symptoms] == ["No hot water"]


def test_a_part_is_known_by_its_number_and_keeps_all_its_names(tmp_path: Path) -> None:
    made = library(tmp_path, {
        "a.md": page("a", "Valve", parts="[{name: valve, number: DV-2, quantity: 1}]"),
        "b.md": page("b", "Tray", parts="[{name: double valve, number: dv-2, quantity: 1}, {name: clip, quantity: 1}]"),
    })  # fmt: skip
    found = [(p.number, p.names, titles(p)) for p in made.parts]
    assert found == [("", ("clip",), ["Tray"]), ("DV-2", ("valve", "double valve"), ["Tray", "Valve"])]


def test_a_tool_leads_to_every_page_that_needs_it(tmp_path: Path) -> None:
    made = library(tmp_path, {
        "a.md": page("a", "Valve", tools="[Multimeter, bucket]"),
        "b.md": page("b", "Motor", tools="[multimeter]"),
    })  # fmt: skip
    assert [(t.name, titles(t)) for t in made.tools] == [("bucket", ["Valve"]), ("Multimeter", ["Motor", "Valve"])]


def test_what_shared_steps_need_is_needed_by_the_page_that_uses_them(tmp_path: Path) -> None:
    made = library(tmp_path, {"shared.md": SHARED, "a.md": page("a", "Valve", USES, tools="[pliers]")})
    assert [e.title for e in made.entries] == ["Valve"]
    assert made.entries[0].tools == ("pliers", "bucket")
    assert made.entries[0].shared == ("cord",)
    assert [(s.id, s.title) for s in made.entries[0].steps] == [("safe", "Look"), ("done", "Done")]
    assert [titles(p) for p in made.parts] == [["Valve"]]


def test_a_calculator_knows_the_readings_it_judges(tmp_path: Path) -> None:
    made = library(tmp_path, {"a.md": page("a", "Valve", READING)})
    (use,) = made.uses_of("coil")
    assert (use.label, use.step, use.anchor, use.entry.address) == ("Ice coil", 1, "read", "a.html")
    assert made.uses_of("flow") == ()


def test_machines_stand_in_the_order_of_the_shop_and_those_without_pages_are_left_out(tmp_path: Path) -> None:
    own = page("own", "One of a kind", appliance="Old press").replace(
        "people:", "models: {P1: []}\nenergies: {electricity: {points: [plug]}}\npeople:"
    )
    made = library(tmp_path, {
        "a.md": page("a", "Drum", appliance="washer"),
        "b.md": page("b", "Ask", page="self-check"),
        "c.md": own,
    })  # fmt: skip
    found = [(m.id, m.models, [e.title for e in m.entries]) for m in made.machines]
    assert found == [
        ("cabinet", ("IW40", "IW60"), ["Ask"]),
        ("washer", ("LM20",), ["Drum"]),
        ("old-press", ("P1",), ["One of a kind"]),
    ]
