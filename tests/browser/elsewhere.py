"""A page that is not of the site, with stock PyScript and the published calculators, all from this machine."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from hooks.runtime import OFFERED, offer, package
from tests.browser.conftest import ROOT

EXAMPLE = ROOT / "docs/calculators-elsewhere.html"


def lay_elsewhere(folder: Path) -> Path:
    """Lay into `folder` what the documented page expects beside it; gives the wheel."""
    wheel = offer(folder / "site", ROOT / "calculators")
    shutil.copytree(folder / "site" / OFFERED, folder / "calculators")
    configuration = folder / "calculators/pyscript.json"
    own = json.loads(configuration.read_text("utf-8")) | {"interpreter": "./pyodide/pyodide.mjs"}
    configuration.write_text(json.dumps(own), "utf-8")
    shutil.copytree(package("@pyscript/core") / "dist", folder / "pyscript")
    shutil.copytree(package("pyodide"), folder / "pyodide")
    shutil.copyfile(EXAMPLE, folder / EXAMPLE.name)
    return wheel
