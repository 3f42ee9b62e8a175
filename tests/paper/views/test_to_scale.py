"""At one scale nothing gives way, so lettering must: no words cover others, however small the room."""

from itertools import combinations, pairwise
from pathlib import Path

import pytest

import bickern.book.examples
from bickern.desk.reckon import reckon_file
from bickern.measure.units.words import Style
from bickern.paper.marks import Drawing, Text, around, bounds
from bickern.paper.views.scale import SCALES
from bickern.paper.views.to_scale import Room, bent_to_scale, drawn_to_scale, laid_out, stock_to_scale
from bickern.parts.bar.result import BarResult

ROOMS = (Room(0.3, 0.2), Room(0.2, 0.12), Room(0.09, 0.09), Room(0.06, 0.06))
TOUCH = 0.0003
"""Metres that boxes of words may share: the room kept for a line is wider than its letters."""
JOBS = sorted(Path(bickern.book.examples.__path__[0]).glob("*.yaml"))


def bars() -> list[BarResult]:
    copies = [reckon_file(job).copy for job in JOBS if job.stem != "forge-hood"]
    return [piece for copy in copies if copy is not None for piece in copy.pieces if isinstance(piece, BarResult)]


BARS = bars()


def covered(picture: Drawing) -> list[tuple[str, str]]:
    words = [(mark.says, bounds([mark])) for mark in picture.marks if isinstance(mark, Text)]
    return [
        (one, other)
        for (one, a), (other, b) in combinations(words, 2)
        if min(a.right, b.right) - max(a.left, b.left) > TOUCH and min(a.top, b.top) - max(a.bottom, b.bottom) > TOUCH
    ]


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: f"{room.wide * 1000:.0f}mm")
@pytest.mark.parametrize("bar", BARS, ids=lambda bar: bar.spec.name)
def test_no_words_cover_others(bar: BarResult, room: Room) -> None:
    for drawn in (stock_to_scale(bar, room, Style()), drawn_to_scale(bar, room, Style())):
        assert covered(drawn.drawing) == []
        assert drawn.scale in SCALES or drawn.scale < SCALES[-1]


@pytest.mark.parametrize("bar", BARS, ids=lambda bar: bar.spec.name)
def test_the_room_chooses_the_scale_and_a_larger_room_never_a_smaller_one(bar: BarResult) -> None:
    scales = [laid_out(bar).scale(room) for room in ROOMS]
    assert all(one >= other for one, other in pairwise(scales))
    assert laid_out(bar).scale(Room(0.01, 0.01, 1.0)) == 1.0


@pytest.mark.parametrize("bar", BARS, ids=lambda bar: bar.spec.name)
def test_a_finished_bar_as_drawn_is_as_large_as_it_was_laid_out(bar: BarResult) -> None:
    laid = laid_out(bar)
    for number in range(len(laid.sides)):
        half, full = (bent_to_scale(bar, scale, Style(), number).drawing for scale in (0.5, 1.0))
        lines = [around([bounds([m]) for m in one.marks if not isinstance(m, Text)]) for one in (half, full)]
        assert lines[0].width < lines[1].width
