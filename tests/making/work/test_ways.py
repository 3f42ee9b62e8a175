"""Ways: every operation has one, every gap can be filled, and the words are short enough to be read at the anvil."""

import re
from dataclasses import replace
from math import pi

import pytest

from bickern.iron.section import POINT, Section
from bickern.making.work.faults import FAULTS
from bickern.making.work.result import Work
from bickern.making.work.way import FIELDS
from bickern.making.work.ways import WAYS, data_of, fields_in, way_of
from bickern.measure.source import Kind
from bickern.measure.units.words import Shape

OPERATIONS = {
    # bar
    "mark", "cut bar", "upset", "draw", "taper", "shoulder", "spread", "split", "punch", "slit", "drift", "drill",
    "bend", "curl", "hoop", "scroll", "twist", "straighten", "cut off",
    # rings and joints
    "wind", "scarf", "weld", "close ring", "thread", "rivet", "rivet hot", "collar", "braze", "screw", "pin",
    # sheet and finish
    "cut sheet", "deburr", "hem", "fold", "roll sheet", "dish", "groove", "file", "brush", "wax or oil", "black",
    "paint", "scrub", "galvanise after",
}  # fmt: skip
HALF = Section(Shape.SQUARE, 0.0127, 0.0127)
ROUND = Section(Shape.ROUND, 0.00635, 0.00635)
FLAT = Section(Shape.FLAT, 0.0254, 0.00635)
OCTAGON = Section(Shape.OCTAGON, 0.0095, 0.0095)


def work(does: str, **rest) -> Work:
    return Work(f"arm: {does}", "arm", does, **rest)


def test_each_operation_has_a_way_and_no_way_is_for_another():
    assert {w.does for w in WAYS} == OPERATIONS


@pytest.mark.parametrize("does", sorted(OPERATIONS))
def test_a_work_that_carries_nothing_but_its_name_still_has_a_way(does: str):
    bare = work(does)
    assert fields_in(way_of(bare)) <= {"name"}
    assert data_of(bare) == {"name": "arm"}
    assert way_of(replace(bare, hot=True)).does == does


def test_an_operation_that_nobody_knows_is_a_fault_in_us():
    with pytest.raises(KeyError):
        way_of(work("juggle"))


def test_rows_hold_no_gap_but_the_named_ones():
    for way in WAYS:
        assert fields_in(way) <= set(FIELDS), way


def test_words_are_short_and_plain_and_give_no_sizes_of_their_own():
    for way in WAYS:
        assert len(way.how.split()) <= 25, way.how
        assert len(way.check.split()) <= 25, way.check
        assert len(way.title.split()) <= 9, way.title
        assert way.how.endswith("."), way
        assert way.check.endswith((".", "?")), way
        # one number is in: scarfs are printed as cut at 45 degrees (Ilgen 1912, s. 80)
        assert re.findall(r"\d+", way.how + way.check + way.tool) in ([], ["45"]), way


def test_a_cited_way_says_where_it_was_read():
    for way in WAYS:
        assert way.source.kind in (Kind.COMMON, Kind.HANDBOOK, Kind.MEMORY)
        assert way.source.kind is Kind.COMMON or way.source.where


def test_no_row_is_hidden_behind_a_wider_one_before_it():
    for i, way in enumerate(WAYS):
        for before in WAYS[:i]:
            same = before.does == way.does and before.when in ("", way.when)
            assert not (same and fields_in(before) <= fields_in(way)), (before, way)


@pytest.mark.parametrize(
    ("done", "says"),
    [
        (work("draw", after=ROUND, zone=(0.0, 0.1)), "eight sides"),
        (work("draw", after=OCTAGON, zone=(0.0, 0.1)), "four corners"),
        (work("draw", after=FLAT, zone=(0.0, 0.1)), "flatten"),
        (work("draw", after=HALF, zone=(0.0, 0.1)), "quarter turn"),
        (work("taper", after=ROUND, zone=(0.0, 0.1)), "eight sides"),
        (work("taper", after=POINT, zone=(0.0, 0.1)), "steep square point"),
        (work("taper", after=HALF, zone=(0.0, 0.1)), "steep"),
        (work("bend", before=HALF, amount=pi / 2, radius=0.003, hot=True), "over the edge"),
        (work("bend", before=HALF, amount=pi / 2, radius=0.03, hot=True), "over the horn"),
        (work("bend", amount=pi / 2, radius=0.03, case="wrap", with_pieces=("stem", "arm")), "turn beside turn"),
        (work("curl", radius=0.003, sheet=True), "Start the very edge"),
        (work("curl", radius=0.01), "bend it square"),
        (work("mark", sheet=True), "pattern"),
        (work("dish", sheet=True, hot=True), "Hot"),
        (work("dish", sheet=True), "anneal"),
        (work("brush", hot=True), "last heat"),
        (work("brush"), "corners"),
        (work("shoulder", case="tenon"), "monkey tool"),
    ],
)
def test_the_trade_does_it_otherwise_by_what_is_worked(done: Work, says: str):
    assert says.lower() in way_of(done).how.lower()


def test_every_gap_is_filled_from_the_work():
    twisted = work("twist", name="stem", amount=-1.5, zone=(0.1, 0.2))
    assert data_of(twisted) == {"name": "stem", "turns": 1.5, "length": pytest.approx(0.1)}
    eye = work("curl", name="eye", radius=0.01, amount=2 * pi)
    assert data_of(eye)["inside"] == pytest.approx(0.02)  # of an eye the width inside is measured
    assert data_of(work("bend", radius=0.01, amount=1.0)) == {"name": "arm", "inside": 0.01, "angle": 1.0}
    joined = work("rivet", amount=0.005, with_pieces=("bowl",))
    assert data_of(joined) == {"name": "arm", "size": 0.005, "other": ("bowl",)}
    assert fields_in(way_of(joined)) == {"name", "size", "other"}


def test_every_fault_hangs_on_an_operation_that_has_a_way():
    assert {f.operation for f in FAULTS} <= OPERATIONS
