"""Mixes of shop shapes for odd remnants, made from a seed: what a smith has lying there and cuts out of it."""

import math

import numpy as np

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.polygon import Loop, area, disc, flipped, from_points, moved, rectangle, sector

MM = 1e-3
SPACING = Spacing(gap=2 * MM, margin=3 * MM)


def mix(seed: int, fill: float) -> tuple[list[Part], list[Remnant]]:
    """Two to four odd remnants, 200 to 900 mm across, and parts that fill a share `fill` of their metal.

    Parts are 20 to 300 mm across, but no longer than three quarters of the narrower side of the remnant that they are
    drawn for, so that each goes on some remnant; all may lie any way. Big ones are as likely as small ones.
    """
    rng = np.random.default_rng(seed)
    remnants = [_remnant(rng, f"r{n}") for n in range(int(rng.integers(2, 5)))]
    parts: list[Part] = []
    for remnant in remnants:
        parts += _filling(rng, fill * metal(remnant), min(300.0, 0.75 * _least_side(remnant) / MM), len(parts))
    return parts, remnants


def _filling(rng: np.random.Generator, room: float, largest: float, first: int) -> list[Part]:
    """Parts of `room` [m2] together, the last a rectangle of what is still missing where that is worth a part."""
    parts: list[Part] = []
    left = room
    while True:
        part = _part(rng, f"p{first + len(parts)}", largest)
        if metal(part) > left:
            side = math.sqrt(left)
            return [*parts, Part(f"p{first + len(parts)}", rectangle(side, side))] if side > 20 * MM else parts
        left -= metal(part)
        parts.append(part)


def metal(one: Part | Remnant) -> float:
    """Area of metal [m2]."""
    return abs(area(one.outline)) - sum(abs(area(cut)) for cut in one.cutouts)


def _least_side(one: Remnant) -> float:
    xs, ys = zip(*(s.start for s in one.outline.segs), strict=True)
    return min(max(xs) - min(xs), max(ys) - min(ys))


def _remnant(rng: np.random.Generator, key: str) -> Remnant:
    w, h = (float(x) * MM for x in rng.uniform(200, 900, 2))
    kind = int(rng.integers(4))
    if kind == 0:  # an L
        a, b = float(rng.uniform(0.4, 0.7)) * w, float(rng.uniform(0.4, 0.7)) * h
        return Remnant(key, from_points([(0, 0), (w, 0), (w, b), (a, b), (a, h), (0, h)]))
    if kind == 1:  # a corner bitten off
        a, b = float(rng.uniform(0.5, 0.9)) * w, float(rng.uniform(0.5, 0.9)) * h
        return Remnant(key, from_points([(0, 0), (w, 0), (w, b), (a, h), (0, h)]))
    r = float(rng.uniform(0.06, 0.14)) * min(w, h)
    hole = flipped(disc(r, (float(rng.uniform(0.3, 0.7)) * w, float(rng.uniform(0.3, 0.7)) * h)))
    if kind == 2:  # a hole in it
        return Remnant(key, rectangle(w, h), (hole,))
    c, d = float(rng.uniform(0.3, 0.6)) * w, float(rng.uniform(0.1, 0.3)) * h  # a bite out of one side
    return Remnant(key, from_points([(0, 0), (w, 0), (w, h), (c + 0.2 * w, h), (c, h - d), (c - 0.1 * w, h), (0, h)]))


def _part(rng: np.random.Generator, key: str, largest: float) -> Part:
    kind = int(rng.integers(5))
    size = float(rng.uniform(20.0, largest)) * MM
    makers = (_sector, _tab, _disc, _triangle, _strip)
    outline, cutouts = makers[kind](rng, size)
    turn = float(rng.uniform(0, 2 * math.pi)) if kind == 3 else 0.0
    return Part(key, moved(outline, turn=turn), tuple(moved(cut, turn=turn) for cut in cutouts))


Shape = tuple[Loop, tuple[Loop, ...]]


def _sector(rng: np.random.Generator, size: float) -> Shape:
    return sector(size, size * float(rng.choice([0.0, 0.4, 0.6])), float(rng.uniform(0.6, 1.9))), ()


def _tab(rng: np.random.Generator, size: float) -> Shape:
    wide = max(0.012, size * float(rng.uniform(0.25, 0.5)))
    cut = flipped(disc(wide / 6, (size / 2, wide / 2)))
    return rectangle(size, wide), (cut,)


def _disc(rng: np.random.Generator, size: float) -> Shape:
    r = max(0.01, size / 2 * float(rng.uniform(0.4, 0.9)))
    return disc(r), (flipped(disc(r / 3)),) if rng.uniform() < 0.3 else ()


def _triangle(rng: np.random.Generator, size: float) -> Shape:
    return from_points([(0, 0), (size, 0), (size * float(rng.uniform(0, 1)), size * float(rng.uniform(0.4, 0.8)))]), ()


def _strip(rng: np.random.Generator, size: float) -> Shape:
    return rectangle(size, max(0.012, size * float(rng.uniform(0.1, 0.2)))), ()
