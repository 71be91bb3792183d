"""The calculators' own pages: the form, what comes out, and all that stands behind it."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from calculators._lib import entry, grid, shelf, table
from calculators._lib.declare import KEPT, NOTHING, Calculator, Input, Sweep
from hooks.library.entries import Library
from hooks.page import words
from hooks.page.generated import GeneratedPage, links_from
from hooks.page.templates import draw

READINGS = 3
"""So many readings stand ready; fewer are enough."""


@dataclass(frozen=True, slots=True)
class Form:
    """The fields of a calculator, in the groups in which they are shown."""

    readings: tuple[Input, ...]
    """Typed several times, side by side."""
    asked: tuple[Input, ...]
    """Always typed."""
    usual: tuple[Input, ...]
    """Have a usual value, or may be left empty."""
    kept: tuple[tuple[str, tuple[Input, ...]], ...]
    """What belongs to the reader's own things and is entered once, by its group."""


def all_calculators() -> tuple[Calculator, ...]:
    """Every calculator on the shelf, by title."""
    found = [c for c in map(shelf.get, shelf.ids()) if c]
    return tuple(sorted(found, key=lambda c: c.title))


def generated(library: Library) -> tuple[GeneratedPage, ...]:
    """The index and one page for each calculator."""
    return (index(library), *(page(c, library) for c in all_calculators()))


def index(library: Library) -> GeneratedPage:
    """All calculators, and how many readings each judges."""
    path = "calculators/index.md"
    uses = {c.id: len(library.uses_of(c.id)) for c in all_calculators()}
    facts = {"to": links_from(path), "calculators": all_calculators(), "uses": uses}
    html = draw("calculator/index.html", **facts)
    return GeneratedPage(path, "Calculators", str(html), {"page": "calculators", "title": "Calculators"})


def page(calculator: Calculator, library: Library) -> GeneratedPage:
    """Form, answer, formula, validity, sources, example, cautions, table, where it is used."""
    path = f"calculators/{calculator.id}.md"
    html = draw(
        "calculator/calculator.html",
        calculator=calculator,
        form=form(calculator),
        rows=range(1, READINGS + 1),
        example=_example(calculator),
        picture=_picture(calculator),
        judges=calculator.judged is not NOTHING,
        limits=words.limits(calculator.example.low, calculator.example.high),
        table=_table(calculator),
        cells=_cells(calculator),
        uses=library.uses_of(calculator.id),
        to=links_from(path),
    )
    return GeneratedPage(path, calculator.title, str(html), {"page": "calculator", "title": calculator.title})


def form(calculator: Calculator) -> Form:
    """Sort the inputs into the groups of the form."""
    rest = [i for i in calculator.inputs if not i.keep]
    readings = [i for i in rest if i.many and not i.row]
    asked = [i for i in rest if not i.many and (_wanted(i) or i.name in calculator.typed)]
    usual = [i for i in rest if i not in readings and i not in asked]
    return Form(tuple(readings), tuple(asked), tuple(usual), kept(calculator))


def kept(calculator: Calculator) -> tuple[tuple[str, tuple[Input, ...]], ...]:
    """The groups of inputs that are entered once a device."""
    groups = ((title, tuple(i for i in calculator.inputs if i.keep == title)) for title in KEPT)
    return tuple((title, inputs) for title, inputs in groups if inputs)


def _wanted(one: Input) -> bool:
    return one.required and one.default is None


def _example(calculator: Calculator) -> list[tuple[str, str]]:
    """Label and text of what the worked example types."""
    typed = ((calculator.input(name), text) for name, text in calculator.example.fields.items())
    return [(i.label, text if any(c.isalpha() for c in text) else f"{text} {i.unit}") for i, text in typed if i]


def _picture(calculator: Calculator) -> Markup:
    """What the worked example comes out as, drawn."""
    one = calculator.example
    asked = {"fields": one.fields, "limits": {"low": one.low, "high": one.high, "unit": one.unit or None}}
    return Markup(entry.answer_to(calculator.id, asked)["picture"])


def _table(calculator: Calculator) -> table.Table | None:
    example = calculator.example
    if not isinstance(calculator.table, Sweep):
        return None
    limits = {"low": example.low, "high": example.high, "unit": example.unit}
    given = {name: text for name, text in example.fields.items() if name not in calculator.typed}
    return table.table(calculator.id, given, limits)


def _cells(calculator: Calculator) -> grid.Cells | None:
    return None if isinstance(calculator.table, Sweep) else grid.cells(calculator, calculator.example.fields)
