"""What a reading may say of a calculator: the units it judges in, and the names of the values that a page gives."""

from __future__ import annotations

from calculators._lib import shelf
from calculators._lib.amounts import Choice
from calculators._lib.declare import NOTHING, Calculator, Input


def ids() -> tuple[str, ...]:
    """The words of all calculators."""
    return shelf.ids()


def given(calculator: Calculator) -> tuple[str, ...]:
    """The names that may stand under `given`."""
    return tuple(one.name for one in calculator.inputs if one.given)


def listed() -> str:
    """Every calculator with what it says of itself."""
    found = [calculator for calculator in map(shelf.get, ids()) if calculator]
    wide = max(len(one.id) for one in found)
    return "\n".join(("Calculators:", *(f"    {one.id:{wide}}  {one.summary}" for one in found)))


def text(id: str) -> str:
    """What a writer needs to use it. KeyError where there is no such calculator."""
    calculator = shelf.get(id)
    if calculator is None:
        raise KeyError(id)
    judged = calculator.judged
    judges = "nothing: it has no limits" if judged is NOTHING else f"{judged.label}, in {_units(judged.units)}"
    rows = [(one.name, _says(one)) for one in calculator.inputs if one.given]
    wide = max((len(name) for name, _ in rows), default=0)
    return "\n".join(
        (
            f"{calculator.title}: {calculator.summary}",
            "",
            "In a reading:",
            f"    calculator: {id}",
            f"    limits and unit are of {judges}",
            f"    typed at the machine: {', '.join(one.label for one in calculator.inputs if one.name in calculator.typed)}",
            "",
            "What the page may say under `given`; what it does not say has its usual value, or is asked:",
            *(f"    {name:{wide}}  {says}" for name, says in rows),
        )
    )


def _says(one: Input) -> str:
    choices = " or ".join(option.text for option in one.options) or _units(one.units)
    usual = f"usual {one.default}" if one.default else ""
    named = f"{one.label} ({choices})" if choices else one.label
    return ", ".join(part for part in (named, usual) if part)


def _units(units: tuple[Choice, ...]) -> str:
    return ", ".join(unit.text for unit in units if unit.text)
