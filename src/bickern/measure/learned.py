"""What records teach: figures with a prior, and observations that lean on them, put together by least squares.

Each figure x has a prior N(m, s^2) on a scale of its own: a logarithm where it can only be positive, plain where
nothing is its natural value. An observation is y = h(at) + lean . (x - at) + noise: what was measured, what was said
for figures `at`, and how that moves with each. Noise is taken as Student's t with `FREEDOM` degrees, so that one slip
of a digit pulls no further than a small fault does; the answer is the x of highest posterior density, found by weights
made anew until nothing moves (iterated reweighted least squares: exact mathematics, each step lowers the cost). What
then lies further off than `SET_ASIDE` is left out altogether, and the rest settled once more.

A figure that can go no further than its bounds is held there while the others are found, and does not take news with it
that it cannot hold: corners that are full already leave all of a longer bar to the fire.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import inf, log, sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

FREEDOM = 4.0
"""Degrees of freedom of the noise (our choice: few enough that a slip is harmless)."""
SET_ASIDE = 6.0
"""Beyond so many times its noise an observation is set aside: it bears no witness (our choice)."""
INFORMS = (FREEDOM + 1) / (FREEDOM + 3)
"""What one observation tells, against one whose noise is normal: Fisher's information of Student's t (mathematics)."""
LOOSENED = (1e3, 100.0, 30.0, 10.0, 3.0)
"""Noise is first taken so many times as wide: slips then show themselves before they have pulled (our choice)."""
MOST_ROUNDS = 200
STILL = 1e-12
"""Prior spreads by which the answer moves when it is found."""


@dataclass(frozen=True, slots=True)
class Belief:
    """What is held of one figure, on its own scale: `mean` and one standard deviation `spread` > 0.

    The mean is never under `least` or over `most`; the spread is that of the news alone, as if there were no bounds.
    """

    mean: float
    spread: float
    least: float = -inf
    most: float = inf


@dataclass(frozen=True, slots=True)
class Seen:
    """One observation: `value` measured, `said` for figures `at`; `leans`: how `said` moves with each; `noise` > 0.

    All on the scale of the observation (lengths and minutes: logarithms). A figure that `leans` names and `at` does not
    was at its prior mean.
    """

    value: float
    said: float
    leans: Mapping[str, float]
    at: Mapping[str, float]
    noise: float


@dataclass(frozen=True, slots=True)
class Learned:
    """What is held after all of it. `off`: how far each observation lies from that, in noises, in the order given."""

    beliefs: dict[str, Belief]
    off: tuple[float, ...]


def learned(prior: Mapping[str, Belief], seen: Sequence[Seen]) -> Learned:
    """The figures after all observations; one that none leans on is returned as it was.

    The order of the observations does not matter, to the last bit. An observation on figures that are not in `prior`
    leans on the others alone.
    """
    names = tuple(sorted({name for one in seen for name, lean in one.leans.items() if lean != 0.0} & prior.keys()))
    if not names:
        return Learned(dict(prior), tuple((one.value - one.said) / one.noise for one in seen))
    order = sorted(range(len(seen)), key=lambda i: _key(seen[i]))
    problem = _problem(names, prior, [seen[i] for i in order])
    moves = problem.solved()
    apart = problem.apart(moves)
    spreads = problem.spreads(apart)
    beliefs = dict(prior)
    for name, move, spread in zip(names, moves, spreads, strict=True):
        held = prior[name]
        mean = min(held.most, max(held.least, held.mean + held.spread * float(move)))
        beliefs[name] = replace(held, mean=mean, spread=held.spread * float(spread))
    off = [0.0] * len(seen)
    for place, i in enumerate(order):
        off[i] = float(apart[place])
    return Learned(beliefs, tuple(off))


def _key(one: Seen) -> tuple[object, ...]:
    return one.value, one.said, one.noise, tuple(sorted(one.leans.items())), tuple(sorted(one.at.items()))


@dataclass(frozen=True, slots=True)
class _Problem:
    """Leans (observations x figures) and what is left to explain, both in noises; figures in prior spreads from 0.

    `low` <= 0 <= `high`: how far each figure may go.
    """

    leans: "NDArray[np.float64]"
    left: "NDArray[np.float64]"
    low: "NDArray[np.float64]"
    high: "NDArray[np.float64]"

    def apart(self, moves: "NDArray[np.float64]") -> "NDArray[np.float64]":
        """How far each observation lies from what these moves say, in noises."""
        apart: NDArray[np.float64] = self.left - self.leans @ moves
        return apart

    def cost(self, moves: "NDArray[np.float64]") -> float:
        """Minus the logarithm of the posterior density, but for a constant."""
        slips = sum(log(1 + float(r) ** 2 / FREEDOM) for r in self.apart(moves))
        return float(moves @ moves) / 2 + (FREEDOM + 1) / 2 * slips

    def solved(self) -> "NDArray[np.float64]":
        """The moves of least cost, of those found from the prior and from noise loosened by degrees."""
        import numpy as np

        nothing = np.zeros(self.leans.shape[1])
        loose = nothing
        for wide in LOOSENED:
            loose = self._settled(loose, wide)
        best = min((self._settled(start, 1.0) for start in (nothing, loose)), key=self.cost)
        near = np.abs(self.apart(best)) <= SET_ASIDE
        return best if near.all() else self._settled(best, 1.0, near)

    def _settled(
        self, moves: "NDArray[np.float64]", wide: float, near: "NDArray[np.bool_] | bool" = True
    ) -> "NDArray[np.float64]":
        """Reweighted until nothing moves, the noise `wide` times what it is; only what is `near` has a weight."""
        import numpy as np

        for _ in range(MOST_ROUNDS):
            weights = near * (FREEDOM + 1) / (FREEDOM + (self.apart(moves) / wide) ** 2) / wide**2
            right: NDArray[np.float64] = self.leans.T @ (weights * self.left)
            new = bounded(self._precision(weights), right, self.low, self.high)
            moved = float(np.abs(new - moves).max())
            moves = new
            if moved < STILL:
                break
        return moves

    def _precision(self, weights: "NDArray[np.float64]") -> "NDArray[np.float64]":
        import numpy as np

        precision: NDArray[np.float64] = np.eye(self.leans.shape[1]) + self.leans.T @ (weights[:, None] * self.leans)
        return precision

    def spreads(self, apart: "NDArray[np.float64]") -> "NDArray[np.float64]":
        """Standard deviations that are left, in prior spreads: from all observations that are not set aside.

        The expected information of each, and not what it happens to weigh: more records never widen it.
        """
        import numpy as np

        counts = np.where(np.abs(apart) <= SET_ASIDE, INFORMS, 0.0)
        left: NDArray[np.float64] = np.sqrt(np.diag(np.linalg.inv(self._precision(counts))))
        return np.minimum(left, 1.0)


MOST_HELD = 100
"""Times that figures are held at their bounds or let go; a few are enough."""


def bounded(
    square: "NDArray[np.float64]",
    right: "NDArray[np.float64]",
    low: "NDArray[np.float64]",
    high: "NDArray[np.float64]",
) -> "NDArray[np.float64]":
    """The x of least x.square.x / 2 - right.x between `low` and `high`; `square` positive definite.

    Those that would go too far are held at their bound, and let go where the others then pull them back: a step each
    time for all that are wrong (primal and dual active sets; exact where it comes to rest, and it does in a few steps).
    """
    import numpy as np

    held = np.zeros(len(right), dtype=np.int8)
    x = np.zeros(len(right))
    for _ in range(MOST_HELD):
        free = held == 0
        x = np.where(held > 0, high, np.where(held < 0, low, 0.0))
        x[free] = np.linalg.solve(square[np.ix_(free, free)], right[free] - square[np.ix_(free, ~free)] @ x[~free])
        pull = right - square @ x
        new = np.where(free, (x > high).astype(np.int8) - (x < low).astype(np.int8), held)
        new = np.where((held > 0) & (pull < 0) | (held < 0) & (pull > 0), 0, new)
        if (new == held).all():
            break
        held = new
    return np.clip(x, low, high)


def _problem(names: tuple[str, ...], prior: Mapping[str, Belief], seen: Sequence[Seen]) -> _Problem:
    import numpy as np

    leans = np.zeros((len(seen), len(names)))
    left = np.zeros(len(seen))
    for i, one in enumerate(seen):
        left[i] = (one.value - one.said) / one.noise
        for k, name in enumerate(names):
            lean, held = one.leans.get(name, 0.0), prior[name]
            leans[i, k] = lean * held.spread / one.noise
            left[i] += lean * (one.at.get(name, held.mean) - held.mean) / one.noise
    held_to = [prior[name] for name in names]
    low = np.array([min(0.0, (one.least - one.mean) / one.spread) for one in held_to])
    high = np.array([max(0.0, (one.most - one.mean) / one.spread) for one in held_to])
    return _Problem(leans, left, low, high)


def off(one: Seen, held: Mapping[str, Belief]) -> float:
    """How far an observation lies from what is held of the figures, in its own noises; 0 of those not held."""
    moved = sum(
        lean * (held[name].mean - one.at.get(name, held[name].mean)) for name, lean in one.leans.items() if name in held
    )
    return (one.value - one.said - moved) / one.noise


def unlikely(one: Seen, held: Mapping[str, Belief]) -> float:
    """The same in standard deviations of its noise and of what is held, together, as far as that is independent."""
    leaning = (lean * held[name].spread for name, lean in one.leans.items() if name in held)
    return off(one, held) * one.noise / together(one.noise, *leaning)


def together(*noises: float) -> float:
    """Noises that have nothing to do with one another, put together: the root of the sum of their squares."""
    return sqrt(sum(noise**2 for noise in noises))


def is_aside(off: float) -> bool:
    """Whether an observation so far off, in noises, is set aside."""
    return abs(off) > SET_ASIDE
