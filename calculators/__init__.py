"""Calculators: one file each, the same in CPython and in the browser; standard library only."""

VERSION = "0.1.0"
"""That of the whole of Stillbench, as pyproject.toml says it too."""
