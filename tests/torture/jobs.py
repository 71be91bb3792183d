"""Kills browsers in the middle of running jobs: what a page had shown as kept must be there, once, in order.

`python -m tests.torture.jobs [ROUNDS] [SEED]` prints the seed and the count; a round is one browser that
opens the job, works in a hurry and is killed at a random moment.
"""

from __future__ import annotations

import random
import sys
import tempfile
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, Playwright, TimeoutError, sync_playwright

from hooks.device import SCRIPTS
from hooks.page import bundle
from tests.browser.profile import browsing
from tests.browser.server import serving
from tests.pages.drawn import PUMP, draw

LONGEST = 900
"""Milliseconds that a browser works before it is killed, at most."""
PATIENCE = 30
"""Tenths of a second until the step at which a job stands must be open."""
PAGE = (
    '<!doctype html><html lang="en"><title>t</title><link rel="stylesheet" href="bench.css"><body>{0}'
    '<script>window.stillbench = {{ onstate: (f) => f("off"), calculate: async () => ({{ refused: [{{ field: "", message: "off" }}] }}) }};</script>'
    '<script src="bench.js"></script>'
    '<script>stillbench.store.ontrouble((reason) => reason && console.warn(`trouble: ${{reason}}`));</script>'
)
BEGIN = "() => stillbench.desk.begin({ model: 'P2', place: 'Upper Hut', complaint: 'It hums.' })"
HEAR = """
addEventListener("stillbench:record", ({ detail }) => shown([detail.events.map(({ id }) => id), detail.record.at]));
"""
WORK = """(seed) => {
  let state = seed;
  const chance = () => (state = (state * 1664525 + 1013904223) % 4294967296) / 4294967296;
  const { desk, store } = stillbench;
  const press = (selector) => {
    const found = [...document.querySelectorAll(selector)].filter((one) => one.checkVisibility());
    found[Math.floor(chance() * found.length)]?.click();
  };
  const acts = [
    () => press(".step[data-open] .ways a.way"),
    () => press(".step[data-open] .ways a.way"),
    () => press("[data-all-the-same]"),
    () => press(".bar .back"),
    () => press(".step h3 a"),
    () => desk.act("note", { step: desk.record.at, text: `note ${chance()}` }),
    () => desk.act("reading", { reading: "coil", step: 8, text: `${Math.round(chance() * 600)}` }),
    () => {
      const photo = store.fresh();
      const blob = new Blob([new Uint8Array(20000).fill(7)], { type: "image/jpeg" });
      return desk.act("photo", { step: desk.record.at, photo, type: blob.type, width: 1, height: 1 }, { photo: { id: photo, blob } });
    },
  ];
  const go = () => {
    acts[Math.floor(chance() * acts.length)]();
    setTimeout(go, chance() * 40);
  };
  go();
}"""
STATE = "[document.readyState, document.querySelector('.job')?.dataset.desk, document.body.innerText.slice(0, 300)]"
FOUND = """async () => {
  const { desk, store } = stillbench;
  const photos = await store.photos(desk.job.id);
  return {
    ids: desk.events.map(({ id }) => id),
    order: desk.events.map(({ n }) => n),
    at: desk.record.at,
    wanted: desk.record.photos.map(({ photo }) => photo),
    photos: photos.map(({ id, blob }) => [id, blob?.size ?? 0]),
    open: Number(document.querySelector(".step[data-open]")?.dataset.number ?? 0),
  };
}"""


@dataclass
class Shown:
    """What the page had shown as kept, before its browser was killed."""

    ids: list[str] = field(default_factory=list)
    at: int = 0
    said: list[str] = field(default_factory=list)
    """What the pages said on the console."""

    def hear(self, told: list) -> None:
        """The page shows this now."""
        self.ids, self.at = told


def site(folder: Path) -> Path:
    """A page with a procedure, and nothing else."""
    (folder / "bench.css").write_text(bundle.css(), "utf-8")
    job = [p.read_text("utf-8") for p in SCRIPTS if p.parent.name == "job"]
    (folder / "bench.js").write_text(bundle.js(job), "utf-8")
    (folder / "pump.html").write_text(PAGE.format(draw(PUMP).html), "utf-8")
    return folder


def opened(context: BrowserContext, url: str, shown: Shown) -> Page:
    """The job in a new tab of that browser, once it is open."""
    tab = context.new_page()
    tab.on("console", lambda said: shown.said.append(said.text))
    tab.on("pageerror", lambda error: shown.said.append(str(error)))
    tab.expose_function("shown", shown.hear)
    tab.add_init_script(HEAR)
    tab.goto(url)
    try:
        tab.locator('[data-desk="open"]').wait_for(state="attached")
    except TimeoutError as late:
        raise AssertionError(f"the job does not open: {tab.evaluate(STATE)}, {shown.said}") from late
    return tab


def settled(tab: Page) -> dict:
    """What is found once the step at which the job stands is open, or after as long as anybody would wait."""
    for _ in range(PATIENCE):
        found = tab.evaluate(FOUND)
        if found["open"] == found["at"]:
            break
        tab.wait_for_timeout(100)
    return found


def faults(found: dict, before: Shown) -> list[str]:
    """What a job that was opened again lacks of what was shown before, or has twice."""
    ids, at = found["ids"], found["at"]
    lost = [one for one in before.ids if one not in ids]
    told = [f"{len(lost)} acknowledged events are missing"] if lost else []
    told += ["an event is there twice"] if len(set(ids)) != len(ids) else []
    told += ["the order was changed"] if ids[: len(before.ids)] != before.ids else []
    told += ["the events are not numbered through"] if found["order"] != list(range(len(ids))) else []
    kept = dict(found["photos"])
    told += [f"photo {p} is missing" for p in found["wanted"] if not kept.get(p)]
    told += [f"it stands at {at}, shown was {before.at}"] if len(ids) == len(before.ids) and at != before.at else []
    told += [f"step {found['open']} is open, not {at}"] if found["open"] != at else []
    return told


def torture(playwright: Playwright, folder: Path, rounds: int, seed: int) -> list[str]:
    """Kill so many browsers; the faults that were found, each with its round."""
    chance, told, shown = random.Random(seed), [], Shown()
    profile = folder / "profile"
    profile.mkdir(exist_ok=True)
    with serving(site(folder)) as base:
        url = f"{base.rstrip('/')}/pump.html"
        with browsing(playwright, profile) as context:
            tab = context.new_page()
            tab.goto(url)
            url += f"?job={tab.evaluate(BEGIN)}"
        for number in range(rounds):
            before = Shown(shown.ids, shown.at)
            with browsing(playwright, profile) as context:
                tab = opened(context, url, shown)
                told += [f"round {number}: {fault}" for fault in faults(settled(tab), before)]
                tab.evaluate(WORK, chance.randrange(2**32))
                tab.wait_for_timeout(chance.uniform(0, LONGEST))
    print(f"seed {seed}: {rounds} browsers killed, {len(shown.ids)} events kept, {len(told)} faults; said {dict(Counter(shown.said))}")
    return told


def main() -> int:
    """Run from the command line."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else random.randrange(2**32)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        told = torture(playwright, Path(folder), rounds, seed)
    print(*told, sep="\n")
    return 1 if told else 0


if __name__ == "__main__":
    sys.exit(main())
