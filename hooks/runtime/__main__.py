"""`python -m hooks.runtime`: npm with the Node that Stillbench uses; without arguments `npm ci`."""

from __future__ import annotations

import sys

from hooks.runtime.packages import run_npm

if __name__ == "__main__":
    sys.exit(run_npm(*sys.argv[1:] or ("ci",)))
