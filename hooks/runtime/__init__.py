"""The in-browser Python: what is fetched, how it is cut, compiled and laid into the site.

The rest of the house sees only what stands here.
"""

from __future__ import annotations

from hooks.runtime.lay import FOLDER, RuntimeFailure, RuntimeFiles, lay
from hooks.runtime.node import NodeMissing
from hooks.runtime.packages import PackageMissing, package
from hooks.runtime.wheel import OFFERED, offer

__all__ = [
    "FOLDER",
    "NodeMissing",
    "OFFERED",
    "PackageMissing",
    "RuntimeFailure",
    "RuntimeFiles",
    "lay",
    "offer",
    "package",
]
