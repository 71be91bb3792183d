"""Makes invented shops of any size, for the timings: the same seed gives the same shop.

`python -m tests.bench.shops FOLDER PAGES [SEED]` lays one with its `mkdocs.yml`. Of ten pages
eight are procedures of about 15 steps and 750 words, one is a self-check, and of fifty
one is an ordinary page. What is said comes from `shop/words.yml`, how from the templates beside it.
"""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml
from jinja2 import Environment, FileSystemLoader, StrictUndefined

HERE = Path(__file__).parent / "shop"
ROOT = Path(__file__).resolve().parents[2]
WORDS: dict[str, Any] = yaml.safe_load((HERE / "words.yml").read_text("utf-8"))
PAGES_A_MACHINE = 50
SUPPLIES = {
    "water": ("water", "stop valve", "Spray"),
    "hot-water": ("hot water", "hot tap", "Scald"),
    "gas": ("gas", "gas cock", "Fire"),
}
SETTINGS = f"""\
site_name: Generated shop
docs_dir: procedures
use_directory_urls: false
theme: material
plugins: []
hooks: ['{(ROOT / "hooks/build.py").as_posix()}']
"""
TEMPLATES = Environment(
    loader=FileSystemLoader(HERE),
    block_start_string="<%",
    block_end_string="%>",
    variable_start_string="<<",
    variable_end_string=">>",
    comment_start_string="<#",
    comment_end_string="#>",
    trim_blocks=True,
    undefined=StrictUndefined,
    keep_trailing_newline=True,
)


@dataclass(frozen=True, slots=True)
class Machine:
    """One appliance of the shop."""

    id: str
    title: str
    does: str
    option: str
    energies: tuple[str, ...]
    models: Mapping[str, list[str]]

    @property
    def facts(self) -> dict[str, Any]:
        """What the shop facts say of it."""
        only = WORDS["optional"]
        energies = {
            name: WORDS["energies"][name] | ({"only": only[name]} if name in only else {})
            for name in self.energies
        }
        return {"title": self.title, "does": self.does, "models": dict(self.models), "energies": energies}


@dataclass(frozen=True, slots=True)
class Said:
    """Words picked by chance; also what fills the slots of a sentence."""

    chance: random.Random

    def __getitem__(self, name: str) -> object:
        numbers: Mapping[str, Callable[[], int]] = {"n": self.n, "few": self.few, "minutes": self.few}
        return numbers[name]() if name in numbers else self.pick(name)

    def n(self) -> int:
        """A number to be read off something."""
        return self.chance.randint(5, 95)

    def few(self) -> int:
        """A number to count to."""
        return self.chance.randint(2, 9)

    def pick(self, name: str) -> str:
        """One entry of a list."""
        return self.chance.choice(WORDS[name])

    def some(self, name: str, number: int) -> str:
        """Several entries of a list, each once."""
        return ", ".join(self.chance.sample(WORDS[name], number))

    def filled(self, name: str, number: int) -> list[str]:
        """Several entries of a list of sentences, with their slots filled."""
        made = (s.format_map(self) for s in self.chance.sample(WORDS[name], number))
        return [s[:1].upper() + s[1:] for s in made]

    def say(self, number: int) -> str:
        """Some running text."""
        return " ".join(self.filled("sentences", number))


def machines(number: int, chance: random.Random) -> Iterator[Machine]:
    """So many machines, no two with the same title."""
    kinds, series = WORDS["machines"], WORDS["series"]
    for place in range(number):
        kind = kinds[place % len(kinds)]
        lap, name = divmod(place // len(kinds), len(series))
        title = f"{kind['title']} {series[name]}{f' {lap + 1}' if lap else ''}"
        option, code = kind["option"], f"{title[0]}{series[name][0]}{chance.randint(10, 99)}"
        models = {code: [], f"{code}-2": [option]}
        energies = tuple(kind["energies"])
        yield Machine(title.lower().replace(" ", "-"), title, kind["does"], option, energies, models)


def shop(pages: int, seed: int = 1) -> Iterator[tuple[str, str]]:
    """Every file of the shop's folder: its name and its text."""
    chance = random.Random(seed)
    fleet = tuple(machines(max(3, pages // PAGES_A_MACHINE), chance))
    facts = {
        "shop": {"name": "Generated shop", "phone": "555-0100", "hours": "always", "about": "Invented."},
        "clearing": "Tools out, hands out, people back.",
        "trade-words": WORDS["trade-words"],
        "skills": ["basic", "live testing"],
        "live-skills": ["live testing"],
        "appliances": {machine.id: machine.facts for machine in fleet},
    }
    yield "shop.yml", json.dumps(facts, ensure_ascii=False, indent=1)
    for place in range(pages):
        machine = fleet[place % len(fleet)]
        kind = "text" if place % 50 == 49 else "self-check" if place % 10 == 9 else "procedure"
        yield f"{machine.id}/{kind}-{place}.md", _page(kind, place, machine, chance)


def _page(kind: str, place: int, machine: Machine, chance: random.Random) -> str:
    said = Said(chance)
    part = said.pick("part")
    reading = chance.choice(WORDS["readings"])
    low = chance.randint(*reading["low"])
    supplies = {name: SUPPLIES[name] for name in machine.energies if name in SUPPLIES}
    return TEMPLATES.get_template(f"{kind}.md").render(
        id=f"{kind}-{place}",
        title=f"{part.capitalize()} {said.pick('fault')}: {machine.title}",
        part=part,
        number=f"{part[0].upper()}{machine.id[0].upper()}-{1000 + place}",
        machine=machine,
        energies=machine.energies,
        supplies=supplies,
        after=lambda name: _after(name, machine, cover, supplies),
        only=_only,
        cover=(cover := said.pick("cover")),
        live="heat" not in machine.energies and chance.random() < 0.1,
        reading=reading | {"id": "measured", "low": low, "high": low + chance.randint(*reading["width"])},
        symptoms=said.filled("symptoms", 3),
        complaint=f"{said.filled('complaints', 1)[0]}: {machine.title}",
        seen=lambda number: " ".join(said.filled("seen", number)),
        questions=said.filled("questions", chance.randint(4, 6)),
        listed="\n".join(f"- {entry}" for entry in said.filled("sentences", 3)),
        words=WORDS,
        chance=chance,
        **{name: getattr(said, name) for name in ("n", "few", "pick", "some", "say")},
    )


def _only(energy: str) -> str:
    option = WORDS["optional"].get(energy)
    return f' only="{option}"' if option else ""


def _after(name: str, machine: Machine, cover: str, supplies: Mapping[str, tuple[str, str, str]]) -> tuple[str, str]:
    """Id and title of the step that follows the proof of a supply."""
    rest = list(supplies)[list(supplies).index(name) + 1 :]
    if rest:
        return f"off-{rest[0]}", f"Shut, drain and prove the {supplies[rest[0]][0]}"
    return ("cool", "Let it cool") if "heat" in machine.energies else ("open", f"Open the {cover}")


def lay(folder: Path, pages: int, seed: int = 1) -> Path:
    """Write a shop of so many pages, and how it is built, into `folder`."""
    for name, text in shop(pages, seed):
        file = folder / "procedures" / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
    (folder / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    return folder


if __name__ == "__main__":
    lay(Path(sys.argv[1]), *map(int, sys.argv[2:]))
