"""Times a preview in the shop of this folder, from a saved procedure to its page.

`python -m tests.bench.save [TIMES]`: the seconds from the moment the change is seen; MkDocs looks for changes
twice a second and waits a tenth for more of them.
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path
from types import SimpleNamespace

from mkdocs.commands.build import build
from mkdocs.config import load_config

ADDRESS = "http://127.0.0.1:8000/"


def main() -> None:
    """Print seconds of CPU and of the clock for each save."""
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    config = load_config("mkdocs.yml", site_dir="preview", site_url=ADDRESS)
    config.plugins.on_startup(command="serve", dirty=False)
    build(config, serve_url=ADDRESS)

    def whole() -> None:
        raise AssertionError("the whole site was to be drawn")

    server = config.plugins.on_serve(SimpleNamespace(builder=None), config=config, builder=whole)
    page = next(iter(sorted(Path(config.docs_dir).glob("*/procedure-*.md"))))
    text = page.read_text("utf-8")
    for number in range(times):
        page.write_text(text.replace("### ", f"Slowly, {number}.\n\n### ", 1), "utf-8")
        begun, clock = time.process_time(), time.perf_counter()
        server.builder()
        spent = time.process_time() - begun, time.perf_counter() - clock
        print(f"save to page {spent[0]:.2f} s of CPU, {spent[1]:.2f} s, load {os.getloadavg()[0]:.1f}", file=sys.stderr)
    page.write_text(text, "utf-8")


if __name__ == "__main__":
    main()
