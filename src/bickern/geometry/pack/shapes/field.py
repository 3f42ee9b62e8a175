"""All sheets side by side on one raster: where a part would clash least, at every place and in many turns at once.

Overlaps are counted in soft cells by Fourier transform, which takes the same time however many parts lie there and
however different they are. What is chosen here is pushed apart exactly afterwards.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bickern.geometry.pack.shapes.pieces import Array, bounds_of, normals

if TYPE_CHECKING:
    from bickern.geometry.pack.shapes.board import Sheet, Turned

Cover = NDArray[np.float32]
"""Share of each cell that is covered, 0 to 1."""
Spectrum = NDArray[np.complex64]

NEAR = 1.0
"""Cells over which a part is felt by what lies beside it."""
EDGE = 0.5
"""Cells by which what lies is made larger on the raster, so that a small clash with it is seen."""
HEAVIEST = 1e3
"""The heaviest weight beside the lightest: more is lost in the rounding of the transform."""
MOST_KEPT = 60_000_000
"""Cells of parts' transforms that are kept at once (four bytes each)."""


@dataclass(frozen=True, slots=True)
class Stamp:
    """A part on the raster: `cover[i - i0, j - j0]` of cell (i, j), counted from the cell of its lower left."""

    i0: int
    j0: int
    cover: Cover


@dataclass(frozen=True, slots=True)
class Field:
    """The raster: its `cells`, where each sheet (by number) begins, what is not metal (`walls`), transforms kept."""

    cell: float
    cells: tuple[int, int]
    starts: dict[int, tuple[int, int]]
    walls: Cover
    blur: Cover
    masks: dict[int, tuple[Spectrum, float]] = field(default_factory=dict)


# ---- the raster of the sheets


def field_of(sheets: "Mapping[int, Sheet]", cell: float, gap: float, margin: float) -> Field:
    """The raster of sheets (by their numbers), in columns."""
    found, cells = _atlas([_size_in_cells(s.size, cell, gap) for s in sheets.values()])
    starts = dict(zip(sheets, found, strict=True))
    walls = np.ones(cells, np.float32)
    for number, sheet in sheets.items():
        a, b = starts[number]
        nx, ny = _size_in_cells(sheet.size, cell, gap)
        room = walls[a - 1 : a + nx + 1, b - 1 : b + ny + 1]
        box = np.array([[-gap / 2, -gap / 2], [sheet.size[0] + gap / 2, sheet.size[1] + gap / 2]])
        xs, ys = np.arange(-1, nx + 1) * cell, np.arange(-1, ny + 1) * cell
        out = [np.maximum(box[0, k] - s, s - box[1, k]) for k, s in enumerate((xs, ys))]
        room[:] = _soft(np.maximum(out[0][:, None], out[1]) + EDGE * cell, cell)
        for bite in sheet.bites:
            deep = _depth(bite, xs, ys) + np.float32(margin - gap / 2 + EDGE * cell)
            np.maximum(room, _soft(deep, cell), out=room)
    return Field(cell, cells, starts, walls, _blur(cells))


def _blur(cells: tuple[int, int]) -> Cover:
    """What spreads every cell over those near it, as a factor of transforms."""
    x, y = np.fft.fftfreq(cells[0]), np.fft.rfftfreq(cells[1])
    found: Cover = np.exp(-2 * (math.pi * NEAR) ** 2 * np.add.outer(x**2, y**2)).astype(np.float32)
    return found


def _size_in_cells(size: tuple[float, float], cell: float, gap: float) -> tuple[int, int]:
    across, up = (max(0, math.ceil((side + gap) / cell)) + 1 for side in size)  # of a sheet all margin, one cell
    return across, up


def _atlas(sizes: Sequence[tuple[int, int]]) -> tuple[list[tuple[int, int]], tuple[int, int]]:
    """Sheets in columns about as wide as high, two cells between; where each begins, and the size of all."""
    side = math.sqrt(1.15 * sum((w + 2) * (h + 2) for w, h in sizes))
    most = max(side, *(h + 4 for _, h in sizes), 0)
    starts = [(0, 0)] * len(sizes)
    x, y, wide, tall = 2, 2, 0, 0
    for n in sorted(range(len(sizes)), key=lambda n: (-sizes[n][0], n)):
        w, h = sizes[n]
        if y > 2 and y + h + 2 > most:
            x, y, wide = x + wide + 2, 2, 0
        starts[n] = (x, y)
        y, wide, tall = y + h + 2, max(wide, w), max(tall, y + h + 2)
    return starts, (_smooth(x + wide + 2), _smooth(tall))


def _smooth(n: int) -> int:
    """The next number whose only prime factors are 2, 3 and 5: transforms of such lengths are quick."""
    while True:
        rest = n
        for prime in (2, 3, 5):
            while rest % prime == 0:
                rest //= prime
        if rest == 1:
            return n
        n += 1


# ---- rasters of parts


def stamp_of(turned: "Turned", cell: float, rest: tuple[float, float] = (0.0, 0.0), edge: float = EDGE) -> Stamp:
    """A turned part whose lower left lies `rest` [m] beyond the middle of its cell, made larger by `edge` cells."""
    x0, y0, x1, y1 = bounds_of(turned.pieces)
    i0, j0 = math.floor((x0 + rest[0]) / cell), math.floor((y0 + rest[1]) / cell)
    i1, j1 = math.ceil((x1 + rest[0]) / cell), math.ceil((y1 + rest[1]) / cell)
    xs, ys = np.arange(i0, i1 + 1) * cell - rest[0], np.arange(j0, j1 + 1) * cell - rest[1]
    deep = np.full((len(xs), len(ys)), np.float32(-1e3))
    for piece in turned.pieces:
        a, b = np.searchsorted(xs, [piece[:, 0].min(), piece[:, 0].max()])
        c, d = np.searchsorted(ys, [piece[:, 1].min(), piece[:, 1].max()])
        part = deep[max(0, a - 1) : b + 1, max(0, c - 1) : d + 1]
        there = _depth(piece, xs[max(0, a - 1) : b + 1], ys[max(0, c - 1) : d + 1])
        np.maximum(part, there, out=part)
    return Stamp(i0, j0, _soft(deep + np.float32(edge * cell), cell))


def _depth(piece: Array, xs: NDArray[np.floating], ys: NDArray[np.floating]) -> Cover:
    """How deep points of a grid lie in a convex piece [m], below 0 outside."""
    ways = normals(piece)
    reach = (ways @ piece.T).max(axis=1)
    across = (reach[:, None] - ways[:, :1] * xs).astype(np.float32)
    along = (ways[:, 1:] * ys).astype(np.float32)
    least: Cover = across[0][:, None] - along[0]
    for a, b in zip(across[1:], along[1:], strict=True):
        np.minimum(least, a[:, None] - b, out=least)
    return least


def _soft(deep: NDArray[np.floating], cell: float) -> Cover:
    """Nothing at the edge, everything one cell within."""
    cover: Cover = np.clip(deep * np.float32(1 / cell), 0, 1).astype(np.float32)
    return cover


def lay_stamp(total: Cover, stamp: Stamp, i: int, j: int, weight: float) -> None:
    """Adds a part's weighted cover, its lower left on cell (i, j) of the whole raster."""
    a, b = i + stamp.i0, j + stamp.j0
    c, d = stamp.cover.shape
    x, y = max(a, 0), max(b, 0)
    room = total[x : a + c, y : b + d]
    room += stamp.cover[x - a : x - a + room.shape[0], y - b : y - b + room.shape[1]] * np.float32(weight)


def spectrum_of(raster: Field, turned: "Turned") -> tuple[Spectrum, float]:
    """The transform of a part's cover, ready to be multiplied with that of the raster; and how many cells it covers."""
    found = raster.masks.get(turned.number)
    if found is None:
        if len(raster.masks) * raster.walls.size > MOST_KEPT:
            raster.masks.clear()
        stamp = stamp_of(turned, raster.cell, edge=0.0)
        found = raster.masks[turned.number] = _spectrum(raster, stamp), float(stamp.cover.sum())
    return found


def _spectrum(raster: Field, stamp: Stamp) -> Spectrum:
    """By few rows: most of the raster is empty."""
    (nx, ny), high = raster.cells, stamp.cover.shape[1]
    rows = np.zeros((stamp.cover.shape[0], ny), np.float32)
    rows[:, :high] = stamp.cover[:, :ny]  # a part as large as all sheets covers no more
    there = np.fft.fft(np.fft.rfft(rows, axis=1), nx, axis=0)
    turn = np.multiply.outer(_waves(stamp.i0, nx, nx), _waves(stamp.j0, ny, ny // 2 + 1))
    return np.conj(there * turn).astype(np.complex64, copy=False)


def _waves(shift: int, n: int, most: int) -> Spectrum:
    """What a shift of so many cells does to a transform."""
    found: Spectrum = np.exp(-2j * np.pi * shift / n * np.arange(most)).astype(np.complex64)
    return found


def whole_spectrum(total: Cover) -> Spectrum:
    """The transform of what is covered."""
    return np.fft.rfft2(total).astype(np.complex64, copy=False)


def clash_map(raster: Field, there: Spectrum, spectrum: Spectrum) -> Cover:
    """Weighted cover that a part would lie on, for every cell its lower left may lie on."""
    return np.fft.irfft2(there * spectrum, s=raster.cells, axes=(0, 1)).astype(np.float32, copy=False)


def touch_map(raster: Field, there: Spectrum, spectrum: Spectrum) -> Cover:
    """The same with all that lies blurred: how much a part that clashes with nothing has about it."""
    return clash_map(raster, there * raster.blur, spectrum)
