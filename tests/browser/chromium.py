"""Finds a Chromium for the tests, or has one installed.

`python tests/browser/chromium.py` prints where it is, after installing it if need be.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from playwright.sync_api import Browser, Playwright, sync_playwright

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
MANAGERS = {
    "apt-get": (("update", "-q"), ("install", "-y", "-q", "chromium")),
    "dnf": (("install", "-y", "chromium"),),
    "pacman": (("-Sy", "--noconfirm", "chromium"),),
    "apk": (("add", "chromium"),),
}
"""Package managers of systems, and what they are asked, in order."""


QUIET = (
    "--disable-background-networking --disable-component-update --disable-dev-shm-usage "
    "--disable-features=AutofillServerCommunication --disable-gpu --disable-quic --disable-sync --no-first-run"
).split()
"""What keeps a Chromium from talking to anybody on its own, and within a container's memory."""


def launch(playwright: Playwright) -> Browser:
    """Start the Chromium that `find` gives."""
    found = find(playwright)
    assert found, "No Chromium here: run `make test`, which installs one."
    root = ["--no-sandbox"] if os.geteuid() == 0 else []
    return playwright.chromium.launch(executable_path=str(found), args=[*QUIET, *root])


def find(playwright: Playwright) -> Path | None:
    """A Chromium that starts: STILLBENCH_CHROMIUM, one on the PATH, or Playwright's own."""
    named = os.environ.get("STILLBENCH_CHROMIUM")
    usual = [*map(shutil.which, NAMES), playwright.chromium.executable_path]
    return next((Path(p) for p in ([named] if named else usual) if p and _starts(p)), None)


def install(playwright: Playwright) -> None:
    """Install one by the system's package manager, else by Playwright; failures show themselves."""
    for manager, requests in MANAGERS.items():
        command = _as_root(manager)
        if command and all(_run(*command, *request) for request in requests) and find(playwright):
            return
    _run(sys.executable, "-m", "playwright", "install", "chromium")


def _as_root(command: str) -> list[str] | None:
    """How to run `command` as root without a question, None where it cannot be."""
    path = shutil.which(command)
    if path is None:
        return None
    if os.geteuid() == 0:
        return [path]
    sudo = shutil.which("sudo")
    return [sudo, "-n", path] if sudo and _run(sudo, "-n", "true") else None


def _run(*command: str) -> bool:
    return subprocess.run(command, stdout=sys.stderr).returncode == 0


def _starts(path: str) -> bool:
    try:
        return subprocess.run([path, "--version"], capture_output=True, timeout=30).returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        return False


def main() -> int:
    """Find or install, and say where; 1 where there is none to be had."""
    with sync_playwright() as playwright:
        if find(playwright) is None:
            install(playwright)
        found = find(playwright)
    print(found or "No Chromium here, and none could be installed: set STILLBENCH_CHROMIUM.")
    return 0 if found else 1


if __name__ == "__main__":
    sys.exit(main())
