"""The raster that clashes are counted on, held against plain sums (exact mathematics) and against shapely."""

import math

import numpy as np
import pytest
import shapely
from shapely.affinity import translate

from bickern.geometry.pack.shapes import field
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.board import Board, Turned, kind_of, sheet_of
from bickern.geometry.pack.shapes.lay import best_spot, empty, put
from bickern.geometry.pack.shapes.turns import turns_of
from bickern.geometry.polygon import disc, flipped, from_points, rectangle, sector

ELL = from_points([(0, 0), (0.3, 0), (0.3, 0.1), (0.1, 0.1), (0.1, 0.2), (0, 0.2)])
FAN = Part("fan", sector(0.08, 0.03, 1.2))
CELL = 0.003


def board_of(*parts: Part, remnants: tuple[Remnant, ...] = (Remnant("s", ELL),)) -> Board:
    kinds, count = [], 0
    for part in parts:
        kinds.append(kind_of(part, Spacing(), (0.3, 2.0), count))
        count += len(kinds[-1].turned)
    sheets = tuple(sheet_of(one, Spacing()) for one in remnants)
    return Board(CELL, 0.0, tuple(kinds), sheets, field.field_of(dict(enumerate(sheets)), CELL, 0.0, 0.0))


def shape_of(turned: Turned, x: float = 0.0, y: float = 0.0) -> shapely.Polygon:
    return translate(shapely.union_all([shapely.Polygon(piece) for piece in turned.pieces]), x, y)


def test_sheets_lie_apart_on_a_raster_of_quick_lengths() -> None:
    many = tuple(Remnant(f"s{n}", rectangle(0.1 + 0.07 * n, 0.5 - 0.06 * n)) for n in range(7))
    raster = board_of(FAN, remnants=many).raster
    assert raster is not None
    boxes = [
        shapely.box(a, b, a + math.ceil((0.1 + 0.07 * n) / CELL), b + math.ceil((0.5 - 0.06 * n) / CELL))
        for n, (a, b) in raster.starts.items()
    ]
    assert all(one.distance(other) >= 2 for k, one in enumerate(boxes) for other in boxes[:k])
    assert all(box.bounds[2] < raster.cells[0] and box.bounds[3] < raster.cells[1] for box in boxes)
    assert all(30**8 % n == 0 for n in raster.cells)


def test_clashes_by_transform_are_the_sums_of_what_is_covered_twice() -> None:
    board = board_of(FAN)
    raster, turned = board.raster, board.kinds[0].turned[1]
    assert raster is not None
    spectrum, cells = field.spectrum_of(raster, turned)
    stamp = field.stamp_of(turned, CELL, edge=0.0)
    assert cells == pytest.approx(float(stamp.cover.sum()))
    found = field.clash_map(raster, field.whole_spectrum(raster.walls), spectrum)
    h, w = stamp.cover.shape
    for i, j in ((5, 4), (20, 9), (40, 2), (33, 30)):
        there = raster.walls[i + stamp.i0 : i + stamp.i0 + h, j + stamp.j0 : j + stamp.j0 + w]
        assert found[i, j] == pytest.approx(float((there * stamp.cover).sum()), abs=1e-2)


def test_cover_is_the_area_and_nothing_outside() -> None:
    """Made larger by half a cell, cells are covered by as much as lies in them, within what a cell's edge leaves."""
    turned = board_of(Part("disc", disc(0.06))).kinds[0].turned[0]
    stamp = field.stamp_of(turned, CELL, (0.001, 0.0005))
    assert stamp.cover.sum() * CELL**2 == pytest.approx(math.pi * 0.06**2, rel=0.01)
    shape = shape_of(turned, 0.001, 0.0005)
    for (i, j), share in np.ndenumerate(stamp.cover):
        middle = shapely.Point((i + stamp.i0) * CELL, (j + stamp.j0) * CELL)
        assert share == 0 or shape.distance(middle) < CELL / 2 + 1e-9


def test_a_place_called_clear_is_clear_but_for_what_pushing_takes_away() -> None:
    board = board_of(FAN, Part("disc", disc(0.03)))
    lying = empty(board, (0, 1, 1), lambda: True)
    for copy, turn in ((0, 1), (1, 0), (2, 0)):
        spot = best_spot(lying, copy, [board.kinds[min(copy, 1)].turned[turn]], [0])
        assert spot is not None
        assert spot.cost == 0
        put(lying, copy, spot)
    shapes = [shape_of(s.turned, *lying.at[n]) for n, s in enumerate(lying.spots) if s is not None]
    metal = shapely.Polygon([s.start for s in ELL.segs])
    for n, one in enumerate(shapes):
        assert one.buffer(-CELL).within(metal.buffer(1e-5))
        assert not any(one.buffer(-CELL / 2).intersects(other.buffer(-CELL / 2)) for other in shapes[:n])


def test_no_place_where_all_is_covered_and_none_on_too_small_a_sheet() -> None:
    board = board_of(Part("bar", rectangle(0.28, 0.09)), Part("long", rectangle(0.31, 0.02)))
    lying = empty(board, (0, 1), lambda: True)
    assert (
        best_spot(lying, 1, [kind_of(Part("long", rectangle(0.31, 0.02)), Spacing(), (0.0,), 9).turned[0]], [0]) is None
    )
    assert best_spot(lying, 0, board.kinds[0].turned, [0], under=CELL / 10) is None


# ---- turns


def test_a_large_part_is_tried_at_the_turns_that_it_goes_at() -> None:
    """A bar longer than the side of a square sheet goes on it at turns about the diagonal only (exact mathematics)."""
    bar = Part("bar", rectangle(0.5, 0.02))
    sheet = Remnant("s", rectangle(0.4, 0.4))
    tried = turns_of(bar, [sheet], 0.003)
    room = 0.4 - 0.006
    goes = [
        t
        for t in tried
        if max(abs(0.5 * math.cos(t)) + abs(0.02 * math.sin(t)), abs(0.5 * math.sin(t)) + abs(0.02 * math.cos(t)))
        <= room
    ]
    assert goes
    assert any(math.isclose(t % (math.pi / 2), math.pi / 4, abs_tol=0.02) for t in goes)
    assert turns_of(bar, [Remnant("s", rectangle(2.0, 2.0))], 0.003) == turns_of(
        Part("b", rectangle(0.1, 0.02)), [sheet]
    )


def test_a_bar_goes_across_the_corners_and_a_window_is_seen() -> None:
    window = (flipped(disc(0.05, (0.3, 0.1))),)
    bar, sheet = Part("bar", rectangle(0.5, 0.02)), Remnant("s", rectangle(0.4, 0.4), window)
    from bickern.geometry.pack.shapes.nest import nest

    made = nest([bar], [sheet], Spacing(0.002, 0.003), effort=60)
    assert made.short == ()
