"""Heat conduction solved in the whole section by finite volumes: the reference that the quick curves are held against.

One space dimension: a slab (from its middle), a cylinder (from its axis), or along a bar. The unknown is the heat held
in each cell, so that no step can jump a peak of the specific heat; time is left to an implicit solver of scipy.
Proved in `test_against_series.py`.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from bickern.iron.heat.steel_heat import DENSITY, conductivity, enthalpy

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Stuff:
    """What conducts: density [kg/m3], a table of temperatures [K] with the heat held [J/kg] and conductivity [W/mK]."""

    density: float
    temperatures: Array
    held: Array
    conducts: Array

    def temperature(self, held: Array) -> Array:
        return np.interp(held, self.held, self.temperatures)


def even_stuff(density: float, capacity: float, conducts: float) -> Stuff:
    """Constant properties: what the series are for."""
    t = np.array([0.0, 4000.0])
    return Stuff(density, t, capacity * t, np.full(2, conducts))


@cache
def en_steel() -> Stuff:
    """EN 1993-1-2 in steps of 0.05 K."""
    t = 273.15 + np.arange(0.0, 1400.0, 0.05)
    held = np.array([enthalpy(float(x)) for x in t])
    return Stuff(DENSITY.value, t, held, np.array([conductivity(float(x)) for x in t]))


@dataclass(frozen=True)
class Grid:
    """Cells from the middle outward: volumes, areas of the faces between them and of the skin, width."""

    volumes: Array
    faces: Array
    skin: float
    width: float


def grid(reach: float, cells: int, round_bar: bool) -> Grid:
    """A slab of half thickness `reach` [m], or a cylinder of that radius, a metre long and a radian wide."""
    edges = np.linspace(0, reach, cells + 1)
    if round_bar:
        return Grid(np.diff(edges**2) / 2, edges[1:-1], reach, reach / cells)
    return Grid(np.diff(edges), np.ones(cells - 1), 1.0, reach / cells)


@dataclass(frozen=True)
class History:
    """What was found: mean heat held and temperatures of middle, skin cell and mean at each time."""

    seconds: Array
    cells: Array  # temperatures, cell by time
    mean: Array  # temperature of the mean heat held

    def when(self, mean: float) -> float:
        """Seconds until the mean is at a temperature [K]; heat is linear between stations close together."""
        way = 1 if self.mean[-1] > self.mean[0] else -1
        return float(np.interp(way * mean, way * self.mean, self.seconds))


def solve(
    stuff: Stuff, g: Grid, start: Array | float, seconds: float, leaves: Callable[[float], float], tight: float = 1e-7
) -> History:
    """From a starting temperature [K], what leaves the skin [W/m2] at its temperature, for some seconds."""
    at_start = np.broadcast_to(np.asarray(start, float), g.volumes.shape)
    held0 = np.interp(at_start, stuff.temperatures, stuff.held)

    def gain(_: float, held: Array) -> Array:
        t = stuff.temperature(held)
        k = np.interp(t, stuff.temperatures, stuff.conducts)
        through = g.faces * (k[1:] + k[:-1]) / 2 * (t[:-1] - t[1:]) / g.width
        out = g.skin * leaves(skin(float(t[-1]), float(k[-1]) / (g.width / 2), leaves))
        net = -np.append(through, out)
        net[1:] += through
        return net / (stuff.density * g.volumes)

    at = np.linspace(0, seconds, 801)
    found = solve_ivp(gain, (0, seconds), held0, "LSODA", at, rtol=tight, atol=1e-2, lband=1, uband=1)
    assert found.success, found.message
    mean = stuff.temperature(g.volumes @ found.y / g.volumes.sum())
    return History(found.t, stuff.temperature(found.y), mean)


def along_bar(
    start: Array, width: float, seconds: float, leaves: Callable[[Array], Array], hydraulic: float, stuff: Stuff
) -> History:
    """Along a bar whose two ends lose nothing: cells of one width [m], each losing [W/m2] off its girth."""
    held0 = np.interp(start, stuff.temperatures, stuff.held)

    def gain(_: float, held: Array) -> Array:
        t = stuff.temperature(held)
        k = np.interp(t, stuff.temperatures, stuff.conducts)
        through = (k[1:] + k[:-1]) / 2 * (t[:-1] - t[1:]) / width
        net = -leaves(t) * width / hydraulic
        net[:-1] -= through
        net[1:] += through
        return net / (stuff.density * width)

    at = np.linspace(0, seconds, 401)
    found = solve_ivp(gain, (0, seconds), held0, "LSODA", at, rtol=1e-6, atol=1.0, lband=1, uband=1)
    assert found.success, found.message
    return History(found.t, stuff.temperature(found.y), stuff.temperature(found.y.mean(axis=0)))


def skin(cell: float, conducts: float, leaves: Callable[[float], float]) -> float:
    """Temperature of the skin [K], half a cell out: what comes through equals what leaves (secant steps)."""
    a, b = cell, cell - leaves(cell) / conducts
    fa = -leaves(a) / conducts
    for _ in range(8):
        fb = cell - b - leaves(b) / conducts
        if abs(fb) < 1e-9 or fb == fa:
            break
        a, fa, b = b, fb, b - fb * (b - a) / (fb - fa)
    return b
