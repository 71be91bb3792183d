"""A small shop in a folder of its own, far from the demo."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

FACTS = """\
shop: {name: Test shop, phone: 555-0100, hours: always}
appliances:
  kettle:
    title: Kettle
    models: {K1: []}
    energies:
      electricity: {points: [plug]}
"""

PAGE = """\
---
title: Change the switch
page: procedure
id: switch
revision: 1
reviewed: 2026-11-02
appliance: kettle
people: {number: 1, skill: basic}
time: 10 min
protect: none
tools: [voltage tester]
supplies: none
parts: none
before: none
after: none
---
# Change the switch

!!! warning electricity "Shock"
    Live parts kill. Unplug it and prove it before you open it.

### Unplug it {#unplug isolate="electricity"}

Keep the plug in sight.

### Prove it {#prove verify="electricity" needs="voltage tester"}

Try the tester, test, try the tester.

- **Proved**: [Swap the switch](#swap)
- **Not proved**: [Stop](#stop)

### Swap the switch {#swap work}

One wire at a time.

### Plug it in {#plug restore="electricity" clear}

Dry hands.

### Done {#done end="in service"}

Boil once.

### Stop {#stop end="stopped"}

Tell the office.
"""
"""A page without a fault; without its line PROVED a hand goes in unproved."""

PROVED = '### Prove it {#prove verify="electricity" needs="voltage tester"}'
UNPROVED = "### Look at it {#prove decide}"
BROKEN = (
    PAGE.replace(PROVED, UNPROVED)
    .replace("- **Proved**", "- It looks dead")
    .replace("- **Not proved**", "- It does not")
)


def lay(folder: Path, page: str = PAGE, how: str = "") -> Path:
    """Write the shop into `folder`; `how` is the line that names the generator."""
    procedures = folder / "procedures"
    procedures.mkdir(parents=True)
    (procedures / "shop.yml").write_text(FACTS, "utf-8")
    (procedures / "switch.md").write_text(page, "utf-8")
    how = how or f"plugins: []\nhooks: ['{(ROOT / 'hooks/build.py').as_posix()}']"
    settings = "site_name: Test shop\ndocs_dir: procedures\nuse_directory_urls: false\n"
    (folder / "mkdocs.yml").write_text(f"{settings}{how}\n", "utf-8")
    return folder


def run(folder: Path, *command: str) -> subprocess.CompletedProcess[str]:
    """Run a module of this Python inside the shop's folder."""
    told = [sys.executable, "-m", *command]
    return subprocess.run(told, cwd=folder, capture_output=True, text=True, timeout=300)
