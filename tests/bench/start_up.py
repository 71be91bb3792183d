"""Times the start of all calculators against that of two, on this machine.

`python -m tests.bench.start_up [repeats]`. From the start of the navigation to the first answer, cold, both in turn. On a busy
machine the quickest tell more than the medians.
The other site has a shelf with two calculators, and of the rest only what these two import.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from hooks.runtime import lay
from tests.bench.first_answer import Series, cold, facts, lay_page
from tests.browser import chromium
from tests.browser.conftest import ROOT
from tests.browser.server import serving

TWO = ("coil", "flow")
TARGET = 1.1
NEEDED = "import sys, calculators._lib.entry; print(*(m.__file__ for n, m in sys.modules.items() if n.startswith('calculators')))"
LINE = re.compile(r"^from calculators import (\w+)\n", re.MULTILINE)


def lay_two(folder: Path) -> Path:
    """A folder of calculators with two of them, and what they import."""
    whole = shutil.copytree(ROOT / "calculators", folder / "whole/calculators", ignore=shutil.ignore_patterns("__pycache__"))
    shelf = whole / "_lib/shelf.py"
    shelf.write_text(LINE.sub(lambda line: line[0] if line[1] in TWO else "", shelf.read_text("utf-8")), "utf-8")
    command = [sys.executable, "-B", "-c", NEEDED]
    told = subprocess.run(command, cwd=whole.parent, capture_output=True, text=True, check=True).stdout
    for name in told.split():
        target = folder / "two" / Path(name).relative_to(whole.parent)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(name, target)
    return folder / "two/calculators"


def main() -> None:
    """Print both medians and their ratio."""
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 10
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        site, two = Path(name) / "site", lay_two(Path(name))
        for page, calculators in (("all", ROOT / "calculators"), ("two", two)):
            lay_page(site, page, lay(site, calculators, ROOT / ".cache/runtime").folder)
        browser = chromium.launch(playwright)
        print(facts(browser))
        times = {"all": Series([]), "two": Series([])}
        with serving(site) as base:
            for turn in range(repeats):
                for page, series in list(times.items())[:: (-1) ** turn]:
                    series.times.append(cold(browser, f"{base}{page}.html"))
        browser.close()
    every, few = times.values()
    quick = min(every.times) / min(few.times)
    print(f"First answer, cold, median of {repeats}, ms: all calculators {every}, {' and '.join(TWO)} alone {few}")
    print(f"ratio {every.median / few.median:.2f}, of the quickest {quick:.2f}, target {TARGET}")



if __name__ == "__main__":
    main()
