"""What is left of a sheet: never more metal than there is, and no piece that is not worth keeping."""

import math
import random
from dataclasses import replace
from decimal import Decimal

import pytest
import shapely

from bickern.geometry.polygon import (
    Loop,
    area,
    closed_gap,
    disc,
    flipped,
    from_points,
    moved,
    rectangle,
    sector,
    to_shapely,
)
from bickern.making.shop import Cutting
from bickern.making.stock.rack import StockSheet
from bickern.making.stock.remnant import CutOut, left_of
from bickern.measure.money import Money

FINE = 1e-6
CUTTING = Cutting(kerf=0.002, gap=0.003, least_sheet=0.05)
SHEET = StockSheet(
    "S7", 0.002, rectangle(1.0, 0.5), steel="S235JR", coating="none", place="wall", gauge="2 mm", grain=0.0, version=4
)


def metal(sheet: StockSheet, tolerance: float = FINE) -> shapely.Polygon:
    return to_shapely(sheet.outline, tolerance, sheet.cutouts)


def net(sheet: StockSheet) -> float:
    return area(sheet.outline) - sum(abs(area(hole)) for hole in sheet.cutouts)


def test_a_corner_cut_off_leaves_an_l() -> None:
    """0.4 x 0.2 out of the corner, 3 mm lost on both inner sides: 0.5 - 0.403 x 0.203, by hand."""
    (left,) = left_of(SHEET, [rectangle(0.4, 0.2)], CUTTING)
    assert net(left) == pytest.approx(0.5 - 0.403 * 0.203, abs=1e-12)
    assert len(left.outline.segs) == 6
    assert area(left.outline) > 0
    assert left.cutouts == ()


def test_the_wider_of_kerf_and_gap_is_lost() -> None:
    (left,) = left_of(SHEET, [rectangle(0.4, 0.2)], replace(CUTTING, kerf=0.006))
    assert net(left) == pytest.approx(0.5 - 0.406 * 0.206, abs=1e-12)


def test_a_part_from_the_middle_leaves_a_hole() -> None:
    (left,) = left_of(SHEET, [moved(disc(0.1), 0.5, 0.25)], CUTTING)
    assert left.outline == SHEET.outline or net(replace(left, cutouts=())) == pytest.approx(0.5)
    assert len(left.cutouts) == 1
    assert area(left.cutouts[0]) < 0  # holes run the other way
    assert abs(area(left.cutouts[0])) == pytest.approx(math.pi * 0.103**2, rel=6e-3)
    assert abs(area(left.cutouts[0])) >= math.pi * 0.103**2


def test_a_sheet_cut_in_two_leaves_both_biggest_first() -> None:
    two = left_of(SHEET, [rectangle(0.1, 0.5, (0.3, 0.0))], CUTTING)
    assert [round(net(one), 9) for one in two] == [round(0.597 * 0.5, 9), round(0.297 * 0.5, 9)]


def test_strips_and_tongues_too_narrow_are_not_kept() -> None:
    wide, narrow = rectangle(1.0, 0.5 - 0.003 - 0.051), rectangle(1.0, 0.5 - 0.003 - 0.049)
    (kept,) = left_of(SHEET, [wide], CUTTING)
    assert net(kept) == pytest.approx(0.051, abs=1e-9)
    assert left_of(SHEET, [narrow], CUTTING) == ()
    (left,) = left_of(SHEET, [rectangle(0.6, 0.46)], CUTTING)  # a tongue of 37 mm above it
    assert net(left) == pytest.approx(0.397 * 0.5, rel=1e-4)
    assert metal(left).bounds == pytest.approx((0.603, 0.0, 1.0, 0.5), abs=1e-6)
    assert metal(left).bounds[0] >= 0.603  # what was trimmed is drawn inward, not out over the line
    assert metal(left).bounds[2] <= 1.0


def test_sharp_corners_of_a_wide_piece_stay() -> None:
    whole = replace(SHEET, outline=from_points(((0, 0), (0.8, 0), (0, 0.6))))
    (left,) = left_of(whole, [rectangle(0.1, 0.1)], CUTTING)
    assert net(left) == pytest.approx(0.24 - 0.103**2, rel=1e-3)
    assert metal(left).bounds == pytest.approx((0.0, 0.0, 0.8, 0.6), abs=1e-6)


def test_what_is_kept_of_a_parts_hole() -> None:
    ring = CutOut(disc(0.2, (0.5, 0.25)), (flipped(disc(0.15, (0.5, 0.25))),))
    plain = left_of(SHEET, [ring.outline], CUTTING)
    with_inside = left_of(SHEET, [ring], CUTTING)
    assert len(with_inside) == len(plain) + 1
    inner = min(with_inside, key=net)
    assert math.pi * 0.147**2 * 0.99 < net(inner) <= math.pi * 0.147**2
    assert inner.cutouts == ()


def test_drops_are_told_as_offcuts_of_their_sheet() -> None:
    dear = replace(SHEET, price=Money(Decimal("50.00"), "EUR"), remark="a scratch")
    (left,) = left_of(dear, [rectangle(0.4, 0.2)], CUTTING)
    assert (left.id, left.of, left.offcut, left.version) == ("", "S7", True, 0)
    same = ("thick", "steel", "coating", "place", "gauge", "grain", "remark")
    assert all(getattr(left, name) == getattr(dear, name) for name in same)
    assert left.price == Money(Decimal("41.82"), "EUR")  # 50 x (0.5 - 0.403 x 0.203) / 0.5 = 41.819


def test_a_drop_is_priced_by_the_metal_that_the_sheet_had_not_by_what_its_holes_had() -> None:
    """A quarter of 0.5 m2 is a hole already: 0.125 m2 left of the 0.375 m2 that were there are a third of the price."""
    holed = replace(
        SHEET, cutouts=(flipped(rectangle(0.25, 0.5 - 1e-6, (0.5, 5e-7))),), price=Money(Decimal(60), "EUR")
    )
    left = left_of(holed, [rectangle(0.5, 0.5)], replace(CUTTING, kerf=0.0, gap=0.0, least_sheet=0.0))
    assert sum(net(one) for one in left) == pytest.approx(0.125, abs=2e-6)
    assert float(sum(one.price.amount for one in left if one.price)) == pytest.approx(20.0, abs=0.02)


def test_a_strip_just_as_wide_as_the_narrowest_is_kept() -> None:
    strip = replace(SHEET, outline=rectangle(1.0, CUTTING.least_sheet))
    assert [net(one) for one in left_of(strip, [], CUTTING)] == [pytest.approx(CUTTING.least_sheet)]


def test_a_sliver_beside_a_sharp_corner_is_no_piece_of_its_own() -> None:
    """Five parts laid so that a corner kept sharp comes away from its piece, 2 mm2 of it: nobody racks that."""
    places = ((0, 0.4679, 0.1215, 3.3265), (0, 0.7843, 0.1741, 5.0119), (3, 0.7758, 0.1539, 0.9097))
    more = ((0, -0.0181, -0.0549, 1.8181), (2, 0.4834, 0.1594, 3.7031))
    cuts = [moved(SHAPES[which], x, y, turn) for which, x, y, turn in (*places, *more)]
    left = left_of(SHEET, cuts, replace(CUTTING, least_sheet=0.08))
    assert all(net(one) > math.pi * 0.0399**2 for one in left)  # each takes a disc as wide as the narrowest


def test_nothing_cut_leaves_the_sheet() -> None:
    odd = replace(SHEET, cutouts=(flipped(rectangle(0.1, 0.1, (0.2, 0.2))),))
    (left,) = left_of(odd, [], CUTTING)
    assert metal(left).equals(metal(odd))


def test_all_cut_leaves_nothing() -> None:
    assert left_of(SHEET, [SHEET.outline], CUTTING) == ()
    assert left_of(SHEET, [rectangle(2.0, 2.0, (-0.5, -0.5))], CUTTING) == ()


SHAPES = (sector(0.2, 0.08, 1.3), disc(0.06), rectangle(0.15, 0.08), from_points(((0, 0), (0.2, 0.02), (0.03, 0.14))))
SHEETS = (
    SHEET.outline,
    disc(0.4, (0.4, 0.3)),
    Loop(tuple(from_points(((0, 0), (0.9, 0), (0.9, 0.3), (0.5, 0.3), (0.5, 0.6), (0, 0.6))).segs)),
    sector(0.8, 0.2, 1.2),
)


@pytest.mark.parametrize("seed", range(40))
def test_there_is_never_more_metal_than_there_was(seed: int) -> None:
    """Area law: pieces lie in the sheet, apart from one another, clear of every part; little else is lost."""
    rng = random.Random(seed)
    hole = flipped(disc(rng.uniform(0.01, 0.08), (rng.uniform(0.1, 0.6), rng.uniform(0.1, 0.5))))
    outline = rng.choice(SHEETS)
    holes = (hole,) if metal(replace(SHEET, outline=outline)).contains(to_shapely(hole)) else ()
    sheet = replace(SHEET, outline=outline, cutouts=holes)
    cuts = [
        moved(rng.choice(SHAPES), rng.uniform(-0.1, 0.8), rng.uniform(-0.1, 0.5), rng.uniform(0, 6.3))
        for _ in range(rng.randint(1, 6))
    ]
    cutting = replace(CUTTING, least_sheet=rng.choice([0.0, 0.03, 0.08]))
    left = left_of(sheet, cuts, cutting)
    pieces = [metal(one) for one in left]
    whole, gone = metal(sheet), shapely.union_all([to_shapely(cut, FINE) for cut in cuts])
    assert all(one.is_valid for one in pieces)
    assert all(closed_gap(loop) == 0 for one in left for loop in (one.outline, *one.cutouts))
    assert sum(one.area for one in pieces) == pytest.approx(shapely.union_all(pieces).area, abs=1e-9)
    for one in pieces:
        assert one.difference(whole.buffer(2 * FINE)).area == pytest.approx(0.0, abs=1e-12)
        assert one.distance(gone) > 0.003 - 3 * FINE
        assert not one.buffer(-cutting.least_sheet / 2 + 1e-6).is_empty
    truly = whole.difference(gone.buffer(0.003, quad_segs=64))
    assert sum(one.area for one in pieces) <= truly.area + 1e-9
    if cutting.least_sheet == 0:  # all is kept but what corners squared off and arcs made straight cost
        assert sum(one.area for one in pieces) > truly.area - 3e-4 * truly.length - 5e-5
