"""What is told of fit, swing and hang: both systems, the low side, and nothing that reads as a load rating."""

import math
import re
from dataclasses import replace

import pytest

from bickern.measure.units.words import INCH, Style, System
from bickern.paper.sheets.fit_words import fit_cells, needs_has, swing_says
from bickern.paper.sheets.hang_words import change_rows, change_says, tilt_says
from bickern.parts.fit.result import FitRow, FitWord, Swing
from bickern.parts.hang.result import Change, HangResult, Tilt
from bickern.parts.joint.spec import JointKind, JointSpec

INCHES, MILLIMETRES = Style(), Style(first=System.MM)
JOINT = JointSpec(JointKind.RING, ("boss.hole",), ring="ring")
SAYS = "9/16 drift: swings; 1/2: jams by 1/32"


def fit_row(needed: float, has: float, word: FitWord = FitWord.FREE) -> FitRow:
    """A ring in a hole, sizes told in inches."""
    needed, has = needed * INCH, has * INCH
    return FitRow(JOINT, "ring through boss.hole", "the hole", word, needed, has, has - needed, SAYS)


def swing(
    low: float, high: float, touches: tuple[str, str] = ("", ""), clearance: float = 0.0, near: str = ""
) -> Swing:
    """A ring that turns between two angles [degrees]."""
    about = ((0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    return Swing("links 1", "to and fro", *about, math.radians(low), math.radians(high), *touches, clearance, near)


def tilt(angle: float, off: str = "level", toward: str = "left end low", band: tuple[float, float] = (0, 0)) -> Tilt:
    """A side of the triangle, angles told in degrees."""
    return Tilt(0, "triangle, bottom", off, math.radians(angle), toward, *(math.radians(one) for one in band))


def test_a_fit_is_told_in_64ths_thousandths_and_millimetres():
    what, word, sizes, says = fit_cells(fit_row(0.528, 0.5625), INCHES)
    assert (what, word) == ("ring through boss.hole: the hole", "free")
    assert sizes == "needs 17/32 in (.528) / 13.4 mm, has 9/16 in (.563) / 14.3 mm"
    assert says == f"1/32 in (.035) / 0.9 mm to spare; {SAYS}"


def test_a_margin_that_is_told_already_is_not_told_again():
    row = replace(fit_row(0.528, 0.5625), says="two wires at once: 1/32 in (.035) / 0.9 mm to spare")
    assert fit_cells(row, INCHES)[3] == row.says


def test_a_shop_that_measures_in_millimetres_is_told_them_first():
    assert fit_cells(fit_row(0.5, 0.5 + 2 / 25.4), MILLIMETRES)[3].startswith("2 mm / 5/64 in (.079) to spare")


def test_what_jams_is_told_as_too_little_and_never_negative():
    spare = fit_cells(fit_row(0.528, 0.5, FitWord.NO), INCHES)[3]
    assert spare.startswith("1/32 in (.028) / 0.7 mm")
    assert "too little" in spare
    assert "-" not in spare


def test_no_sizes_are_told_where_none_are_compared():
    assert needs_has(fit_row(0.0, 0.0), INCHES) == ""


def test_a_swing_says_how_far_and_what_it_meets():
    says = swing_says(swing(-70, 110, ("arm", "hood (with tray)"), 0.002, "post 1"), INCHES)
    assert says == (
        "70° one way until it meets the arm; 110° the other until the tray meets the hood; "
        "nearest on the way: 5/64 in (.079) / 2 mm from post 1"
    )


def test_on_a_wall_the_ways_have_names():
    """About y, what hangs below goes by a positive angle along y x down, which is -x: toward the wall."""
    about_y = replace(swing(-70, 110, ("arm", "palm")), axis=(0.0, 1.0, 0.0))
    assert swing_says(about_y, INCHES, on_wall=True) == (
        "70° away from the wall until it meets the arm; 110° toward the wall until it meets the palm"
    )
    about_x = swing(-70, 110, ("arm", "palm"))
    assert swing_says(about_x, INCHES, on_wall=True) == (
        "70° to the left (facing the wall) until it meets the arm; 110° to the right until it meets the palm"
    )


def test_wide_room_on_the_way_is_not_worth_a_word():
    assert "nearest" not in swing_says(swing(-70, 110, ("arm", "hood"), 0.02, "post 1"), INCHES)


def test_degrees_are_whole_and_none_too_many():
    assert swing_says(swing(-70.8, 70.95, ("arm", "arm")), INCHES).startswith("70° one way until it meets the arm; 71°")


def test_a_swing_alike_on_both_sides_is_told_once():
    assert swing_says(swing(-70, 70, ("arm", "arm")), INCHES) == "70° either way until it meets the arm"


def test_what_meets_nothing_goes_right_round():
    assert swing_says(swing(-180, 180), INCHES) == "goes right round"


def test_a_tilt_says_its_angle_and_its_low_side():
    assert tilt_says(tilt(0.7), INCHES) == "tips 0.7° off level: left end low"
    assert tilt_says(tilt(39.8, "plumb", "tip toward the wall"), INCHES).startswith("hangs 39.8° off plumb: tip toward")


def test_what_no_level_shows_is_level():
    assert tilt_says(tilt(0.04), INCHES) == "lies level"
    assert tilt_says(tilt(0.04, "plumb"), INCHES) == "hangs plumb"


@pytest.mark.parametrize(
    ("band", "says"), [((26.6, 52.0), "from 26.6° to 52°"), ((-2.0, 3.0), "from 2° the other way to 3°")]
)
def test_the_band_of_friction_is_told(band: tuple[float, float], says: str):
    assert f"; friction can hold it {says}" in tilt_says(tilt(39.8, band=band), INCHES)


def test_a_change_says_the_tilt_and_the_drop():
    change = Change("one ring more", (tilt(0.0, "plumb"),), 0.0254)
    assert change_says(change, (tilt(5.0, "plumb"),), INCHES) == "triangle, bottom hangs plumb; 1 in (25.5 mm) lower"
    assert change_says(Change("one ring fewer", (), -0.0254), (), INCHES) == "1 in (25.5 mm) higher"
    assert change_says(Change("one ring fewer", ()), (), INCHES) == "the tilt stays"


def test_a_change_tells_only_what_is_changed():
    before = (tilt(5.0),)
    assert change_says(Change("filed", (tilt(5.0),)), before, INCHES) == "the tilt stays"
    assert change_says(Change("filed", (tilt(6.0),)), before, INCHES) == "triangle, bottom tips 6° off level"
    other = Change("filed", (tilt(6.0, toward="right end low"),))
    assert change_says(other, before, INCHES) == "triangle, bottom tips 6° off level: right end low"


def test_one_more_ring_says_once_how_much_lower():
    change = Change("one ring more in links: what is below lies a quarter turn round", (), 1.75 * INCH)
    rows = change_rows(HangResult((), (), (), (change,), 0.5, 0.0), INCHES)
    assert rows == (("one ring more in links", "what is below lies a quarter turn round and 1 3/4 in (44.5 mm) lower"),)


def test_a_side_that_has_no_name_is_not_told():
    assert tilt_says(tilt(2.0, "plumb", ""), INCHES) == "hangs 2° off plumb"


def test_of_a_bowl_it_is_told_how_its_rim_lies():
    """A bowl's axis that hangs so far off plumb has its rim as far off level."""
    told = tilt_says(tilt(53.4, "plumb", "the side away from the handle is low"), INCHES, rim=True)
    assert told == "its rim lies 53.4° off level: the side away from the handle is low"
    assert tilt_says(tilt(0.04, "plumb"), INCHES, rim=True) == "its rim lies level"


def test_play_is_not_told_as_a_swing():
    assert swing_says(swing(-1.2, 0.3, ("boss", "boss")), INCHES) == "hardly at all until it meets the boss"
    assert swing_says(swing(-1.2, 4, ("boss", "boss")), INCHES).startswith("1° one way")


def test_what_it_comes_up_against_is_not_told_again_as_near():
    assert "nearest" not in swing_says(swing(-70, 70, ("the wall", "arm"), 0.001, "the wall"), INCHES)


def test_numbered_pieces_have_no_article():
    assert swing_says(swing(-70, 70, ("links 2", "links 2")), INCHES).endswith("until it meets links 2")


def test_a_comma_shop_reads_commas():
    comma = Style(first=System.MM, comma=True)
    told = [
        fit_cells(fit_row(0.5, 0.53), comma)[3],
        swing_says(swing(-70.5, 0, ("a", "b")), comma),
        tilt_says(tilt(0.7), comma),
    ]
    assert not [one for one in told if re.search(r"\d\.\d+ ?(mm|°)", one)]
