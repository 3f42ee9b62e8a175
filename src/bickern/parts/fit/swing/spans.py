"""Where triangles stand about a line: how far off it, how high along it, at what angle. What turns keeps the first two.

The coordinates here are those in which the line is the z axis.
"""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Rows = NDArray[np.intp]

PACK = 8
"""Triangles that are looked at as one before each is looked at for itself."""
ROUNDING = 1e-9
"""What is given to every span, that rounding leaves nothing out [m]."""


@dataclass(frozen=True, slots=True, eq=False)
class Spans:
    """Of each thing: from `near` to `far` off the line, from `low` to `high` along it [m].

    It stands at `mid` +- `half` about it [rad].
    """

    near: "Array"
    far: "Array"
    low: "Array"
    high: "Array"
    mid: "Array"
    half: "Array"

    def of(self, rows: "Rows") -> "Spans":
        """Those of some of the things."""
        return Spans(*(part[rows] for part in (self.near, self.far, self.low, self.high, self.mid, self.half)))


def spans_of(corners: "Array") -> Spans:
    """The spans of triangles (n, 3, 3) [m]."""
    flat, high = corners[:, :, :2], corners[:, :, 2]
    near = _nearest(flat)
    far = np.sqrt(_max(np.einsum("nij,nij->ni", flat, flat)))
    angles = np.arctan2(flat[:, :, 1], flat[:, :, 0])
    off = _wrapped(angles - angles[:, :1])
    mid, half = _between(angles[:, 0], _min(off), _max(off))
    half = np.where(near > ROUNDING, half, math.pi)
    return Spans(near - ROUNDING, far + ROUNDING, _min(high) - ROUNDING, _max(high) + ROUNDING, mid, half)


def packed(spans: Spans) -> Spans:
    """The spans of every `PACK` of them in a row as one."""
    starts = np.arange(0, len(spans.near), PACK)
    first = np.repeat(spans.mid[starts], PACK)[: len(spans.mid)]
    off = _wrapped(spans.mid - first)
    low, high = np.minimum.reduceat(off - spans.half, starts), np.maximum.reduceat(off + spans.half, starts)
    least = (np.minimum.reduceat(k, starts) for k in (spans.near, spans.low))
    most = (np.maximum.reduceat(k, starts) for k in (spans.far, spans.high))
    (near, under), (far, over) = least, most
    return Spans(near, far, under, over, *_between(spans.mid[starts], low, high))


def that_meet(some: Spans, others: Spans) -> "Rows":
    """Which of them stand where others do, all those others taken as one."""
    off = (some.far >= others.near.min()) & (some.near <= others.far.max())
    return np.flatnonzero(off & (some.high >= others.low.min()) & (some.low <= others.high.max()))


def all_pairs(some: Spans, others: Spans) -> "Rows":
    """Pairs (n, 2) of which one can come to where the other is by turning."""
    off = (some.far[:, None] >= others.near) & (some.near[:, None] <= others.far)
    off &= some.high[:, None] >= others.low
    off &= some.low[:, None] <= others.high
    return np.stack(np.divmod(np.flatnonzero(off), off.shape[1]), axis=1)


def meeting(some: Spans, others: Spans) -> "NDArray[np.bool_]":
    """Of each pair, whether one can come to where the other is by turning."""
    off = (some.far >= others.near) & (some.near <= others.far)
    return np.asarray(off & (some.high >= others.low) & (some.low <= others.high))


def free_turn(some: Spans, others: Spans, way: float) -> "Array":
    """Of each pair, by how much one can turn at least before it is where the other is [rad]; 0 where it may be now."""
    ahead = way * (others.mid - some.mid) % math.tau
    wide = some.half + others.half
    here = (ahead <= wide) | (ahead >= math.tau - wide)
    return np.where(here, 0.0, ahead - wide)


def _min(three: "Array") -> "Array":
    """The least of three columns: along so short a way numpy's own takes many times as long."""
    return np.minimum(np.minimum(three[:, 0], three[:, 1]), three[:, 2])


def _max(three: "Array") -> "Array":
    return np.maximum(np.maximum(three[:, 0], three[:, 1]), three[:, 2])


def _wrapped(angles: "Array") -> "Array":
    return (angles + math.pi) % math.tau - math.pi


def _between(first: "Array", low: "Array", high: "Array") -> "tuple[Array, Array]":
    """The middle and the half of what goes from `low` to `high` off a first angle; half round or more is all round."""
    half = (high - low) / 2
    return first + (low + high) / 2, np.where(half < math.pi / 2, half + ROUNDING, math.pi)


def _nearest(flat: "Array") -> "Array":
    """The least distance of flat triangles (n, 3, 2) from the origin."""
    ahead = flat[:, (1, 2, 0)]
    edge = ahead - flat
    long = np.maximum(np.einsum("nij,nij->ni", edge, edge), 1e-30)
    share = np.clip(-np.einsum("nij,nij->ni", flat, edge) / long, 0.0, 1.0)
    foot = flat + share[:, :, None] * edge
    least = np.sqrt(_min(np.einsum("nij,nij->ni", foot, foot)))
    side = flat[:, :, 0] * ahead[:, :, 1] - flat[:, :, 1] * ahead[:, :, 0]
    round_it = (_min(side) > 0) | (_max(side) < 0)
    return np.where(round_it, 0.0, least)
