"""Convex pieces and depths that the nester stands on, held against shapely (exact mathematics)."""

import math

import numpy as np
import shapely
from shapely.affinity import translate

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.board import Board, kind_of, pair_of, sheet_of, wall_of
from bickern.geometry.pack.shapes.choose import offers
from bickern.geometry.pack.shapes.pieces import convex_pieces
from bickern.geometry.pack.shapes.settle import settle
from bickern.geometry.pack.shapes.turns import turns_of
from bickern.geometry.polygon import disc, flipped, from_points, rectangle, sector

ELL = from_points([(0, 0), (0.3, 0), (0.3, 0.1), (0.1, 0.1), (0.1, 0.2), (0, 0.2)])
RING = Part("ring", disc(0.1), (flipped(disc(0.06)),))
FAN = Part("fan", sector(0.15, 0.06, 1.2))


def board_of(*parts: Part, cell: float = 0.004, slack: float = 0.0) -> Board:
    kinds, count = [], 0
    for part in parts:
        kinds.append(kind_of(part, Spacing(), (0.0, math.pi / 2), count))
        count += len(kinds[-1].turned)
    return Board(cell, slack, tuple(kinds), (sheet_of(Remnant("s", ELL), Spacing()),))


def test_pieces_are_convex_and_fill_the_shape() -> None:
    shape = shapely.Polygon([(0, 0), (4, 0), (4, 3), (2, 1), (0, 3)], [[(1, 0.5), (1.5, 0.5), (1.5, 1), (1, 1)]])
    pieces = [shapely.Polygon(piece) for piece in convex_pieces(shape)]
    assert all(math.isclose(p.area, p.convex_hull.area, rel_tol=1e-12) for p in pieces)
    assert math.isclose(sum(p.area for p in pieces), shape.area, rel_tol=1e-12)
    assert shapely.union_all(pieces).symmetric_difference(shape).area < 1e-9


def test_depth_is_nothing_exactly_where_shapely_sees_no_overlap() -> None:
    board = board_of(RING, FAN)
    ring, fan = board.kinds[0].turned[0], board.kinds[1].turned[0]
    one, two = (shapely.union_all([shapely.Polygon(p) for p in t.pieces]) for t in (ring, fan))
    pair = pair_of(board, fan, ring)
    rng = np.random.default_rng(7)
    seen = set()
    for _ in range(400):
        a, b = (int(rng.integers(n)) for n in pair.depth.shape)
        moved = translate(two, (a + pair.i0) * board.cell, (b + pair.j0) * board.cell)
        overlap = moved.intersection(one).area
        depth = float(pair.depth[a, b])
        assert (depth > 1e-6) == (overlap > 1e-9) or min(depth, overlap) < 1e-5
        seen.add(depth > 0)
    assert seen == {True, False}


def test_depth_seen_from_the_other_part_is_the_same() -> None:
    board = board_of(RING, FAN)
    ring, fan = board.kinds[0].turned[0], board.kinds[1].turned[0]
    there = pair_of(board, fan, ring)
    fresh = pair_of(board_of(RING, FAN), ring, fan)
    assert np.allclose(pair_of(board, ring, fan).depth, fresh.depth, atol=1e-6)
    assert there.depth.shape == fresh.depth.shape


def test_places_on_an_odd_sheet_are_clear_only_on_metal() -> None:
    square = Part("square", rectangle(0.05, 0.05))
    board = board_of(square, cell=0.005)
    wall = wall_of(board, board.kinds[0].turned[0], 0)
    assert wall is not None
    metal = shapely.Polygon([s.start for s in ELL.segs]).buffer(2e-6)
    for (i, j), depth in np.ndenumerate(wall):
        x, y = i * 0.005, j * 0.005
        assert (depth < 1e-5) == metal.buffer(1e-5).contains(shapely.box(x, y, x + 0.05, y + 0.05))


def test_a_rectangle_has_two_turns_and_a_disc_one() -> None:
    turns = tuple(k * math.pi / 2 for k in range(4))
    assert len(kind_of(Part("r", rectangle(0.1, 0.05)), Spacing(), turns, 0).turned) == 2
    assert len(turns_of(Part("d", disc(0.1)), [Remnant("s", rectangle(1, 1))])) == 4
    slanted = from_points([(0, 0), (1, 0), (1, 1), (0.2, 0.6)])
    free = turns_of(Part("r", rectangle(0.1, 0.05)), [Remnant("s", slanted)])
    assert any(math.isclose(math.tan(t), 0.5) for t in free)


def test_pushing_clears_small_clashes() -> None:
    square = Part("square", rectangle(0.05, 0.05))
    board = board_of(square)
    shape = board.kinds[0].turned[0]
    at, left = settle(board, 0, [shape] * 3, np.array([[0.0, 0.0], [0.047, 0.002], [0.094, 0.0]]), 200)
    assert left == []
    placed = [shapely.box(x, y, x + 0.05, y + 0.05) for x, y in at]
    assert all(a.intersection(b).area < 1e-12 for n, a in enumerate(placed) for b in placed[:n])


def test_choices_of_sheets_come_cheapest_first() -> None:
    sheets = [
        sheet_of(Remnant(k, rectangle(w, 1), cost=c), Spacing()) for k, w, c in (("a", 1, 5), ("b", 2, 1), ("c", 1, 1))
    ]
    found = offers(sheets, 1.0)
    assert [o.cost for o in found] == sorted(o.cost for o in found)
    assert [o.sheets for o in found[:2]] == [(2,), (1,)]
    assert math.isclose(found[0].fill, 1.0)
