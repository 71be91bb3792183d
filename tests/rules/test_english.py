"""The words that rules look for: what they find, and what they leave alone."""

from __future__ import annotations

import pytest

from hooks.check import english
from hooks.check.rules import isolation_in_message
from hooks.model import Energy, Message
from hooks.source import Span

HERE = Span(1, 1, 1, 2)
POINTS = {"electricity": ("plug", "breaker"), "water": ("stop valve",), "heat": ()}
MACHINE = tuple(Energy(name, points, False, None, None, None, "", HERE) for name, points in POINTS.items())
COMMANDS = (
    "Descale the boiler", "Torque the flange bolts", "Reseat connectors", "Purge air from the line", "Jack up the machine",
    "Two people lift the drum", "With gloves on, lift the drum", "If it is wet, dry it", "Power down", "Do not open it",
    "Shut, drain and prove the water", "Slowly open the tap", "Burnish the contacts", "Two people, roll it back",
)  # fmt: skip
THINGS = ("Panel", "Final check", "Back panel", "The fuse", "Panel on", "Filter change", "Behind the panel", "It is dry")
ORDERS = ("Unplug it", "Turn the machine off", "Empty the drum", "Ring the office first", "Switch off the light")
STATES = (
    "The drum is empty", "Drain is clear", "Tap is open", "Wash programme has ended", "Steam is off", "Lock and tag are at hand",
    "Fill level is normal", "Oil pressure is down", "Power has been on for a day", "Test leads are whole", "Two people are there",
)  # fmt: skip
TOLD = (
    ("Turn off the shelter power before you take the leads off.", "electricity", "electricity"),
    ("Unplug it first.", "", "electricity"),
    ("Shut the stop valve, and drain the hose.", "water", "water"),
    ("Switch it off and wait.", "electricity", "electricity"),
    ("Cut both, and prove both, before you open it.", "electricity water", "electricity water"),
    ("Isolate it, and prove it.", "electricity", "electricity"),
    ("Shut the gas cock.", "", "gas"),
)
NOT_TOLD = (
    ("It starts by itself. Close the door before you press start.", "electricity"),
    ("Cut the cable tie near the mains lead.", "electricity"),
    ("Drain water scalds.", "water"),
    ("Water comes after the tap is shut.", "water"),
    ("Hold the lid up with the strut.", "electricity"),
    ("Disconnect the hose only over the bucket.", "water"),
    ("Never unplug it while it runs.", "electricity"),
    ("Switch covers are live.", "electricity"),
)


@pytest.mark.parametrize("title", COMMANDS)
def test_a_command_is_told(title: str) -> None:
    assert english.commands(title)


@pytest.mark.parametrize("title", THINGS)
def test_a_thing_is_no_command(title: str) -> None:
    assert not english.commands(title)


@pytest.mark.parametrize("condition", ORDERS)
def test_an_order_among_conditions_is_told(condition: str) -> None:
    assert english.surely_commands(condition)


@pytest.mark.parametrize("condition", STATES)
def test_what_is_so_is_no_order_though_it_begins_like_one(condition: str) -> None:
    assert not english.surely_commands(condition)


def told(text: str, energies: str) -> str:
    message = Message("warning", tuple(energies.split()), "Danger", text, HERE)
    return " ".join(isolation_in_message.told(message, MACHINE))


@pytest.mark.parametrize(("text", "energies", "wanted"), TOLD)
def test_a_message_that_cuts_an_energy_is_found_with_it(text: str, energies: str, wanted: str) -> None:
    assert told(text, energies) == wanted


@pytest.mark.parametrize(("text", "energies"), NOT_TOLD)
def test_a_message_that_only_speaks_of_it_is_left_alone(text: str, energies: str) -> None:
    assert told(text, energies) == ""
