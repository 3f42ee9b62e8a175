"""Against H. P. Manly, Oxy-Acetylene Welding and Cutting, 1916, forge chapter.

Kind: book. Read in the source: 3 1/7 times the hole, which is short by pi thicknesses; one of the disagreeing rules,
and ours was copied from it.
"""

import pytest
from chosen import answer_by, inches_by, reckoned_by
from shelf import Printed, book

from bickern.measure.units.words import INCH
from bickern.parts.bar.result import BarResult


@book("manly")
def test_figure(row: Printed) -> None:
    row.holds()


def test_a_ring_by_the_shops_choice_of_the_hole():
    """P. 67 (read): 3 1/7 x 3 = 9.42857 for a ring or an eye of 3 inside; transcribed. What it makes is ours, exact."""
    by_hole = "rings: {length: 3 1/7 x the hole}"
    answer = answer_by(by_hole, "ring '1/2 rd' 3")
    assert inches_by(by_hole, "ring '1/2 rd' 3", "cut") == pytest.approx(9.42857, abs=5e-6)
    (small,) = [f for f in answer.findings if f.name == "ring-comes-small"]
    assert "comes out 2 1/2 in" in small.says
    assert inches_by(by_hole, "ring '1/2 rd' 3", "inside across") == pytest.approx(3)


def test_an_eye_by_the_shops_choice_of_the_hole():
    """P. 67 (read): a ring or an eye in the end of a bar, 3 1/7 x the hole; transcribed."""
    pieces = "  hook: {bar: 1/2 rd, steel: S235JR, metal: [{keep: rest}], path: [{eye: 3, turn: left}, {straight: 2}]}"
    done = reckoned_by("bars: {eye: 3 1/7 x the hole}", pieces)
    assert done.copy is not None
    (hook,) = done.copy.pieces
    assert isinstance(hook, BarResult)
    assert hook.length / INCH - 2 == pytest.approx(9.42857, abs=5e-6)
    assert [f.name for f in done.findings if "the hole" in f.says] == ["eye-comes-small"]
