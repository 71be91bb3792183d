"""An independent solution of freezing: heat flows from ring to ring, each with its own enthalpy.

Nothing here knows Plank's formula. Explicit in time, finite volumes in one dimension, properties of 0 °C.
"""

from __future__ import annotations

import numpy as np

LATENT, DENSITY = 333.4e3, 916.7
WATER_HEAT, ICE_HEAT = 4200.0, 2050.0
WATER_CONDUCTIVITY = 0.56


def _temperature(enthalpy: np.ndarray) -> np.ndarray:
    water, ice = (enthalpy - LATENT) / WATER_HEAT, enthalpy / ICE_HEAT
    return np.where(enthalpy > LATENT, water, np.where(enthalpy < 0, ice, 0.0))


def seconds(
    half: float, dimension: int, air: float, film: float, conductivity: float, start: float, end: float
) -> float:
    """Until the middle is at `end`; `half` is the half thickness or the radius, dimension 1 sheet, 2 stick, 3 ball."""
    cells = 16
    step = half / cells
    edges = np.linspace(0.0, half, cells + 1)
    face = edges ** (dimension - 1)
    volume = (edges[1:] ** dimension - edges[:-1] ** dimension) / dimension
    enthalpy = np.full(cells, LATENT + WATER_HEAT * start if start > 0 else LATENT)
    tick = 0.2 * step**2 * DENSITY * ICE_HEAT / conductivity
    passed = 0.0
    while True:
        t = _temperature(enthalpy)
        if t[0] <= end and enthalpy[0] <= 0:
            return passed
        k = np.where(enthalpy >= LATENT, WATER_CONDUCTIVITY, conductivity)
        between = 2 * k[1:] * k[:-1] / (k[1:] + k[:-1]) * (t[1:] - t[:-1]) / step
        outer = (air - t[-1]) / (1 / film + step / (2 * k[-1]))
        flow = face * np.concatenate([[0.0], between, [outer]])
        enthalpy = enthalpy + tick * (flow[1:] - flow[:-1]) / (volume * DENSITY)
        passed += tick
