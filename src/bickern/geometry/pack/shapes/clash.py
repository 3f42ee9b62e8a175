"""Who clashes with whom, how much a clash weighs, and what would be kept if the cheapest were left out."""

from collections.abc import Sequence

import numpy as np

from bickern.geometry.pack.shapes.lay import Lying

EASES = 0.05
"""Share of its extra weight that every clash loses each round."""
PLAIN = 0.02
"""Weights as near to 1 as this are 1."""
GROWS, HEAVIEST = 1.05, 1e6
"""What the weight of a clash is multiplied by each round that it lasts, beside what is added, and its end."""

Clashes = dict[int, list[tuple[int, float]]]
"""Of each copy that clashes: the other copies (-1: the sheet's edge) and how deep [m]."""


def clashes(lying: Lying, least: float) -> Clashes:
    """All clashes deeper than `least` [m]."""
    found: Clashes = {}
    for hits in lying.hits:
        for a, b, depth in hits:
            if depth > least:
                found.setdefault(a, []).append((b, depth))
                if b >= 0:
                    found.setdefault(b, []).append((a, depth))
    return found


def reweigh(lying: Lying, found: Clashes) -> None:
    """Makes the clashes that are there weigh more, the deepest most, and all others less again."""
    old, old_walls = lying.weights.copy(), lying.wall_weights.copy()
    lying.weights += (1 - lying.weights) * EASES
    lying.wall_weights += (1 - lying.wall_weights) * EASES
    lying.weights[np.abs(lying.weights - 1) < PLAIN] = 1.0
    most = max(depth for hits in found.values() for _, depth in hits)
    for copy, hits in found.items():
        for other, depth in hits:
            if other < 0:
                lying.wall_weights[copy] = min(HEAVIEST, GROWS * old_walls[copy] + depth / most)
            else:
                lying.weights[copy, other] = min(HEAVIEST, GROWS * old[copy, other] + depth / most)


def cost_of(lying: Lying, copy: int, hits: list[tuple[int, float]]) -> float:
    """What the clashes of one copy weigh together."""
    wall, row = lying.wall_weights[copy], lying.weights[copy]
    return float(sum(depth * (wall if other < 0 else row[other]) for other, depth in hits))


def kept_area(area: Sequence[float], active: Sequence[int], found: Clashes) -> float:
    """Area [m2] that lies when copies are left out, the cheapest for its clashes first, until none clash."""
    gone = {copy for copy, hits in found.items() if any(other < 0 for other, _ in hits)}
    while True:
        live = {c: sum(o not in gone for o, _ in hits) for c, hits in found.items() if c not in gone}
        bad = [c for c in live if live[c]]
        if not bad:
            return sum(area[c] for c in active if c not in gone)
        gone.add(min(bad, key=lambda c: (area[c] / live[c], c)))
