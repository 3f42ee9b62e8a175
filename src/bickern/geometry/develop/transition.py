"""A skin of triangles from any rim to any rim: square to round, round to oval, level to tilted.

Of all ways to lay triangles between two rims in order round, the one is taken that folds least (the sum of fold times
length of fold). Between two convex rims that is the skin stretched over both, which can be rolled from flat sheet.
"""

import math
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from bickern.geometry.develop.pattern import Development
from bickern.geometry.develop.rims import Rim, rectangle_rim, round_rim
from bickern.geometry.develop.rolling import FoldRoll
from bickern.geometry.develop.strip import Rung, laid_flat, runs_over_itself
from bickern.geometry.space import Vec, cross, distance, dot, minus, plus, times, unit
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.words import Read

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

Steps = tuple[tuple[int, int], ...]
"""(i, j) of the low and the high rim at each rung, in order round."""


def square_to_round(
    across: float,
    long: float,
    radius: float,
    height: float,
    offset: tuple[float, float] = (0.0, 0.0),
    tolerance: float = 5e-5,
) -> Read[Development]:
    """From a rectangle `across` x `long` (z = 0) to a circle of `radius` at `height`, shifted by `offset` [m].

    Four flat triangles and four quarters of leaning cones. The seam runs up the middle of the +x side.
    """
    if not (min(across, long, radius, height) > 0 and math.isfinite(across + long + radius + height)):
        return Read(None, (stop("no-transition", "a transition needs both ends and a height greater than nothing"),))
    low = rectangle_rim(across, long)
    return transition(low, round_rim(radius, (offset[0], offset[1], height), tolerance=tolerance))


def transition(low: Rim, high: Rim) -> Read[Development]:
    """The skin from the `low` rim to the `high` one, the seam between their first points."""
    if min(_round(low), _round(high)) <= 1e-9:
        return Read(None, (stop("no-transition", "a transition needs two ends that are wider than nothing"),))
    if _flat_together(low, high):
        says = "both ends lie in one plane, so there is nothing between them to bend"
        return Read(None, (stop("no-height", says, "give a height"),))
    steps = least_folding(low, high)
    rungs = [Rung(low.places[i], high.places[j]) for i, j in steps]
    plain = [_is_plain(low, high, a, b) for a, b in pairwise(steps)]
    made = laid_flat(rungs, plain)
    return Read(replace(made, stray=_stray(low, high, steps, made)), _overlap(made))


def _overlap(made: Development) -> tuple[Finding, ...]:
    if not runs_over_itself(made):
        return ()
    says = "laid flat in one part, this pattern would run over itself"
    return (warn("pattern-overlaps", says, "split it into two or more parts"),)


def _round(rim: Rim) -> float:
    return math.fsum(distance(a, b) for a, b in pairwise(rim.places))


def _flat_together(low: Rim, high: Rim) -> bool:
    a = low.places[0]
    n = len(low.places) - 1
    normal = unit(cross(minus(low.places[n // 3], a), minus(low.places[2 * n // 3], a)))
    return all(abs(dot(minus(p, a), normal)) < 1e-9 for p in high.places)


def _is_plain(low: Rim, high: Rim, a: tuple[int, int], b: tuple[int, int]) -> bool:
    """Whether the triangle between two rungs stands on a straight side of its rim."""
    rim, k = (low, a[0]) if b[0] > a[0] else (high, a[1])
    return rim.sagittas[k] < 1e-12


def _stray(low: Rim, high: Rim, steps: Steps, made: Development) -> float:
    """How far triangles may lie from the skin that is ruled straight from rim to rim [m].

    A skin that folds one way only is the hull of its rims, and a hull moves by no more than its rims do: the sagittas.
    One that folds both ways may besides be twisted: over two triangles side by side the ruled skin passes a quarter of
    the difference of their two rim vectors off the fold, measured square to the triangle.
    """
    rims = max(*low.sagittas, *high.sagittas)
    if isinstance(made.roll, FoldRoll) and all(facet.angle <= 1e-9 for facet in made.roll.facets):
        return rims
    twist = 0.0
    for (i, j), (k, l), (m, n) in zip(steps, steps[1:], steps[2:], strict=False):
        # a straight side carries a flat triangle, which is part of the true skin: only arc against arc can twist
        if m - i == 1 and n - j == 1 and low.sagittas[i] > 0 and high.sagittas[j] > 0:
            fold = (low.places[k], high.places[l])
            twist = max(twist, _twist((low.places[i], low.places[m]), (high.places[j], high.places[n]), fold))
    return rims + twist


def _twist(low: tuple[Vec, Vec], high: tuple[Vec, Vec], fold: tuple[Vec, Vec]) -> float:
    (a, b), (c, d) = low, high
    normal = unit(cross(minus(fold[1], fold[0]), minus(b, a) if fold[0] == b else minus(d, c)))
    off = minus(plus(a, d), plus(b, c))
    return abs(dot(times(off, 0.25), normal))


def least_folding(low: Rim, high: Rim) -> Steps:
    """The order of rungs from (0, 0) all the way round that folds least, the seam's own fold included."""
    costs = _fold_costs(low, high)
    best = min((_cheapest(costs, first) for first in (0, 1)), key=lambda found: found[0])
    return best[1]


def _cheapest(costs: "Array", first: int) -> tuple[float, Steps]:
    """Least cost over all orders whose first step is along the low rim (0) or the high rim (1).

    `costs[a, b, i, j]`: fold at rung (i, j) between a step a that ends there and a step b that starts there.
    The best cost to every rung is kept apart for each kind of last step.
    """
    n, m = costs.shape[2] - 1, costs.shape[3] - 1
    table = costs.tolist()
    reach = [[[math.inf, math.inf] for _ in range(m + 1)] for _ in range(n + 1)]
    came = [[[0, 0] for _ in range(m + 1)] for _ in range(n + 1)]
    reach[1 - first][first][first] = 0.0
    for i in range(n + 1):
        for j in range(m + 1):
            if i + j > 1:
                _reach_rung(table, reach, came, i, j)
    seam = table[0][first][0][0], table[1][first][0][0]  # the last step meets the first one at the seam
    ends = [reach[n][m][k] + seam[k] for k in (0, 1)]
    last = 0 if ends[0] <= ends[1] else 1
    return ends[last], _walked_back(came, n, m, last)


def _reach_rung(
    table: list[list[list[list[float]]]],
    reach: list[list[list[float]]],
    came: list[list[list[int]]],
    i: int,
    j: int,
) -> None:
    for kind, (p, q) in enumerate(((i - 1, j), (i, j - 1))):
        if p < 0 or q < 0:
            continue
        after_low = reach[p][q][0] + table[0][kind][p][q]
        after_high = reach[p][q][1] + table[1][kind][p][q]
        best = 0 if after_low <= after_high else 1
        reach[i][j][kind] = min(after_low, after_high, reach[i][j][kind])
        came[i][j][kind] = best


def _walked_back(came: list[list[list[int]]], i: int, j: int, kind: int) -> Steps:
    steps = [(i, j)]
    while i + j > 1:
        before = came[i][j][kind]
        i, j = (i - 1, j) if kind == 0 else (i, j - 1)
        steps.append((i, j))
        kind = before
    return (*reversed([*steps, (0, 0)]),)


def _fold_costs(low: Rim, high: Rim) -> "Array":
    """Fold angle times length of rung, (2, 2, n + 1, m + 1): [kind of step that ends here, kind that starts here]."""
    import numpy as np

    a, b = np.array(low.places), np.array(high.places)
    n, m = len(a) - 1, len(b) - 1
    rungs = b[None, :, :] - a[:, None, :]
    on_low = _unit(np.cross((a[1:] - a[:-1])[:, None, :], rungs[:-1]))
    on_high = _unit(np.cross((b[1:] - b[:-1])[None, :, :], rungs[:, :-1]))
    ends = np.zeros((2, n + 1, m + 1, 3)), np.zeros((2, n + 1, m + 1, 3))
    before, after = ends
    before[0, 1:], before[1, :, 1:] = on_low, on_high
    after[0, :-1], after[1, :, :-1] = on_low, on_high
    before[0, 0], before[1, :, 0] = on_low[-1], on_high[:, -1]  # round the seam
    long = np.linalg.norm(rungs, axis=2)
    cosines = np.einsum("aijk,bijk->abij", before, after)
    folds: Array = np.arccos(np.clip(cosines, -1.0, 1.0)) * long
    return folds


def _unit(v: "Array") -> "Array":
    import numpy as np

    long = np.linalg.norm(v, axis=-1, keepdims=True)
    out: Array = v / np.where(long > 0, long, 1.0)
    return out
