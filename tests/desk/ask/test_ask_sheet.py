"""Questions about sheet, stock and measures: exact mathematics worked by hand, and faults that are found."""

import shlex
from math import pi, radians, sqrt, tan

import pytest

from bickern.cli.asking import answer_of
from bickern.desk.answer import Answer
from bickern.measure.units.words import FOOT, INCH, POUND

CLOSE = 1e-9
"""Share that ours may be off exact mathematics: rounding of the machine, some hundred times over."""


def figure(words: str, name: str, unit: str) -> float:
    answer = answer_of(words)
    assert not answer.stops, answer.findings
    found = answer.figure(name)
    assert found is not None, [f.name for f in answer.figures]
    assert found.unit == unit
    return found.value


def inches(words: str, name: str) -> float:
    return figure(words, name, "m") / INCH


def square_inches(words: str, name: str) -> float:
    return figure(words, name, "m2") / INCH**2


def cubic_inches(words: str, name: str) -> float:
    return figure(words, name, "m3") / INCH**3


def about(value: float) -> object:
    return pytest.approx(value, rel=CLOSE)


def test_cone_by_its_height():
    # 6 across and 4 high: 3-4-5, so the side is pi x 3 x 5, with the base pi x 9 more; a third of its box holds 12 pi
    assert inches("cone 6 0 4", "slant") == about(5)
    assert square_inches("cone 6 0 4", "side") == about(15 * pi)
    assert square_inches("cone 6 0 4", "whole surface") == about(24 * pi)
    assert cubic_inches("cone 6 0 4", "volume") == about(12 * pi)


def test_frustum_by_its_slant():
    # radii 9 and 3, slant 10: it moves in by 6, so it is 8 high; side pi x 12 x 10; pi x 8 x (81 + 27 + 9)/3 in it
    words = "cone 18 6 10 --slant"
    assert inches(words, "height") == about(8)
    assert square_inches(words, "side") == about(120 * pi)
    assert square_inches(words, "whole surface") == about(210 * pi)
    assert cubic_inches(words, "volume") == about(312 * pi)


def test_a_cone_told_upside_down_is_turned_over():
    right, turned = answer_of("cone 18 6 8"), answer_of("cone 6 18 8")
    assert right.figures == turned.figures
    assert not turned.findings


def test_pattern_of_a_thick_cone_is_that_of_its_middle():
    # a wall at 3-4-5: half of 0.5 square to it moves each radius out by 0.25 x 4/5, so the radii are 6.2 and 3.2 and
    # its middle is 9.4 x 5 x pi; what it holds is told of the inside
    words = "cone 12 6 4 --sizes inside --sheet '0.50 in'"
    assert square_inches(words, "side") == about(pi * 9.4 * 5)
    assert cubic_inches(words, "volume") == about(pi * 4 * (36 + 18 + 9) / 3)
    assert cubic_inches(words, "holds, level full") == about(pi * 4 * (36 + 18 + 9) / 3)


def test_square_pyramid():
    # 6 square, 4 high: each side is 5 up its middle, four triangles of 6 x 5 / 2; 36 x 4 / 3 in it
    words = "pyramid 4 6 0 4"
    assert inches(words, "slant in the middle of a side") == about(5)
    assert square_inches(words, "side") == about(60)
    assert square_inches(words, "whole surface") == about(96)
    assert cubic_inches(words, "volume") == about(48)


def test_hexagon_by_its_sides_and_slant():
    # sides 2 and 4 up the middle of each: six triangles of 4; hexagon 6 x sqrt(3); 16 - 3 under the root for the height
    words = "pyramid 6 2 0 4 --of sides --slant"
    assert inches(words, "height") == about(sqrt(13))
    assert inches(words, "length of a corner") == about(sqrt(17))
    assert square_inches(words, "side") == about(24)
    assert square_inches(words, "whole surface") == about(24 + 6 * sqrt(3))
    assert cubic_inches(words, "volume") == about(6 * sqrt(3) * sqrt(13) / 3)


def test_square_by_its_corners_is_smaller_by_root_two():
    assert inches("pyramid 4 10 0 5 --of corners", "side at the base") == about(10 / sqrt(2))


def test_rectangle_to_rectangle():
    # 16 x 22 to 10 x 10, 4 high: runs of 3 and 6, so 5 up a long side, sqrt(52) up an end, sqrt(61) up a corner; sides
    # (22 + 10) x 5 + (16 + 10) x sqrt(52); level with the middle 13 x 16, so 4/6 x (352 + 4 x 208 + 100) in it
    words = "pyramid 4 16 10 4 --long 22 10"
    assert inches(words, "slant in the middle of a side") == about(5)
    assert inches(words, "slant in the middle of an end") == about(sqrt(52))
    assert inches(words, "length of a corner") == about(sqrt(61))
    assert square_inches(words, "side") == about(160 + 26 * sqrt(52))
    assert cubic_inches(words, "volume") == about(4 / 6 * (352 + 832 + 100))
    assert answer_of("pyramid 4 10 16 4 --long 10 22").figures == answer_of(words).figures


def test_pipe_square_at_both_ends():
    words = "pipe 4 10"
    assert inches(words, "round, length flat") == about(4 * pi)
    assert square_inches(words, "side") == about(40 * pi)
    assert square_inches(words, "whole surface") == about(48 * pi)
    assert cubic_inches(words, "volume") == about(40 * pi)


def test_pipe_cut_slanting():
    # 6 across cut at 45 degrees: 3 up and 3 down from 20 in the middle; the cut end is an ellipse of pi x 3 x 3 sqrt(2)
    words = "pipe 6 20 --cut 45"
    assert inches(words, "height at the short side") == about(17)
    assert inches(words, "height at the long side") == about(23)
    assert square_inches(words, "side") == about(120 * pi)
    assert square_inches(words, "whole surface") == about(120 * pi + 9 * pi + 9 * sqrt(2) * pi)


def test_pipe_of_told_inside_is_laid_out_by_its_middle():
    assert inches("pipe 4 10 --sizes inside --sheet 1/4", "round, length flat") == about(4.25 * pi)


def test_half_a_ball():
    # 10 across, 5 deep: the skin is 2 pi 25, a disc of radius sqrt(50); two thirds of pi 125 in it
    words = "bowl 10 5"
    assert inches(words, "radius of the ball") == about(5)
    assert inches(words, "disc") == about(2 * sqrt(50))
    assert square_inches(words, "side") == about(50 * pi)
    assert cubic_inches(words, "volume") == about(250 * pi / 3)


def test_cap_of_a_ball():
    # rim of radius 4, 2 deep: (16 + 4)/4 is a ball of radius 5, so its skin is 2 pi x 5 x 2; pi 2^2 (15 - 2)/3 in it
    words = "bowl 8 2"
    assert inches(words, "radius of the ball") == about(5)
    assert square_inches(words, "side") == about(20 * pi)
    assert cubic_inches(words, "volume") == about(52 * pi / 3)


def test_pan_of_outside_sizes():
    # r = t = 2 mm: k is 0.65, so a fold takes pi/2 x 2.65 mm and 8 less that is taken off; four walls, two each way
    words = "pan 300 200 50 --units mm --sheet 2 --radius 2 --sizes outside"
    off = 8 - pi / 2 * 2.65
    assert figure(words, "bend deduction, each fold", "m") * 1000 == about(off)
    assert figure(words, "flat, left to right", "m") * 1000 == about(200 + 100 - 2 * off)
    assert figure(words, "flat, front to back", "m") * 1000 == about(300 + 100 - 2 * off)


def test_pan_of_inside_sizes_is_larger_by_its_walls():
    # each wall is a sheet further out and a sheet higher: four thicknesses more each way
    words = "pan 300 200 50 --units mm --sheet 2 --radius 2 --sizes"
    wider = figure(f"{words} inside", "flat, left to right", "m") - figure(
        f"{words} outside", "flat, left to right", "m"
    )
    assert wider * 1000 == about(8)


def test_bend_by_every_rule():
    # 90 degrees of 2 mm round 3 mm. DIN: k = 0.65 + 0.5 log10 1.5; the handbook prints 0.64 T + 1.57 R
    words = "bend 2 90 3 --units mm"
    assert figure(words, "DIN 6935", "m") * 1000 == pytest.approx(pi / 2 * (3 + 0.738046), rel=1e-6)
    assert figure(words, "middle", "m") * 1000 == about(2 * pi)
    assert figure(words, "Machinery's Handbook, soft steel", "m") * 1000 == about(0.64 * 2 + 1.57 * 3)
    assert figure(words, "length in the bend", "m") == figure(words, "DIN 6935", "m")


def test_bend_by_a_line_of_ones_own():
    # the line lies 3 + 0.4 x 2 out; the outsides meet 5 tan 30 from where the bend starts
    words = "bend 2 60 3 --line 0.4 --units mm"
    assert figure(words, "length by the line", "m") * 1000 == about(pi / 3 * 3.8)
    assert figure(words, "setback", "m") * 1000 == about(5 / sqrt(3))
    assert figure(words, "take off by the line", "m") * 1000 == about(10 / sqrt(3) - pi / 3 * 3.8)


def test_bend_past_a_right_angle():
    # 120 degrees: the outsides meet 5 tan 60 out, while a rule stood against the bend measures to 5
    words = "bend 2 120 3 --line 0.5 --units mm"
    assert figure(words, "take off by the line", "m") * 1000 == about(2 * 5 * tan(radians(60)) - 2 / 3 * pi * 4)
    over = figure(words, "take off, sizes over the bend", "m") - figure(
        words, "take off the sum of both outside sizes", "m"
    )
    assert over * 1000 == about(10 - 10 * sqrt(3))


def test_bend_right_back_meets_nowhere():
    names = {f.name for f in answer_of("bend 1/16 180 1/8").figures}
    assert "length in the bend" in names
    assert not names & {"setback", "take off the sum of both outside sizes"}


def test_line_outside_of_the_sheet_is_told():
    assert answer_of("bend 1/16 90 1/8 --line 1.2").stops


@pytest.mark.parametrize(
    ("words", "added"),
    [
        ("edge wired 1/8", 5 / 16),  # US Navy, NAVEDTRA 14251 Steelworker vol. 2, 1996: 2 1/2 diameters of the wire
        ("edge hem 1/4", 1 / 4),
        ("edge 'double hem' 1/4", 1 / 2),
        ("edge grooved 1/4", 3 / 4),  # three widths of the seam
    ],
)
def test_what_an_edge_adds(words: str, added: float):
    assert inches(words, "added") == about(added)


def test_grooved_seam_is_shared():
    assert inches("edge grooved 1/4", "on the one edge") == about(3 / 8)


def test_plate_weighs_its_volume():
    # a square foot of 1/4 at 480 lb a cubic foot: a forty-eighth of that
    words = "plate 1/4 12 12 --density '480 lb/ft3'"
    assert figure(words, "weighs", "kg") / POUND == about(10)
    assert figure(words, "weight an area", "kg/m2") / POUND * FOOT**2 == about(10)
    assert inches(words, "thickness") == about(0.25)


def test_disc_with_a_hole():
    assert square_inches("plate 1/4 10 6 --disc", "area") == about(16 * pi)
    assert square_inches("plate 1/4 10 0 --disc", "area") == about(25 * pi)


def test_weight_of_a_bar():
    # an inch square and 3 ft long at 480 lb a cubic foot is 36 cubic inches of 1728: 10 lb
    words = "weight '1 sq' 36 --density '480 lb/ft3'"
    assert figure(words, "weighs", "kg") / POUND == about(10)
    assert figure(words, "weight a length", "kg/m") / POUND * FOOT == about(10 / 3)
    assert cubic_inches(words, "volume") == about(36)
    assert inches("weight '1 rd' 36", "girth") == about(pi)


def test_what_cannot_be_forged_can_be_weighed():
    assert answer_of("weight '1 sq' 36 --steel 'cast iron'").figures


def test_gauge_weighs_by_its_thickness_and_by_its_standard():
    # 16 ga is 40 oz a square foot by the US standard; 0.0598 in of steel at 7850 kg/m3
    assert figure("gauge 16", "US, weight by its standard", "kg/m2") / POUND * FOOT**2 == about(2.5)
    assert figure("gauge 16", "galvanised, weight by its standard", "kg/m2") / POUND * FOOT**2 == about(42.5 / 16)
    assert figure("gauge 16", "US, weight an area", "kg/m2") == about(0.0598 * INCH * 7850)
    assert answer_of("gauge 16").figure("AWG, weight an area") is None  # copper and brass


@pytest.mark.parametrize(
    ("words", "name", "value", "unit"),
    [
        ("3 ft 7 1/2 in", "length", 43.5 * INCH, "m"),
        ("2 lb 3 oz", "mass", 35 / 16 * POUND, "kg"),
        ("90 deg", "angle", pi / 2, "rad"),
        ("1/4 turn", "angle", pi / 2, "rad"),
        ("212 F", "temperature", 373.15, "K"),
        ("144 in2", "area", FOOT**2, "m2"),
        ("144 sq in", "area", FOOT**2, "m2"),
        ("2 gal(US)", "volume", 462 * INCH**3, "m3"),
        ("128 US fl oz", "volume", 231 * INCH**3, "m3"),
        ("2 1/2 lb/sq ft", "weight an area", 2.5 * POUND / FOOT**2, "kg/m2"),
        ("7.85 g/cm3", "density", 7850.0, "kg/m3"),
        ("1 1/2 lb/ft", "weight a length", 1.5 * POUND / FOOT, "kg/m"),
    ],
)
def test_convert_knows_every_measure(words: str, name: str, value: float, unit: str):
    assert figure(f"convert {shlex.quote(words)}", name, unit) == about(value)


def test_convert_says_heats_and_weights_in_both_systems():
    assert dict(answer_of("convert '1450 F'").rows)["Celsius"] == "787.778"
    assert dict(answer_of("convert '1 kg'").rows)["pounds"] == "2.20462"


def faults(answer: Answer) -> set[str]:
    assert not answer.rows
    return {f.name for f in answer.findings if f.stops}


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("cone 4 4 5", "cone-upside-down"),
        ("cone 4 0 0", "no-height"),
        ("cone 4 0 1 --slant", "slant-too-short"),
        ("cone 4 0 2 --slant", "slant-too-short"),  # it lies flat
        ("pyramid 2 4 0 5", "count-out-of-range"),
        ("pyramid 4 0 0 5", "size-not-positive"),
        ("pyramid 5 4 2 3 --long 6 3", "no-rectangle"),
        ("pyramid 4 4 2 3 --long 6", "no-rectangle"),
        ("pyramid 4 4 2 3 --long 6 nought", "not-a-size"),
        ("pipe 6 1 --cut 60", "cut-too-steep"),
        ("pipe 0 5", "size-not-positive"),
        ("bowl 4 0", "no-height"),
        ("pan 4 4 1/32", "wall-too-low"),
        ("bend 1/16 1/16 90", "angle-next-to-nothing"),
        ("bend 1/16 0 1/8", "zero-angle"),
        ("edge hem 0", "edge-without-size"),
        ("plate 1/4 0 12", "size-not-positive"),
        ("plate 1/4 10 10 --disc", "hole-off-plate"),
        ("weight '1 sq' 0", "no-length"),
        ("convert '5 furlongs'", "no-such-unit"),
        ("convert '50 %'", "nothing-to-convert"),
        ("convert '-460 F'", "temperature-out-of-range"),
        ("convert '1/0 lb'", "zero-denominator"),
    ],
)
def test_what_cannot_be_made_is_told(words: str, name: str):
    assert name in faults(answer_of(words))
