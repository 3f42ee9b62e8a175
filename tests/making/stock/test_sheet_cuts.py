"""The cut plan for sheets: which sheets may serve, what is asked of the nest, what comes back, what is left."""

import math
from collections.abc import Sequence
from dataclasses import replace

import pytest

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.nest import nest
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.polygon import Loop, area, disc, flipped, from_points, rectangle, sector, to_shapely
from bickern.making.shop import Cutting, Shop
from bickern.making.stock.groups import sheet_groups
from bickern.making.stock.rack import StockSheet
from bickern.making.stock.sheet_cuts import GaugeCuts, plan_gauge, spacing_of, uses_of_sheets
from bickern.making.stock.wants import SheetWant, ToCut, wanted
from bickern.measure.units.words import INCH, MILLIMETRE
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import Pattern, PatternHole
from bickern.parts.sheet.spec import Bowl, Cone, FlatOutline, Seam, SeamKind, SheetSpec

GAUGE_18 = 0.0478 * INCH
CUTTING = Cutting(gap=0.003, margin=0.003, least_sheet=0.05)


def sheet(name: str, wide: float = 0.6, high: float = 0.4, thick: float = GAUGE_18, **more: object) -> StockSheet:
    told = {"steel": "S235JR", "coating": "none", "version": 1} | more
    return StockSheet(name, thick, rectangle(wide, high), **told)


def want(outline: Loop, count: int = 1, key: str = "job/plate", **more: object) -> SheetWant:
    name = key.rpartition("/")[2]
    return SheetWant(key, name, "Job", Pattern(name, outline), GAUGE_18, "18 ga", "S235JR", count, **more)


def planned(wants: Sequence[SheetWant], sheets: Sequence[StockSheet], cutting: Cutting = CUTTING) -> GaugeCuts:
    return plan_gauge(wants, sheets, frozenset(), cutting, nest)


# ---- which sheets may serve


def test_only_sheets_of_the_gauge_and_the_metal_serve():
    """18 US gauge is 0.0478 in; 1.2 mm is within 3 % of it, 1 mm and 16 gauge are not."""
    sheets = [
        sheet("S1"),
        sheet("S2", thick=1.2 * MILLIMETRE),
        sheet("S3", thick=1.0 * MILLIMETRE),
        sheet("S4", thick=0.0598 * INCH),
        sheet("S5", steel="304"),
    ]
    (group,) = sheet_groups([want(disc(0.05))], sheets, unknown=False)
    assert [one.id for one in group.stock] == ["S1", "S2"]


def test_a_galvanised_sheet_is_refused_for_the_fire_and_left_out_of_cold_work():
    sheets = [sheet("S1", coating="galvanised", place="yard"), sheet("S2")]
    (hot,) = sheet_groups([want(disc(0.05), hot=True)], sheets, unknown=False)
    (cold,) = sheet_groups([want(disc(0.05))], sheets, unknown=False)
    assert [one.id for one in hot.stock] == [one.id for one in cold.stock] == ["S2"]
    assert [(f.name, "S1 (yard)" in f.says) for f in hot.findings] == [("stock-refused", True)]
    assert [f.name for f in cold.findings] == ["stock-left-out"]


def test_a_galvanised_sheet_of_its_own_thicker_gauge_is_refused_in_words_too():
    """18 gauge of galvanised sheet is 0.0516 in, 8 % above 18 US gauge; 16 gauge is another matter."""
    thick, other = 0.0516 * INCH, 0.0635 * INCH
    sheets = [
        sheet("S1", thick=thick, gauge="18 galvanised ga", coating="galvanised", place="yard"),
        sheet("S2", thick=other, gauge="16 galvanised ga", coating="galvanised"),
        sheet("S3", thick=thick, gauge="18 ga", coating="none"),
    ]
    (hot,) = sheet_groups([want(disc(0.05), hot=True)], sheets, unknown=False)
    assert [(f.name, "S1 (yard)" in f.says) for f in hot.findings] == [("stock-refused", True)]
    assert hot.stock == ()


@pytest.mark.parametrize(
    "drawn",
    [
        (from_points(((0, 0), (0.2, 0), (0.1, 0.1), (0.2, 0.2), (0, 0.2), (0.1, 0.1))),),
        (rectangle(0.3, 0.3), flipped(disc(0.04, (0.1, 0.1))), flipped(disc(0.04, (0.15, 0.1)))),
        (rectangle(0.3, 0.3), flipped(rectangle(0.1, 0.1, (0.0, 0.1)))),
        (rectangle(0.3, 0.3), flipped(disc(0.04, (0.3, 0.1)))),
    ],
    ids=["touches itself", "holes overlap", "hole along the edge", "hole over the edge"],
)
def test_a_sheet_that_crosses_itself_is_left_out_and_does_not_spoil_the_others(drawn: tuple[Loop, ...]):
    """Nobody can say what of it is metal; the nest of the sheet beside it is as if it were not there."""
    odd = replace(sheet("S1"), outline=drawn[0], cutouts=drawn[1:])
    (group,) = sheet_groups([want(disc(0.05))], [odd, sheet("S2")], unknown=False)
    assert [one.id for one in group.stock] == ["S2"]
    assert [(f.name, "S1" in f.says) for f in group.findings] == [("stock-outline-crossed", True)]


def test_a_hole_that_touches_the_edge_at_one_point_leaves_a_sound_sheet():
    odd = replace(sheet("S1"), cutouts=(flipped(from_points(((0.0, 0.2), (0.1, 0.1), (0.1, 0.3)))),))
    (group,) = sheet_groups([want(disc(0.05))], [odd], unknown=False)
    assert group.stock == (odd,)


# ---- what is asked and what comes back


def test_the_nest_is_asked_for_true_outlines_with_cutouts_and_punched_holes_are_no_room():
    asked: list[object] = []

    def lay(parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Nest:
        asked.extend((*parts, *remnants, spacing))
        return Nest((), tuple((part.key, part.count) for part in parts), 0.0)

    window = flipped(disc(0.02, (0.05, 0.05)))
    pattern = Pattern("plate", rectangle(0.1, 0.1), (window,), (PatternHole((0.01, 0.01), 0.005),))
    one = SheetWant("job/plate", "plate", "Job", pattern, GAUGE_18, "18 ga", "", 3)
    plan = plan_gauge([one], [sheet("S1", offcut=True), sheet("S2")], frozenset(), CUTTING, lay)
    part, first, second, spacing = asked
    assert part == Part("job/plate", pattern.outline, (window,), 3, None)
    assert isinstance(first, Remnant)
    assert isinstance(second, Remnant)
    assert first.cost < second.cost == pytest.approx(0.24)
    assert spacing == Spacing(0.003, 0.003)
    assert [(lack.want.key, lack.count) for lack in plan.lacks] == [("job/plate", 3)]


def test_parts_lie_within_gap_and_margin_and_the_metal_is_all_there():
    wants = [want(disc(0.06), 3), want(rectangle(0.15, 0.08), 2, "job/strip")]
    stock = sheet("S1")
    plan = planned(wants, [stock])
    assert plan.lacks == ()
    (cut,) = plan.sheets
    assert len(cut.parts) == 5
    laid = Nest(tuple(part.laid for part in cut.parts), (), 0.0)
    parts = [Part(w.key, w.pattern.outline, w.pattern.cutouts, w.count) for w in wants]
    remnants = [Remnant("S1", stock.outline)]
    assert faults_of(laid, parts, remnants, spacing_of(CUTTING)) == ()
    whole = area(stock.outline)
    parts_area = 3 * math.pi * 0.06**2 + 2 * 0.15 * 0.08
    assert cut.used == pytest.approx(parts_area / whole, rel=1e-9)
    left = sum(area(one.outline) - sum(abs(area(hole)) for hole in one.cutouts) for one in cut.left)
    assert 0 < left < whole - parts_area
    assert {(one.of, one.offcut, one.id) for one in cut.left} == {("S1", True, "")}


def test_an_offcut_is_cut_into_before_a_whole_sheet():
    plan = planned([want(disc(0.06))], [sheet("S1", 1.2, 0.6), sheet("S2", 0.2, 0.2, offcut=True)])
    assert [cut.stock.id for cut in plan.sheets] == ["S2"]


def test_a_sheet_of_steel_that_nobody_knows_is_cut_last():
    sheets = [sheet("S1", 0.2, 0.2, steel=""), sheet("S2", 0.3, 0.2)]
    plan = plan_gauge([want(disc(0.06))], sheets, frozenset({"S1"}), CUTTING, nest)
    assert [cut.stock.id for cut in plan.sheets] == ["S2"]


def test_parts_are_told_row_by_row_from_the_lower_left():
    def lay(parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Nest:
        places = ((0.3, 0.2), (0.1, 0.2), (0.2, 0.0))
        return Nest(tuple(Laid("job/plate", "S1", 0.0, x, y) for x, y in places), (), 0.0)

    (cut,) = plan_gauge([want(rectangle(0.05, 0.05), 3)], [sheet("S1")], frozenset(), CUTTING, lay).sheets
    assert [(part.laid.x, part.laid.y) for part in cut.parts] == [(0.2, 0.0), (0.1, 0.2), (0.3, 0.2)]


def test_the_metal_in_a_parts_cutout_goes_back_too():
    """200 mm square out of a frame, 3 mm lost all round: 194 mm square are left of it."""
    frame = Pattern("frame", rectangle(0.3, 0.3), (flipped(rectangle(0.2, 0.2, (0.05, 0.05))),))
    one = SheetWant("job/frame", "frame", "Job", frame, GAUGE_18, "18 ga", "", 1)
    (cut,) = planned([one], [sheet("S1", 0.31, 0.31)]).sheets
    assert [area(drop.outline) for drop in cut.left] == [pytest.approx(0.194**2)]


def test_what_is_too_large_finds_no_place_and_the_rest_is_laid():
    plan = planned([want(rectangle(0.7, 0.5)), want(disc(0.05), key="job/disc")], [sheet("S1")])
    assert [(lack.want.key, lack.count) for lack in plan.lacks] == [("job/plate", 1)]
    assert [len(cut.parts) for cut in plan.sheets] == [1]


def test_a_strip_that_is_all_margin_is_as_good_as_no_sheet():
    """5 mm of sheet between two margins of 3 mm: no part goes on it, alone or beside a sheet that has room."""
    plan = planned([want(disc(0.05), 2)], [sheet("S1", 0.005, 1.0)])
    assert plan.sheets == ()
    assert [lack.count for lack in plan.lacks] == [2]
    both = planned([want(disc(0.05), 2)], [sheet("S1", 0.005, 1.0), sheet("S2")])
    assert [cut.stock.id for cut in both.sheets] == ["S2"]
    assert both.lacks == ()


def test_without_sheets_everything_is_short():
    plan = planned([want(disc(0.05), 4)], [])
    assert plan.sheets == ()
    assert [lack.count for lack in plan.lacks] == [4]


def test_what_is_taken_names_the_sheet_its_parts_and_its_drops():
    plan = planned([want(disc(0.05), 2)], [sheet("S1")])
    (use,) = uses_of_sheets([plan], lambda part: part.want.name)
    assert (use.id, use.version, use.cuts) == ("S1", 1, ("plate", "plate"))
    assert use.left == plan.sheets[0].left


def test_a_part_is_where_it_was_turned_and_shifted_to():
    plan = GaugeCuts(GAUGE_18, "", "", (), (), False)
    assert not plan.cut_short

    def lay(parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Nest:
        return Nest((Laid("job/plate", "S1", math.pi / 2, 0.2, 0.1),), (), 0.0)

    pattern = Pattern("plate", rectangle(0.1, 0.05), (flipped(disc(0.01, (0.03, 0.02))),))
    one = SheetWant("job/plate", "plate", "Job", pattern, GAUGE_18, "", "", 1)
    (cut,) = plan_gauge([one], [sheet("S1")], frozenset(), CUTTING, lay).sheets
    (part,) = cut.parts
    assert area(part.outline) == pytest.approx(0.005)
    assert area(part.cutouts[0]) == pytest.approx(-math.pi * 1e-4)
    corners = sorted((round(seg.start[0], 6), round(seg.start[1], 6)) for seg in part.outline.segs)
    assert corners == [(0.15, 0.1), (0.15, 0.2), (0.2, 0.1), (0.2, 0.2)]


# ---- what jobs want of sheet


def sheet_result(**more: object):  # type: ignore[no-untyped-def]
    told = {"surface": Bowl(0.1, 0.03)} | more
    return reckon_sheet(SheetSpec("bowl", 0.0015, "S235JR", **told), SheetRules(), 7850.0).value


def test_every_pattern_of_a_piece_is_wanted_as_often_as_it_is_made():
    halves = sheet_result(surface=Cone(0.6, 0.2, 0.35), seam=Seam(SeamKind.LAP, 0.01), parts=2, hot=True)
    every = wanted("Hood", "hood", 3, [ToCut(halves, "hood", 3, True)], (), Shop()).sheets
    assert sum(one.count for one in every) == 6
    assert all(one.hot for one in every)
    assert len({one.key for one in every}) == len(every)


def test_a_cold_plate_is_cold():
    plate = sheet_result(surface=FlatOutline(rectangle(0.2, 0.1)))
    (one,) = wanted("Plate", "plate", 1, [ToCut(plate, "bowl", 1, False)], (), Shop()).sheets
    assert not one.hot
    assert one.pattern.outline == plate.patterns[0].outline


def test_no_sliver_goes_back_into_the_rack():
    """Two halves of a hood leave four corners; each drop takes a disc as wide as the narrowest that is kept."""
    half = sector(24 * INCH, 8 * INCH, math.radians(89))
    plan = plan_gauge([want(half, 2)], [sheet("S1", 48 * INCH, 24 * INCH)], frozenset(), Cutting(), _two_halves)
    (cut,) = plan.sheets
    assert len(cut.left) == 4
    for one in cut.left:
        assert not to_shapely(one.outline).buffer(-0.0499).is_empty


def _two_halves(parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Nest:
    """One way to lay them, with the gap and the margin of any shop."""
    turn = math.radians(37.5)
    places = ((turn, 1.1419084482602218, -0.0029999999999998153), (turn + math.pi, 0.07729155173977771, 0.6126))
    made = Nest(tuple(Laid("job/plate", "S1", *place) for place in places), (), remnants[0].cost)
    assert faults_of(made, parts, remnants, spacing) == ()
    return made
