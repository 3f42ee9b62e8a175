"""Rectangles side by side: nests known to exist because the sheet was cut into them."""

import math

import pytest

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.nest import nest
from bickern.geometry.pack.shapes.squared import squared
from bickern.geometry.polygon import disc, moved, rectangle

PLANTED = {
    "a grid": ((1.0, 0.5), 0.0, [(0.25, 0.25, 8)]),
    "strips": ((0.5, 0.5), 0.0, [(0.5, 0.05, 10)]),
    "with gap and margin": ((0.209, 0.209), 0.003, [(0.1, 0.1, 4)]),
    "turned ones beside upright ones": ((0.5, 0.3), 0.0, [(0.3, 0.2, 1), (0.1, 0.3, 1), (0.2, 0.3, 1)]),
}


@pytest.mark.parametrize("name", PLANTED)
@pytest.mark.parametrize("slant", [0.0, 0.3])
def test_a_sheet_cut_into_rectangles_is_filled_again(name: str, slant: float):
    (wide, tall), gap, sizes = PLANTED[name]
    parts = [Part(f"p{n}", moved(rectangle(w, t), 0.7, -0.2, slant), (), many) for n, (w, t, many) in enumerate(sizes)]
    sheet, spacing = Remnant("s", rectangle(wide, tall, (2.0, 3.0)), cost=5.0), Spacing(gap, gap)
    made = nest(parts, [sheet], spacing)
    assert not made.short
    assert made.cost == 5.0
    assert faults_of(made, parts, [sheet], spacing) == ()


def test_the_cheapest_sheet_that_takes_all_is_cut():
    parts = [Part("p", rectangle(0.1, 0.1), (), 4)]
    sheets = [Remnant("dear", rectangle(0.2, 0.2), cost=9.0), Remnant("cheap", rectangle(1.0, 1.0), cost=2.0)]
    made = squared(parts, sheets, Spacing())
    assert made is not None
    assert {one.remnant for one in made.laid} == {"cheap"}
    assert made.cost == 2.0


def test_what_no_one_sheet_takes_is_shared_out():
    parts = [Part("p", rectangle(0.1, 0.1), (), 3)]
    sheets = [Remnant("a", rectangle(0.2, 0.1), cost=1.0), Remnant("b", rectangle(0.1, 0.1), cost=1.0)]
    made = squared(parts, sheets, Spacing())
    assert made is not None
    assert {one.remnant for one in made.laid} == {"a", "b"}


@pytest.mark.parametrize(
    ("parts", "why"),
    [
        ([Part("p", disc(0.05))], "a disc is no rectangle"),
        ([Part("p", rectangle(0.1, 0.1), (), 7)], "one too many"),
        ([Part("p", rectangle(0.3, 0.1), (), 1, (math.pi / 4,))], "it may lie only askew"),
        ([Part("p", rectangle(0.1, 0.3), (), 1, (0.0,))], "it may not be turned"),
    ],
)
def test_what_does_not_go_so_is_left_to_the_search(parts: list[Part], why: str):
    assert squared(parts, [Remnant("s", rectangle(0.3, 0.2))], Spacing()) is None, why


def test_no_odd_sheet_is_taken_for_its_box():
    holed = Remnant("s", rectangle(0.3, 0.3), (rectangle(0.1, 0.1, (0.1, 0.1)),))
    assert squared([Part("p", rectangle(0.1, 0.1))], [holed], Spacing()) is None
