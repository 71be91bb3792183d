"""`python -m hooks …` is the command `stillbench …`."""

from __future__ import annotations

import sys

from hooks.cli import main

sys.exit(main())
