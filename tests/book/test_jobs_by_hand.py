"""Jobs as a smith writes them, from the text to the length to cut, against arithmetic done by hand beside each.

Every figure is exact mathematics: a bend takes angle x (inside radius + half the bar), a taper of one shape holds
L/3 (A1 + A2 + sqrt(A1 A2)), and the bar is as long as its metal over its own area. No scale and no kerf.
"""

from math import pi, sqrt

import pytest

from bickern.book.job.read import read_job
from bickern.iron.steel import density_of
from bickern.measure.units.words import INCH
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BarSpec

BARE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0))
MM = 0.001


def bar(text: str, units: str = "in", name: str = "p") -> BarResult:
    """The piece `p` of a job that has these words in it."""
    job, found = read_job(f"job: t\nunits: {units}\npieces:\n  p: {text}\n", "t")
    assert [f for f in found if f.stops] == [], found
    spec = job.piece(name) if job is not None else None
    assert isinstance(spec, BarSpec)
    read = reckon_bar(spec, BARE, density_of("mild"))
    assert read.value is not None, read.findings
    assert [f for f in read.findings if f.stops] == [], read.findings
    return read.value


def taper(long: float, one: float, two: float) -> float:
    """Frustum of one shape between two areas."""
    return long / 3 * (one + two + sqrt(one * two))


ROUND = pi / 4

# Each: the words, and (length along the bar, length of stock) in the job's own unit, reckoned by hand.
CASES = {
    # 3 eyes' worth: eye pi (3/4 + 3/8) + 5 straight + quarter bend pi/2 (3/8 + 3/16) + 1 1/2; no taper.
    "hoof pick": (
        "{bar: 3/8 rd, metal: [{keep: rest}], path: [{eye: 3/4}, {straight: 5}, "
        "{bend: 90, inside radius: 3/8}, {straight: 1 1/2}]}",
        (pi * 1.125 + 5 + pi / 2 * 0.5625 + 1.5,) * 2,
    ),
    # Head 3/8 x 1/8 x 3/8, shank 1/4 sq to 1/16 sq over 2; areas 3/64, 1/16, 1/256.
    "nail": (
        "{bar: 1/4 sq, metal: [{as: 3/8 x 1/8, over: 3/8}, {from: 1/4 sq, to: 1/16 sq, over: 2}]}",
        (2.375, (3 / 64 * 3 / 8 + taper(2, 1 / 16, 1 / 256)) / (1 / 16)),
    ),
    # Two points of 1 (a third each), legs of 1 1/2, half circle of 5/16 inside: pi (5/16 + 3/16) = pi/2.
    "staple": (
        "{bar: 3/8 sq, metal: [{from: point, to: 3/8 sq, over: 1}, {keep: rest}, {to: point, over: 1}], "
        "path: [{straight: 1 1/2}, {bend: 180, inside radius: 5/16}, {straight: 1 1/2}]}",
        (3 + pi / 2, 3 + pi / 2 - 2 + 2 / 3),
    ),
    # Knob 1 1/2 rd x 1 1/2 upset from 1 sq, 16 of bar; the leg's bend lies in that, so it changes no length.
    "fire dog with an upset knob": (
        "{bar: 1 sq, metal: [{as: 1 1/2 rd, over: 1 1/2}, {from: 1 sq, over: 16}], "
        "path: [{straight: rest}, {bend: 60, inside radius: 1, turn: up}, {straight: 4}]}",
        (17.5, ROUND * 2.25 * 1.5 + 16),
    ),
    # Four square corners, inside legs 10 in all: each corner is a block of 1/2, and one weld of a thickness.
    "square-corner frame": (
        "{bar: 1/2 sq, closed: welded, metal: [{keep: rest}], path: [{straight: 5}, {corner: 90}, {straight: 10}, "
        "{corner: 90}, {straight: 10}, {corner: 90}, {straight: 10}, {corner: 90}, {straight: 5}]}",
        (42, 42),
    ),
    # Eyes easy way: pi (1/2 + 1/4) each.
    "strap hinge with two eyes": (
        "{bar: 1 1/4 x 1/4, metal: [{keep: rest}], path: [{eye: 1/2, centred: no, turn: up}, {straight: 10}, "
        "{eye: 1/2, centred: no, turn: down}]}",
        (10 + 2 * pi * 0.75,) * 2,
    ),
    # An upset corner: bend about 1/8 inside, 1/2 thick: pi/2 (1/8 + 1/4), and 1/4 of the thickness more.
    "square angle with an upset corner": (
        "{bar: 1 x 1/2, metal: [{keep: rest}], path: [{straight: 4 1/2}, "
        "{corner: 90, forged: upset, inside radius: 1/8}, {straight: 4 1/2}]}",
        (9 + pi / 2 * 0.375 + 0.125,) * 2,
    ),
    # The longest straight, 10, is reached with metal to spare: 12 = run + 2 (1/2 + 1/2); 5 = leg + 1.
    "two overall sizes": (
        "{bar: 1/2 sq, metal: [{keep: rest}], path: [{straight: 3, name: leg}, {bend: 90, inside radius: 1/2}, "
        "{straight: 6, name: run}, {bend: 90, inside radius: 1/2}, {straight: 3}], "
        "overall: [{reach: 12, by: run}, {across: 5, by: leg}]}",
        (4 + 10 + 3 + pi * 0.75,) * 2,
    ),
    # Tongs: jaw 3/4 x 3/8 x 2, boss 1 1/8 x 3/8 x 1 1/8, rein 1/2 rd to 5/16 rd over 14, of 3/4 rd.
    "tongs": (
        "{bar: 3/4 rd, metal: [{as: 3/4 x 3/8, over: 2}, {as: 1 1/8 x 3/8, over: 1 1/8, offset: [3/16, 0]}, "
        "{from: 1/2 rd, to: 5/16 rd, over: 14}]}",
        (
            17.125,
            (0.75 * 0.375 * 2 + 1.125**2 * 0.375 + ROUND * taper(14, 0.25, 25 / 256)) / (ROUND * 0.5625),
        ),
    ),
    # Hexagon 1/2 across flats keeps 6, then a point over 1 holds a third; octagon the same.
    "hexagon punch": ("{bar: 1/2 hex, metal: [{keep: 6}, {to: point, over: 1}]}", (7, 6 + 1 / 3)),
    "octagon punch": ("{bar: 1/2 oct, metal: [{keep: 6}, {to: point, over: 1}]}", (7, 6 + 1 / 3)),
    # A leaf of two parabolas holds 2/3 of its rectangle: 2/3 x 3 x 2 x 1/16 = 1/4, of a bar of 2 x 1/8.
    "drip pan leaf": ("{bar: 2 x 1/8, metal: [{leaf: 3, width: 2, thick: 1/16}]}", (3, 1)),
    # Half-round with its flat inside: the metal's middle is 4/(3 pi) x 3/8 over the inside radius of 3.
    "half-round hoop": (
        "{bar: 3/4 half rd, closed: butted, metal: [{keep: rest}], path: [{hoop: {inside across: 6}}]}",
        (2 * pi * (3 + 4 / (3 * pi) * 0.375),) * 2,
    ),
    # ... and told to bend up, the flat outside: 3 + 3/8 less that.
    "half-round hoop, flat outside": (
        "{bar: 3/4 half rd, closed: butted, metal: [{keep: rest}], path: [{hoop: {inside across: 6}, turn: up}]}",
        (2 * pi * (3.375 - 4 / (3 * pi) * 0.375),) * 2,
    ),
    # Split in two tines of 4, each from 1/8 x 1/4 to 1/16 sq: a blend of straight edges, Simpson's rule is exact:
    # 4/6 (1/32 + 4 x 3/32 x 5/32 + 1/256), off a bar of 3/8 sq drawn to 1/4 sq over 12.
    "toasting fork": (
        "{bar: 3/8 sq, metal: [{as: 3/8 sq, over: 3}, {to: 1/4 sq, over: 12}], split: {left tine: "
        "{metal: [{to: 1/16 sq, over: 4}]}, right tine: {like: left tine, mirror: yes}}}",
        (15, (9 / 64 * 3 + taper(12, 9 / 64, 1 / 16) + 2 * 4 / 6 * (1 / 32 + 60 / 1024 + 1 / 256)) / (9 / 64)),
    ),
    # A metre, and 5 mm.
    "a metre of bar": ("{bar: 1 1/2 sq, metal: [{keep: 1 m}]}", (1000 / 25.4,) * 2),
    "a stub": ("{bar: 1/8 rd, metal: [{keep: 5 mm}]}", (5 / 25.4,) * 2),
}


@pytest.mark.parametrize("case", CASES)
def test_length_and_stock(case: str) -> None:
    text, (length, stock) = CASES[case]
    made = bar(text)
    assert made.length == pytest.approx(length * INCH, rel=1e-9)
    assert made.stock_bare == pytest.approx(stock * INCH, rel=1e-9)


METRIC = {
    # Towel ring eye: pi (14 + 10) + 40.
    "eye": ("{bar: 10 rd, metal: [{keep: rest}], path: [{eye: 14}, {straight: 40}]}", (24 * pi + 40,) * 2),
    # 12 sq drawn to a point over 80: a third of it.
    "point": ("{bar: 12 sq, metal: [{keep: 200}, {to: point, over: 80}]}", (280, 200 + 80 / 3)),
    # 25 x 6 bent the hard way about 50: pi/2 (50 + 12.5).
    "hard way": (
        "{bar: 25 x 6, metal: [{keep: rest}], path: [{straight: 100}, {bend: 90, inside radius: 50, way: hard}, "
        "{straight: 100}]}",
        (200 + pi / 2 * 62.5,) * 2,
    ),
}


@pytest.mark.parametrize("case", METRIC)
def test_length_and_stock_in_millimetres(case: str) -> None:
    text, (length, stock) = METRIC[case]
    made = bar(text, "mm")
    assert made.length == pytest.approx(length * MM, rel=1e-9)
    assert made.stock_bare == pytest.approx(stock * MM, rel=1e-9)


def test_an_eye_that_is_welded_wants_one_thickness_more_at_its_end() -> None:
    """By the rule `one thickness`, of the section at that end: 1/4 of 1/4 sq is 1/8 of 1/2 x 1/4."""
    metal = "metal: [{keep: rest}, {to: 1/4 sq, over: 2}]"
    plain = f"{{bar: 1/2 x 1/4, {metal}, path: [{{straight: 6}}, {{eye: 3/4, WELD turn: up}}]}}"
    shut, welded = bar(plain.replace("WELD", "")), bar(plain.replace("WELD", "welded: yes,"))
    assert shut.weld == 0.0
    assert welded.weld == pytest.approx(INCH / 8)
    assert welded.stock.value - shut.stock.value == pytest.approx(INCH / 8)
    assert welded.length == shut.length
    assert [m.says for m in welded.marks_on_stock if "weld" in m.says] == ["1/8 in (3 mm) from here for the weld"]


def test_an_eye_welded_at_the_datum_end_moves_every_mark_by_its_scarf() -> None:
    plain = (
        "{bar: 1/4 sq, metal: [{keep: rest, name: a}, {to: 1/8 sq, over: 2}], path: [{eye: 1, WELD}, {straight: 6}]}"
    )
    shut, welded = bar(plain.replace(", WELD", "")), bar(plain.replace("WELD", "welded: yes"))
    moved = [(a.at, b.at) for a, b in zip(shut.marks_on_stock, welded.marks_on_stock[1:], strict=True)]
    assert welded.marks_on_stock[0].at == pytest.approx(INCH / 4)
    assert all(b - a == pytest.approx(INCH / 4) for a, b in moved)
    assert welded.marks_on_drawn[0].at - shut.marks_on_drawn[0].at == pytest.approx(INCH / 4)


def test_flush_and_offset_add_up() -> None:
    """1 x 1/4 flush behind on 1/2 sq lies 1/8 back (half of 1/2 less 1/4); an offset of 1/8 left goes on top."""
    made = bar("{bar: 1/2 sq, metal: [{keep: 6}, {as: 1 x 1/4, over: 2, flush: back, offset: [1/8, 0]}]}")
    assert made.runs[1].offset_a == pytest.approx((INCH / 8, -INCH / 8))


def test_a_bend_without_turn_goes_the_easy_way_of_the_bar_there() -> None:
    """Square bar drawn to 1 x 1/4: pi/2 (1/2 + 1/8) over the thin way, not pi/2 (1/2 + 1/2); the square bends left."""
    text = (
        "{bar: 1/2 sq, metal: [{keep: 8}, {to: 1 x 1/4, over: 1}, {keep: 4}], path: [{straight: 2}, "
        "{bend: 90, inside radius: 1/2, name: one}, {straight: 7}, {bend: 90, inside radius: 1/2, name: two}, "
        "{straight: rest}]}"
    )
    made = bar(text)
    one, two = made.bends
    assert one.end - one.start == pytest.approx(pi / 2 * 0.75 * INCH)
    assert two.end - two.start == pytest.approx(pi / 2 * 0.625 * INCH)
    assert "left" in one.says
    assert "up, the easy way" in two.says
    assert [f.name for f in made.findings] == ["turn-not-told"]
    told = bar(text.replace("name: two", "name: two, turn: left"))
    assert told.bends[1].end - told.bends[1].start == pytest.approx(pi / 2 * 1.0 * INCH)


def test_a_left_hand_bar_bends_the_other_way_where_the_metal_decides_too() -> None:
    text = (
        "{bar: 1 x 1/4, HAND metal: [{keep: 4}, {to: 1 x 1/4 on edge, over: 1}, {keep: 4}], "
        "path: [{straight: 6}, {bend: 90, inside radius: 1/2}, {straight: rest}]}"
    )
    assert "left, the easy way" in bar(text.replace("HAND", "")).bends[0].says
    assert "right, the easy way" in bar(text.replace("HAND", "hand: left,")).bends[0].says


CORNERS = [
    ("{corner: 90}", 9.5),
    ("{corner: 90, forged: upset, inside radius: 1/8}", 9 + pi / 2 * 0.375 + 0.125),
    ("{bend: 90, inside radius: 1/8}", 9 + pi / 2 * 0.375),
]


@pytest.mark.parametrize(("corner", "length"), CORNERS)
def test_the_corners_of_the_page_on_the_job_file(corner: str, length: float) -> None:
    text = f"{{bar: 1/2 sq, metal: [{{keep: rest}}], path: [{{straight: 4 1/2}}, {corner}, {{straight: 4 1/2}}]}}"
    assert bar(text).length == pytest.approx(length * INCH)


FORK = (
    "{bar: 3/8 sq, metal: [{keep: 10, name: shank}], path: [{straight: rest, name: run}], OVERALL split: {one: "
    "{metal: [{as: 1/8 sq, over: rest}], path: [{bend: 90, inside radius: 7/16, turn: left}, {straight: 2}, "
    "{bend: 90, inside radius: 7/16, turn: right}, {straight: 3}]}, two: {like: one, mirror: yes}}}"
)


def test_overall_sizes_hold_the_limbs_too() -> None:
    """Each tine: 1/2 forward, 1/2 + 2 + 1/2 to its side, 1/2 + 3 forward: 10 + 4 along, 2 (3 + 1/16) across."""
    made = bar(FORK.replace("OVERALL", ""))
    assert made.sizes.reach == pytest.approx(14 * INCH)
    assert made.sizes.across == pytest.approx(6.125 * INCH)
    assert made.sizes.end_to_end == pytest.approx(10 * INCH)
    assert made.children[0].length == pytest.approx((5 + pi / 2) * INCH)


def test_an_overall_size_is_brought_out_with_the_limbs() -> None:
    made = bar(FORK.replace("OVERALL", "overall: [{reach: 16, by: shank}],"))
    assert made.length == pytest.approx(12 * INCH, abs=1e-7)


def test_a_branch_stands_out_where_it_is_welded_on() -> None:
    """Bent 90 about 3/4 and 2 straight it stands 1 + 2 out (mean radius 3/4 + 1/4), and the bar 1/4 below the line."""
    made = bar(
        "{bar: 1/2 sq, metal: [{keep: 10}], weld on: {thorn: {at: 4, bar: 1/2 rd, metal: [{keep: rest}], "
        "path: [{bend: 90, inside radius: 3/4, turn: up}, {straight: 2}]}}}"
    )
    assert made.sizes.reach == pytest.approx(10 * INCH)
    assert made.sizes.across + made.sizes.rise == pytest.approx((0.5 + 3.25) * INCH)
