"""What is seen of solids from one side: their lines as strokes on paper, hidden ones apart.

The lines are true to the skins; what hides them is looked up in a picture of depths of a given number of dots, so the
place where a line goes behind something is right to about two dots.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid.combine import gathered
from bickern.geometry.solid.outlines import EDGE_ON, Strokes, strokes
from bickern.geometry.solid.shade import Shade, looked_up, shaded
from bickern.geometry.solid.solid import Named
from bickern.geometry.space import Vec, cross

if TYPE_CHECKING:
    from numpy.typing import NDArray

Point2 = tuple[float, float]
Line = tuple[Point2, ...]

DOTS = 1000
"""Dots along the longer side of the picture: a fifth of a millimetre on a sheet."""
BESIDE = 1.5
"""How many dots beside a line it is looked whether something hides it there."""
BLINK = 4
"""A line that is lost, or shows, for fewer dots than these does not: it is the grain of the picture."""
SHORTEST = 1.5
"""Lines shorter than this [dots] are not drawn."""
STRAIGHT = 0.15
"""How far a drawn line may stray from the skin's own [dots]."""
SEEN, HIDDEN, DOUBLE = 1, 2, 0


@dataclass(frozen=True, slots=True)
class Sight:
    """Lines on the paper, right and up [m] from where the origin falls: seen ones, and those behind something.

    A hidden line that falls on a seen one, or on another hidden one, is left out.
    """

    visible: tuple[Line, ...]
    hidden: tuple[Line, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Bits:
    """Lines cut into bits of a dot (n): from and to on the paper (n, 2) [m], and of which stroke."""

    start: "NDArray[np.float64]"
    end: "NDArray[np.float64]"
    stroke: "NDArray[np.intp]"
    first: "NDArray[np.intp]"
    """For each stroke its first bit, and the number of all bits at the end."""


def seen_lines(named: Sequence[Named], right: Vec, upward: Vec, dots: int = DOTS, *, hidden: bool = True) -> Sight:
    """What a viewer sees who has `right` to the right and `upward` up on the paper: unit ways, square to each other.

    `dots`: how fine a picture tells what is hidden. Without `hidden` the hidden lines are not looked for, which is
    quicker. Where two solids run into each other no line is found.
    """
    whole = gathered(*(one.solid for one in named))
    if len(whole.faces) == 0:
        return Sight((), ())
    points = whole.points @ np.array((right, upward, cross(right, upward))).T
    shade = shaded(points[whole.faces], dots)
    lines = strokes(points, whole.faces)
    bits = _cut(lines, shade.dot)
    state = np.where(_shows(lines, bits, shade), SEEN, HIDDEN)
    wanted = np.bincount(bits.stroke, (state == SEEN) | hidden, len(lines.keys)).astype(bool).tolist()
    all_chains = ((chain, closed) for chain, closed in _chains(lines.keys) if any(wanted[n] for n, _ in chain))
    chains = [(found, closed) for chain, closed in all_chains if len(found := _bits_of(chain, bits)) > 1]
    for chain, closed in chains:
        state[chain[:, 0]] = _steady(state[chain[:, 0]], closed)
    state = _without_doubles(chains, bits, state, shade) if hidden else np.where(state == SEEN, SEEN, DOUBLE)
    drawn = [line for chain, closed in chains for line in _runs(chain, closed, bits, state, shade.dot)]
    return Sight(*(tuple(line for kind, line in drawn if kind == one) for one in (SEEN, HIDDEN)))


# ---- bits, and whether they show


def _cut(lines: Strokes, dot: float) -> _Bits:
    """Every stroke in even bits of no more than a dot; a stroke seen end on has none."""
    flat = lines.ends[:, :, :2]
    long = np.linalg.norm(flat[:, 1] - flat[:, 0], axis=1) / dot
    count = np.where(long > 1e-6, np.ceil(long), 0).astype(np.intp)
    first = np.concatenate(([0], np.cumsum(count)))
    stroke = np.repeat(np.arange(len(count)), count)
    share = ((np.arange(len(stroke)) - first[stroke]) / count[stroke])[:, None]
    step = (flat[stroke, 1] - flat[stroke, 0]) / count[stroke][:, None]
    start = flat[stroke, 0] + share * (flat[stroke, 1] - flat[stroke, 0])
    return _Bits(start, start + step, stroke, first)


def _shows(lines: Strokes, bits: _Bits, shade: Shade) -> "NDArray[np.bool_]":
    """Whether nothing lies in front of a bit, looked up beside it: on either side of an edge, outside of an outline."""
    place, ends = (bits.start + bits.end) / 2, lines.ends[bits.stroke]
    way = ends[:, 1, :2] - ends[:, 0, :2]
    square = np.einsum("ij,ij->i", way, way)
    share = np.einsum("ij,ij->i", place - ends[:, 0, :2], way) / square
    depth = ends[:, 0, 2] + share * (ends[:, 1, 2] - ends[:, 0, 2])
    left = np.stack((-way[:, 1], way[:, 0]), axis=1) / np.sqrt(square)[:, None]
    toward = lines.toward[bits.stroke]
    looks = toward[:, :, 0] + share[:, None] * (toward[:, :, 1] - toward[:, :, 0]) > EDGE_ON
    off = (BESIDE * shade.dot + lines.beyond[bits.stroke])[:, None]
    shows = np.zeros(len(place), dtype=bool)
    for k, side in ((0, left), (1, -left)):
        # of an outline the surface's far side is looked at, at the depth of the line; of an inner edge, the surface
        inner = looks[:, 1 - k]
        slope = np.where(inner[:, None], lines.slopes[bits.stroke, k], 0.0)
        beside = place + np.where(inner[:, None], side, -side) * off
        nearest, middle = looked_up(shade, beside)
        surface = depth + np.einsum("ij,ij->i", slope, middle - place)
        free = surface >= nearest - shade.dot * (0.5 + 0.3 * np.linalg.norm(slope, axis=1))
        shows |= free & looks[:, k]
    return shows


def _without_doubles(
    chains: "list[tuple[NDArray[np.intp], bool]]", bits: _Bits, state: "NDArray[np.intp]", shade: Shade
) -> "NDArray[np.intp]":
    """The states where a hidden line that falls on a seen one, or on a longer hidden one, or beside it, is doubled."""
    columns = shade.depths.shape[1]
    cells = np.floor(((bits.start + bits.end) / 2 - shade.corner) / shade.dot).astype(np.intp)
    cell = cells[:, 1] * columns + cells[:, 0]
    round_about = np.add.outer(np.arange(-1, 2) * columns, np.arange(-1, 2)).ravel()
    inked = np.zeros(shade.depths.size, dtype=bool)
    inked[cell[state == SEEN][:, None] + round_about] = True
    state = state.copy()
    for chain, closed in sorted(chains, key=lambda chain: -len(chain[0])):
        row = chain[:, 0]
        hidden = state[row] == HIDDEN
        state[row[hidden & inked[cell[row]]]] = DOUBLE
        state[row] = _steady(state[row], closed, ((DOUBLE, HIDDEN),), 2 * BLINK)  # a mere crossing parts no line
        inked[cell[row[hidden]][:, None] + round_about] = True
    return state


# ---- strokes end to end


def _chains(keys: "NDArray[np.intp]") -> Iterator[tuple[list[tuple[int, bool]], bool]]:
    """Strokes end to end, each with whether it is walked backward; and whether the chain closes.

    A chain goes on where just two strokes meet.
    """
    ends: list[list[int]] = keys.tolist()
    at: dict[int, list[int]] = defaultdict(list)
    for number, (start, end) in enumerate(ends):
        at[start].append(number)
        at[end].append(number)
    left = [True] * len(ends)
    loose = [n for n, (start, end) in enumerate(ends) if len(at[start]) != 2 or len(at[end]) != 2]
    for number in (*loose, *range(len(ends))):  # loops, that begin nowhere, last
        if left[number]:
            backward = len(at[ends[number][0]]) == 2 and len(at[ends[number][1]]) != 2
            yield _walk(number, backward, ends, at, left)


def _walk(
    number: int, backward: bool, ends: list[list[int]], at: dict[int, list[int]], left: list[bool]
) -> tuple[list[tuple[int, bool]], bool]:
    chain, first = [], ends[number][backward]
    while True:
        left[number] = False
        chain.append((number, backward))
        key = ends[number][not backward]
        onward = [n for n in at[key] if left[n]]
        if len(at[key]) != 2 or not onward:
            return chain, key == first and len(at[key]) == 2
        number = onward[0]
        backward = ends[number][0] != key


def _bits_of(chain: list[tuple[int, bool]], bits: _Bits) -> "NDArray[np.intp]":
    """The bits of a chain in order, each with 1 where it is walked backward, (n, 2)."""
    number, backward = np.array(chain, dtype=np.intp).T
    first, last = bits.first[number], bits.first[number + 1]
    row = np.repeat(np.arange(len(number)), last - first)
    along = np.arange(len(row)) - (np.cumsum(last - first) - (last - first))[row]
    turned = backward[row]
    return np.stack((np.where(turned, last[row] - 1 - along, first[row] + along), turned), axis=1)


# ---- runs of one kind


def _steady(
    state: "NDArray[np.intp]",
    closed: bool,
    changes: tuple[tuple[int, int], ...] = ((HIDDEN, SEEN), (SEEN, HIDDEN)),
    blink: int = BLINK,
) -> "NDArray[np.intp]":
    """The states along a chain without what blinks: short gaps in a seen line first, then short bits of one."""
    if (state == state[0]).all():
        return state
    state = state.copy()
    for kind, other in changes:
        spans = _spans(state, closed)
        for number, rows in enumerate(spans if len(spans) > 1 else ()):
            inner = closed or 0 < number < len(spans) - 1
            if state[rows[0]] == kind and len(rows) < (blink if inner else blink // 2):
                state[rows] = other
    return state


def _spans(state: "NDArray[np.intp]", closed: bool) -> "list[NDArray[np.intp]]":
    """Runs of one state along a chain, as rows; round a closed one the last goes on into the first."""
    if len(state) == 0:
        return []
    if (state == state[0]).all():
        return [np.arange(len(state))]
    spans = np.split(np.arange(len(state)), np.nonzero(np.diff(state))[0] + 1)
    if closed and len(spans) > 1 and state[0] == state[-1]:
        spans = [np.concatenate((spans[-1], spans[0])), *spans[1:-1]]
    return spans


def _runs(
    chain: "NDArray[np.intp]", closed: bool, bits: _Bits, state: "NDArray[np.intp]", dot: float
) -> Iterator[tuple[int, Line]]:
    """The lines of a chain with their state, as few points as keep them true."""
    for rows in _spans(state[chain[:, 0]], closed):
        if state[chain[rows[0], 0]] == DOUBLE:
            continue
        run, backward = chain[rows, 0], chain[rows, 1:] == 1
        start = np.where(backward, bits.end[run], bits.start[run])
        end = np.where(backward, bits.start[run], bits.end[run])
        stroke = bits.stroke[run]
        kept = np.concatenate(([True], stroke[1:] != stroke[:-1]))  # within a stroke all is straight
        line = np.concatenate((start[kept], end[-1:]))
        if np.linalg.norm(np.diff(line, axis=0), axis=1).sum() >= SHORTEST * dot:
            thin = _thinned(line, STRAIGHT * dot)
            yield int(state[run[0]]), tuple((float(x), float(y)) for x, y in thin)


def _thinned(line: "NDArray[np.float64]", stray: float) -> "NDArray[np.float64]":
    """The line with only those points without which it would stray farther (Douglas and Peucker, 1973)."""
    keep = np.zeros(len(line), dtype=bool)
    keep[[0, -1]] = True
    open_spans = [(0, len(line) - 1)]
    while open_spans:
        first, last = open_spans.pop()
        if last - first < 2:
            continue
        way, off = line[last] - line[first], line[first + 1 : last] - line[first]
        square = float(way @ way)
        share = np.clip(off @ way / square, 0, 1) if square > 0 else np.zeros(len(off))
        away = np.square(off - share[:, None] * way).sum(axis=1)
        worst = int(away.argmax())
        if away[worst] > stray * stray:
            middle = first + 1 + worst
            keep[middle] = True
            open_spans += [(first, middle), (middle, last)]
    return line[keep]
