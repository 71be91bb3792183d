"""Calculators: one file each, the same in CPython and in the browser; standard library only."""
