"""What goes into the rack comes out the same; each change is whole, and the history tells it."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

import pytest

from bickern.book.database.open import open_book
from bickern.book.database.work import Book
from bickern.book.rack.change import add, change, remove
from bickern.book.rack.check import check
from bickern.book.rack.history import History, history
from bickern.book.rack.read import piece_in, rack_of
from bickern.book.rack.take import take
from bickern.geometry.polygon import ArcSeg, Line, Loop, disc, flipped, from_points, rectangle
from bickern.iron.section import Section
from bickern.making.stock.rack import Rack, StockBar, StockSheet, Taking, Use
from bickern.measure.finding import Finding
from bickern.measure.money import Money
from bickern.measure.units.words import INCH, Shape

SQUARE = Section(Shape.SQUARE, 0.375 * INCH, 0.375 * INCH)
BAR = StockBar("", SQUARE, 72 * INCH, "S235JR", "none", "left wall", Money(Decimal("4.20"), "GBP"), remark="straight")
TUBE = StockBar("", Section(Shape.TUBE, 0.0254, 0.0254, 0.002, 0.97), 1 / 3)
SHEET = StockSheet("", 0.0013, rectangle(48 * INCH, 24 * INCH), (disc(0.1, (0.3, 0.3)),), gauge="18 ga", grain=0.1)
HALF_DISC = StockSheet(
    "", 0.002, Loop((Line((-0.1, 0.0), (0.1, 0.0)), ArcSeg((0.0, 0.0), 0.1, 0.0, 3.141592653589793)))
)


@pytest.fixture
def book(place: str) -> Iterator[Book]:
    made = open_book(place)
    assert isinstance(made, Book), made
    yield made
    assert check(made) == ()
    made.close()


def rack(book: Book) -> Rack:
    found = rack_of(book)
    assert isinstance(found, Rack), found
    return found


def test_a_new_rack_is_empty(book: Book):
    assert rack(book) == Rack()


def test_pieces_come_out_as_they_went_in_with_ids_in_order(book: Book):
    assert add(book, [BAR, SHEET, TUBE, HALF_DISC], "Ann") == ("B1", "S1", "B2", "S2")
    bars = (replace(BAR, id="B1", version=1), replace(TUBE, id="B2", version=1))
    sheets = (replace(SHEET, id="S1", version=1), replace(HALF_DISC, id="S2", version=1))
    assert rack(book) == Rack(bars, sheets)
    assert piece_in(book, " b2 ") == bars[1]


def test_numbers_are_never_given_again(book: Book):
    add(book, [BAR, BAR])
    remove(book, ["B2"], "sold")
    assert add(book, [BAR]) == ("B3",)


def test_a_drop_of_no_size_puts_nothing_in(book: Book):
    found = add(book, [BAR, replace(BAR, length=0.0)])
    assert isinstance(found, Finding)
    assert found.name == "impossible-stock"
    for wrong in (float("nan"), float("inf"), -1.0):
        assert isinstance(add(book, [replace(BAR, length=wrong)]), Finding)
        assert isinstance(add(book, [replace(SHEET, thick=wrong)]), Finding)
    assert rack(book) == Rack()


@pytest.mark.parametrize(
    "drawn",
    [
        (from_points([(0, 0), (0.2, 0.2), (0.2, 0), (0, 0.1)]),),
        (from_points([(0, 0), (0.2, 0), (0.2, 0.3), (-0.1, 0.1), (0.3, 0.1)]),),
        (from_points([(0, 0), (0.2, 0), (0.1, 0.1), (0.2, 0.2), (0, 0.2), (0.1, 0.1)]),),
        (rectangle(0.3, 0.3), flipped(rectangle(0.1, 0.1, (0.25, 0.1)))),
        (rectangle(0.3, 0.3), flipped(rectangle(0.1, 0.1, (0.0, 0.1)))),
        (rectangle(0.3, 0.3), flipped(disc(0.04, (0.1, 0.1))), flipped(disc(0.04, (0.15, 0.1)))),
    ],
    ids=["bow tie", "star", "touches itself", "hole over the edge", "hole along the edge", "holes overlap"],
)
def test_a_sheet_that_crosses_itself_is_refused_at_the_door(book: Book, drawn: tuple[Loop, ...]):
    odd = replace(SHEET, outline=drawn[0], cutouts=drawn[1:])
    found = add(book, [BAR, odd])
    assert isinstance(found, Finding)
    assert (found.name, found.stops) == ("impossible-outline", True)
    assert "corner by corner" in found.try_this
    assert rack(book) == Rack()
    add(book, [SHEET])
    changed = change(book, replace(rack(book).sheets[0], outline=drawn[0], cutouts=drawn[1:]))
    assert isinstance(changed, Finding)
    assert changed.name == found.name
    assert rack(book).sheets[0].outline == SHEET.outline


def test_a_hole_that_touches_the_edge_at_one_point_may_lie_there(book: Book):
    """A hole is metal's edge there and nothing more: what is metal is as clear as before."""
    odd = replace(SHEET, cutouts=(flipped(from_points([(0.0, 0.2), (0.1, 0.1), (0.1, 0.3)])),))
    assert add(book, [odd]) == ("S1",)


def test_a_change_writes_what_is_different_and_nothing_else(book: Book):
    add(book, [BAR], "Ann")
    seen = rack(book).bars[0]
    now = change(book, replace(seen, place="right wall", coating="painted"), "Bob")
    assert now == replace(seen, place="right wall", coating="painted", version=2)
    assert rack(book).bars == (now,)
    told = history(book, "b1")
    assert isinstance(told, History)
    assert [(c.what, c.who, c.version) for c in told.changes] == [("added", "Ann", 1), ("changed", "Bob", 2)]
    assert told.changes[1].fields == {"place": "right wall", "coating": "painted"}


def test_a_change_of_what_was_changed_meanwhile_is_refused(book: Book):
    add(book, [BAR])
    seen = rack(book).bars[0]
    change(book, replace(seen, place="floor"))
    late = change(book, replace(seen, steel="A36"))
    assert isinstance(late, Finding)
    assert late.name == "stock-already-changed"
    assert rack(book).bars[0].steel == "S235JR"


def test_a_change_that_changes_nothing_leaves_the_history_alone(book: Book):
    add(book, [BAR])
    same = change(book, rack(book).bars[0])
    assert isinstance(same, Finding)
    assert not same.stops
    assert rack(book).bars[0].version == 1


def test_what_is_removed_is_gone_and_its_history_stays(book: Book):
    add(book, [BAR, BAR])
    removed = remove(book, ["b1"], "bent beyond use", "Ann")
    assert isinstance(removed, tuple)
    assert [p.id for p in removed] == ["B1"]
    assert [bar.id for bar in rack(book).bars] == ["B2"]
    again = piece_in(book, "B1")
    assert isinstance(again, Finding)
    assert again.name == "stock-gone"
    told = history(book, "B1")
    assert isinstance(told, History)
    assert told.changes[-1].says == "bent beyond use"


def test_all_or_none_are_removed(book: Book):
    add(book, [BAR, BAR])
    found = remove(book, ["B1", "B7"], "sold")
    assert isinstance(found, Finding)
    assert found.name == "no-such-stock"
    assert len(rack(book).bars) == 2


def used(bar: StockBar | StockSheet, *left: StockBar | StockSheet, cuts: tuple[str, ...] = ("hook 1",)) -> Use:
    return Use(bar.id, bar.version, cuts, left)


def test_taking_cuts_and_puts_the_drops_back(book: Book):
    add(book, [BAR, SHEET])
    bar, sheet = rack(book).bars[0], rack(book).sheets[0]
    drop, half = replace(bar, id="", length=0.4), replace(sheet, id="", outline=rectangle(0.5, 0.6), cutouts=())
    ids = take(book, Taking((used(bar, drop), used(sheet, half)), ("hook", "hood")), "Ann")
    assert ids == ("B2", "S2")
    after = rack(book)
    assert after.bars == (replace(drop, id="B2", of="B1", offcut=True, version=1),)
    assert after.sheets == (replace(half, id="S2", of="S1", offcut=True, version=1),)
    told = history(book, "B1")
    assert isinstance(told, History)
    assert told.left == ("B2",)
    assert (told.changes[-1].what, told.changes[-1].jobs, told.changes[-1].cuts) == (
        "cut",
        ("hook", "hood"),
        ("hook 1",),
    )


def test_who_comes_late_is_told_who_was_faster_and_nothing_is_taken(book: Book):
    add(book, [BAR, BAR])
    one, two = rack(book).bars
    assert take(book, Taking((used(two),), ("lantern",)), "Bob") == ()
    late = take(book, Taking((used(one, replace(one, id="", length=1.0)), used(two)), ("hook",)), "Ann")
    assert isinstance(late, Finding)
    assert late.name == "stock-already-taken"
    for word in ("B2", "cut", "Bob", "lantern", "UTC"):
        assert word in late.says
    assert rack(book).bars == (one,)


def test_a_piece_that_was_moved_since_is_not_taken_either(book: Book):
    add(book, [BAR])
    seen = rack(book).bars[0]
    change(book, replace(seen, place="floor"), "Bob", what="moved")
    late = take(book, Taking((used(seen),), ("hook",)))
    assert isinstance(late, Finding)
    assert "moved by Bob" in late.says


def test_what_was_never_there_is_not_taken(book: Book):
    found = take(book, Taking((Use("B9", 1, ()),), ("hook",)))
    assert isinstance(found, Finding)
    assert found.name == "no-such-stock"


def test_what_is_gone_is_not_taken_again_by_its_newest_version(book: Book):
    add(book, [BAR])
    remove(book, ["B1"], "sold", "Ann")
    late = take(book, Taking((Use("B1", 2, ()),), ("hook",)))
    assert isinstance(late, Finding)
    assert (late.name, "removed by Ann" in late.says) == ("stock-already-taken", True)


def test_more_left_than_there_was_is_refused(book: Book):
    add(book, [BAR, SHEET])
    bar, sheet = rack(book).bars[0], rack(book).sheets[0]
    half = replace(bar, id="", length=0.6 * bar.length)
    for use in (
        used(bar, half, half),
        used(bar, replace(TUBE, id="", length=0.1)),
        used(bar, replace(sheet, id="")),
        used(sheet, replace(sheet, id="", cutouts=())),
    ):
        found = take(book, Taking((use,), ("hook",)))
        assert isinstance(found, Finding)
        assert found.name == "more-left-than-was"
    assert len(rack(book).bars) == 1


def test_text_that_no_database_takes_is_made_fit(book: Book):
    odd = replace(
        BAR, place="left\x00\n wall", remark="\ud800 é 三 " + "o" * 1000, steel="'; DROP TABLE rack_piece; --"
    )
    add(book, [odd], "Ann\x00")
    kept = rack(book).bars[0]
    assert kept.place == "left wall"
    assert kept.remark.startswith("é 三 ooo")
    assert len(kept.remark) == 200
    assert kept.steel == odd.steel


def test_floats_are_kept_to_the_last_bit(book: Book):
    awkward = [replace(BAR, length=x) for x in (0.1 + 0.2, 1 / 3, 5e-324, 1e300, 72 * 0.0254)]
    add(book, awkward)
    assert [bar.length for bar in rack(book).bars] == [bar.length for bar in awkward]
