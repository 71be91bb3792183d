"""Pages for the tests: parsed, analysed and drawn as the build does it."""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from bs4 import BeautifulSoup, Tag

from hooks import source
from hooks.check import analyse
from hooks.check.analysis import Analysis
from hooks.model import Page, Shop
from hooks.page import procedure, self_check
from hooks.page.view import Links
from hooks.parse import ParsedShop, page

SAMPLES = Path(__file__).parents[1] / "samples"
SHOP = Shop(None, name="Orsel Valley Workshop", phone="555-0142", hours="Monday to Saturday")
PUMP = """---
title: The pump
page: procedure
id: pump
revision: 2
reviewed: 2026-11-02
appliance: Pump
models: {P1: [], P2: [heated]}
energies:
  electricity: {points: [plug]}
  water: {points: [tap], trapped: true}
  heat: {points: [], charged-by: electricity, only: heated}
people: {number: 1, skill: live testing}
time: 1 h 30 min
does: It pumps.
tools: [tester, pliers]
supplies: none
parts: [{name: coil, number: C-1, quantity: 2}]
before: none
after: [Wipe the floor]
---
# The pump

!!! warning electricity water heat "Shock and flood"
    It can kill. Prove <b>all</b> of it off.

### Does it hum? {#hum decide check}

- Yes: [Unplug](#unplug)
- No: [As it was](#as-found)

## Make it safe

### Unplug {#unplug isolate="electricity"}

Pull the plug.

### Prove the power {#prove verify="electricity" needs="tester"}

!!! warning electricity "Shock"
    It can kill.

- **Not proved**, a light: [Stop](#stop)

### Drain it {#drain isolate="water" release="water" verify="water"}

!!! caution water "Spray"
    It sprays.

- **Proved**: [Cool it](#cool)
- **Not proved**: [Stop](#stop)

### Cool it {#cool release="heat" only="heated" wait="20 min"}

!!! warning heat "Burn"
    It burns.

### Is it cool? {#cold verify="heat" only="heated"}

!!! warning heat "Burn"
    It burns.

- **Proved**: [Open it](#open)
- **Not proved**: [Cool it](#cool)

## Work

### Open it {#open work opens="lid"}

### Measure {#measure work reads="coil"}

```reading
id: coil
label: Coil
unit: ohm
limits: [100, 500]
calculator: coil
```

### Is the coil good? {#good decide judges="coil"}

- **In limits**: [Close it](#close)
- **Out of limits**: [Change it](#change)
- **Too close to call**: [Measure](#measure)

### Change it {#change work optional installs="coil"}

### Close it {#close work closes="lid"}

### Open the tap {#tap-on restore="water" clear}

### Look for drips {#catch test="water"}

!!! caution water "Spray"
    Hold the tube.

### Plug in {#plug-in restore="electricity" clear}

### Done {#done end="in service" outcome="repaired" cause="coil" then="pump-check"}

### Stop {#stop end="stopped"}

!!! danger electricity "Live"
    Keep away. Tell the office.

### As it was {#as-found end="as found"}
"""


@dataclass(frozen=True)
class Drawn:
    """A page with all that it was drawn from."""

    page: Page
    analysis: Analysis | None
    html: str

    @cached_property
    def soup(self) -> BeautifulSoup:
        return BeautifulSoup(self.html, "html.parser")

    def step(self, id: str) -> Tag:
        return self.soup.find("section", id=id)

    def board(self, id: str) -> Tag:
        """The board that a script shows while that step is open."""
        return self.whole(self.step(id)["data-board"])

    def whole(self, id: str) -> Tag:
        """A board with its lines, as a script puts it together."""
        named = self.soup.find("template", id=id)
        made = shared(self.soup, "heads", named["data-head"])
        for number in named["data-lines"].split():
            made.find("ul").append(shared(self.soup, "lines", number))
        return BeautifulSoup(str(made), "html.parser").div

    @property
    def boards(self) -> list[Tag]:
        """All boards that a script may show."""
        return [self.whole(one["id"]) for one in self.soup.select("template[data-head]")]


def shared(soup: Tag, what: str, number: str) -> Tag:
    """A copy of what boards share: of their heads or lines the one with that number."""
    return copy(soup.find("template", id=f"page--board-{what}").find_all(recursive=False)[int(number)])


def draw(text: str = PUMP, *, analysed: bool = True, shop: Shop = SHOP, **more: object) -> Drawn:
    """Draw a page; findings of the text itself are an error of the test."""
    parsed = page(source.from_text(text, "pump.md"), shop)
    assert parsed.page and not parsed.findings, parsed.findings
    analysis = analyse(parsed.page, ParsedShop(shop, (parsed,), ()))[1] if analysed else None
    render = self_check.render if parsed.page.kind == "self-check" else procedure.render
    links = Links({"pump-check": ("pump-check.html", "Check the pump")})
    return Drawn(parsed.page, analysis, render(parsed.page, analysis, (), shop, links, **more))


def sample(name: str) -> Drawn:
    """Draw one of the sample pages."""
    return draw((SAMPLES / name).read_text("utf-8"))


def words(tag: Tag) -> str:
    """The text of a tag with single spaces."""
    return " ".join(tag.get_text(" ").split())
