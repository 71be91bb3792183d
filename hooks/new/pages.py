"""A new page of a shop that is there: it holds for its machine as the shop facts have it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from hooks import parse
from hooks.check.rules.wrong_signal_word import MILDEST
from hooks.model import Appliance, Energy, Shop
from hooks.new import CannotMake, filled, lay
from hooks.parse.fields import ENERGY, PAGE, SHOP
from hooks.parse.fit import NAME
from hooks.parse.words import SIGNAL_WORDS
from hooks.source import NotText, read

TOOLS = {"electricity": "voltage tester", "water": "bucket", "hot-water": "bucket"}
"""What an energy is proved off with (common practice, no source); what no word here fits is asked of the writer."""
SAYS = {row.name: row.says for row in (*SHOP.fields, *ENERGY.fields, *PAGE)}
"""What each key means, for the comments."""


@dataclass(frozen=True, slots=True)
class Named:
    """An energy as the templates need it."""

    name: str
    points: tuple[str, ...]
    word: str
    """The mildest signal word for it."""
    tool: str
    only: str
    """The words that a step about it needs, where not every model has it."""


def make(kind: str, path: Path, appliance: str | None) -> tuple[Path, ...]:
    """Write a procedure, a self-check or shared steps. Raises CannotMake for a bad name or an unknown machine."""
    name = path.name.removesuffix(".md")
    if not NAME.fullmatch(name):
        raise CannotMake(f"`{name}` is not one word: a page's name is letters, digits and hyphens, such as `fill-valve`")
    folder = _shop_folder(path.parent)
    shop = _facts(folder)
    taken = {parsed.page.id for parsed in parse.folder(folder).pages if parsed.page}
    if name in taken:
        raise CannotMake(f"there is a page with the id `{name}` in this shop already; take another name")
    return lay(path.parent, page(kind, name, shop, _machine(shop, appliance)))


def page(kind: str, name: str, shop: Shop, machine: Appliance) -> dict[str, str]:
    """The page for that machine, not written."""
    supplies = [e for e in machine.energies if not e.stored]
    stored = sorted((e for e in machine.energies if e.stored), key=lambda e: _depth(e, machine.energies))
    release = [_named(e) for e in (*supplies, *stored) if e.needs_release]
    energies = [_named(e) for e in (*supplies, *stored)]
    first = energies[0].name if energies else ""
    return filled(
        kind,
        name,
        title=name.replace("-", " "),
        appliance=machine,
        skill=shop.skills[0],
        says=SAYS,
        supplies=[_named(e) for e in supplies],
        to_release=release,
        energies=energies,
        tools=list(dict.fromkeys(e.tool for e in energies)),
        word=min((e.word for e in energies), key=SIGNAL_WORDS.index, default=""),
        only=lambda energy: f' only="{energy.only}"' if energy.only else "",
        first=f"Cut the {first}" if first else "Slide it out",
        first_id=f"cut-{first}" if first else "slide-out",
    )


def _named(energy: Energy) -> Named:
    guard = energy.only
    only = f"{'not ' if guard.negated else ''}{guard.option}" if guard else ""
    word = energy.lowest_word or MILDEST.get(energy.name, "caution")
    return Named(energy.name, energy.points, word, TOOLS.get(energy.name, f"TOOL FOR {energy.name}"), only)


def _depth(energy: Energy, energies: Sequence[Energy]) -> int:
    """How many energies feed one another before it."""
    feeder = next((e for e in energies if e.name == energy.charged_by), None)
    return 1 + _depth(feeder, energies) if feeder else 0


def _shop_folder(folder: Path) -> Path:
    own = folder.resolve()
    found = next((p for p in (own, *own.parents) if (p / parse.FACTS).is_file()), None)
    if found is None:
        raise CannotMake(f"{folder} is not in a shop: there is no {parse.FACTS} in it or above it; `stillbench new shop DIR` makes one")
    return found


def _facts(folder: Path) -> Shop:
    try:
        shop, findings = parse.shop_facts(read(folder / parse.FACTS, parse.FACTS))
    except NotText as error:
        raise CannotMake(f"{parse.FACTS}: {error}") from error
    if findings:
        raise CannotMake(f"the shop facts have errors, so their machines are not known: `stillbench check {folder}` names them")
    return shop


def _machine(shop: Shop, wanted: str | None) -> Appliance:
    known = {a.id: a for a in shop.appliances}
    if not known:
        raise CannotMake(f"the shop facts name no machine; write one under `appliances` in {parse.FACTS} first")
    listed = ", ".join(sorted(known))
    if wanted is None:
        if len(known) > 1:
            raise CannotMake(f"say which machine it is about, --appliance and one of: {listed}")
        return next(iter(known.values()))
    found = known.get(wanted) or next((a for a in known.values() if a.title == wanted), None)
    if found is None:
        near = get_close_matches(wanted, known, 1)
        raise CannotMake(f"there is no appliance {wanted}; " + (f"did you mean {near[0]}?" if near else f"there are: {listed}"))
    return found
