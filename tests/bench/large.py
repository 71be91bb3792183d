"""Times the build of large shops, ours against stock MkDocs with Material, on this machine.

`python -m tests.bench.large [LEAST]`: shops of LEAST (1,000), twice and four times as many
pages; stock at twice. CPU seconds of a whole process, user and system. A build and a check are timed with
nothing kept from before, then at twice the same shop right after its build: check, build after one edit, and
saved page to page in a preview (seconds of CPU within the running process). It takes some minutes.
"""

from __future__ import annotations

import math
import os
import platform
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.bench import shops, stock

BUILD, CHECK = ("mkdocs", "build", "-q"), ("hooks", "check")
COLD, SAVE = (*CHECK, "--fresh"), ("tests.bench.save",)
TARGETS = {"build": 0.2, "check": 0.05, "edit": 0.1, "growth": 1.15}


def cpu(folder: Path, *module: str) -> float:
    """CPU seconds of a module of this Python, run in a folder; its failure is ours."""
    paths = os.pathsep.join((str(shops.ROOT), os.environ.get("PYTHONPATH", "")))
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": paths}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # ours would be compiled each time, what pip installed would not
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-m", *module], cwd=folder, env=environment, check=True, stdout=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def growth(least: tuple[int, float], most: tuple[int, float]) -> float:
    """The exponent of the number of pages by which the time grows."""
    return math.log(most[1] / least[1]) / math.log(most[0] / least[0])


def edited(folder: Path, pages: int) -> Path:
    """The shop that was laid and built before."""
    return folder


def edit(folder: Path) -> None:
    """Say one word more on one page."""
    page = next(iter(sorted((folder / "procedures").glob("*/procedure-*.md"))))
    page.write_text(page.read_text("utf-8").replace("### ", "Slowly.\n\n### ", 1), "utf-8")


def measure(folder: Path, least: int) -> dict[tuple[str, int], float]:
    """CPU seconds by what was run and the number of pages, each printed as it is known."""
    jobs = (
        ("build", shops.lay, least, BUILD),
        ("build", shops.lay, 2 * least, BUILD),
        ("check", edited, 2 * least, CHECK),
        ("edit", edited, 2 * least, BUILD),
        ("cold", edited, 2 * least, COLD),
        ("save", edited, 2 * least, SAVE),
        ("stock", stock.lay, 2 * least, BUILD),
        ("build", shops.lay, 4 * least, BUILD),
    )
    found: dict[tuple[str, int], float] = {}
    cpu(shops.lay(folder / "first", 10), *BUILD)  # what is kept for the browser is made here, once
    for name, lay, pages, module in jobs:
        laid = lay(folder / ("stock" if name == "stock" else str(pages)), pages)
        if name == "edit":
            edit(laid)
        found[name, pages] = cpu(laid, *module)
        print(f"{name:6} {pages:6} pages {found[name, pages]:8.1f} s of CPU", flush=True)
    return found


def main() -> None:
    """Print the times, the ratios and the growth, each with its target."""
    least = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, {platform.machine()}, load {load}")
    with tempfile.TemporaryDirectory() as name:
        found = measure(Path(name), least)
    ours = found["build", 2 * least]
    ratios = {
        "build": (ours / found["stock", 2 * least], "of stock"),
        "check": (found["check", 2 * least] / ours, "of the build, right after it"),
        "edit": (found["edit", 2 * least] / ours, "of the build"),
        "growth": (growth((least, found["build", least]), (4 * least, found["build", 4 * least])), "as power of N"),
    }
    for what, (value, of) in ratios.items():
        print(f"{what:6} {value:5.3f} {of}; target {TARGETS[what]}")
    print(f"check with nothing kept: {found['cold', 2 * least] / ours:.3f} of the build")


if __name__ == "__main__":
    main()
