"""Our own nester, held against shapely (the exact check and distances of it) and cases whose answer is known by how
they were made (exact mathematics)."""

import math

import pytest
import shapely

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.nest import FEW, nest
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.polygon import Loop, disc, flipped, from_points, moved, rectangle, sector, to_shapely
from bickern.measure.units.words import INCH

from .mixes import SPACING, metal, mix

QUARTERS = tuple(k * math.pi / 2 for k in range(4))
ELL = from_points([(0, 0), (0.6, 0), (0.6, 0.2), (0.25, 0.2), (0.25, 0.5), (0, 0.5)])


def shape_of(part: Part, laid: Laid) -> shapely.Polygon:
    def there(loop: Loop) -> Loop:
        return moved(loop, laid.x, laid.y, laid.turn)

    return to_shapely(there(part.outline), 1e-6, [there(cut) for cut in part.cutouts])


def sound(made: Nest, parts: list[Part], remnants: list[Remnant], spacing: Spacing) -> None:
    """Distances by shapely, apart from the check that the nester itself uses."""
    assert faults_of(made, parts, remnants, spacing) == ()
    named = {part.key: part for part in parts}
    for remnant in remnants:
        sheet = to_shapely(remnant.outline, 1e-6, remnant.cutouts)
        shapes = [shape_of(named[one.part], one) for one in made.laid if one.remnant == remnant.key]
        for n, shape in enumerate(shapes):
            assert shape.difference(sheet).area < 1e-12
            assert shape.distance(sheet.boundary) >= spacing.margin - 1e-5
            for other in shapes[:n]:
                assert shape.intersection(other).area < 1e-12
                assert shape.distance(other) >= spacing.gap - 1e-5


def test_parts_known_to_fit_an_odd_sheet_all_lie() -> None:
    """An L and a bitten sheet cut into parts with straight cuts, 5 mm left between: a full nest exists."""
    cuts = [(0.24, 0.19), (0.24, 0.29), (0.34, 0.19), (0.29, 0.09), (0.14, 0.19), (0.14, 0.19), (0.14, 0.09)]
    parts = [Part(f"p{n}", rectangle(w, h), turns=QUARTERS) for n, (w, h) in enumerate(cuts)]
    bitten = from_points([(0, 0), (0.3, 0), (0.3, 0.3), (0.155, 0.3), (0.155, 0.4), (0, 0.4)])
    remnants = [Remnant("ell", ELL), Remnant("bitten", bitten)]
    made = nest(parts, remnants, Spacing(0.002, 0.001), effort=4000)
    sound(made, parts, remnants, Spacing(0.002, 0.001))
    assert made.short == ()


@pytest.mark.parametrize("seed", [11, 14])
def test_mixes_that_fill_65_percent_of_odd_remnants_all_lie(seed: int) -> None:
    parts, remnants = mix(seed, 0.65)
    assert sum(map(metal, parts)) >= 0.64 * sum(map(metal, remnants))
    made = nest(parts, remnants, SPACING, effort=4000)
    sound(made, parts, remnants, SPACING)
    assert made.short == ()


def test_a_part_lies_in_the_hole_of_another() -> None:
    ring = Part("ring", disc(0.1, (0.1, 0.1)), (flipped(disc(0.06, (0.1, 0.1))),))
    small = Part("small", disc(0.04))
    sheet = [Remnant("s", rectangle(0.21, 0.21))]
    made = nest([ring, small], sheet, SPACING, effort=400)
    sound(made, [ring, small], sheet, SPACING)
    assert made.short == ()


@pytest.mark.parametrize("more", [(), (Part("tray", rectangle(0.12, 0.1)),)])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_two_halves_of_a_hood_go_on_a_sheet_at_a_turn_between(more: tuple[Part, ...], seed: int) -> None:
    """Two sectors of 89 degrees, 24 in to 8 in, on 48 x 24 in: they go on it only turned about a third of a quarter."""
    half = Part("half", sector(24 * INCH, 8 * INCH, math.radians(89)), (), 2)
    parts, sheets = [half, *more], [Remnant("S1", rectangle(48 * INCH, 24 * INCH, (0.1, 0.2)))]
    made = nest(parts, sheets, Spacing(0.003, 0.003), seed=seed, effort=90)
    sound(made, parts, sheets, Spacing(0.003, 0.003))
    assert made.short == ()


def test_what_does_not_fit_is_named_short_and_nothing_else() -> None:
    parts = [Part("long", rectangle(0.7, 0.05), count=2), Part("square", rectangle(0.1, 0.1), count=3)]
    sheet = [Remnant("s", rectangle(0.22, 0.22))]
    made = nest(parts, sheet, Spacing(0.002, 0.001), effort=300)
    sound(made, parts, sheet, Spacing(0.002, 0.001))
    assert made.short == (("long", 2),)
    assert made.why == "larger than every sheet: long"
    assert not made.cut_short


def test_only_the_turns_that_are_allowed() -> None:
    grain = Part("grain", rectangle(0.2, 0.05), count=3, turns=(0.0, math.pi))
    sheet = [Remnant("s", rectangle(0.06, 0.4)), Remnant("t", rectangle(0.21, 0.17))]
    made = nest([grain], sheet, Spacing(0.002, 0.001), effort=300)
    sound(made, [grain], sheet, Spacing(0.002, 0.001))
    assert made.short == ()
    assert {one.remnant for one in made.laid} == {"t"}


def test_the_cheap_offcut_is_cut_before_the_big_sheet() -> None:
    parts = [Part("tab", rectangle(0.1, 0.04), count=6)]
    sheets = [
        Remnant("big", rectangle(1.0, 1.0), cost=10.0),
        Remnant("old", ELL, cost=1.0),
        Remnant("worse", ELL, cost=2.0),
    ]
    made = nest(parts, sheets, SPACING, effort=2000)
    sound(made, parts, sheets, SPACING)
    assert {one.remnant for one in made.laid} == {"old"}
    assert made.cost == 1.0


def test_the_same_seed_gives_the_same_nest() -> None:
    """Also by two processes, whichever is the quicker: more copies are asked than are tried in this one."""
    parts, remnants = mix(14, 0.6)
    assert len(parts) > FEW
    one, again = (nest(parts, remnants, SPACING, seed=5, effort=400) for _ in range(2))
    assert one.short == ()
    assert not one.cut_short
    assert one == again
    few = parts[:10]
    assert nest(few, remnants, SPACING, seed=5, effort=40) == nest(few, remnants, SPACING, seed=5, effort=40)


def test_a_search_that_is_stopped_says_so_and_what_lies_is_sound() -> None:
    parts, remnants = mix(6, 0.9)
    asked = iter(range(10**9))
    made = nest(parts, remnants, SPACING, keep_going=lambda: next(asked) < 100)
    sound(made, parts, remnants, SPACING)
    assert made.cut_short
    never = nest(parts, remnants, SPACING, keep_going=lambda: False)
    assert never.cut_short
    assert sum(count for _, count in never.short) == len(parts)


def test_progress_is_told_in_words() -> None:
    parts, remnants = mix(14, 0.5)
    heard: list[str] = []
    nest(parts, remnants, SPACING, effort=300, report=heard.append)
    assert heard
    assert all("laid on" in words for words in heard)


def test_nothing_asked_nothing_laid() -> None:
    sheet = [Remnant("s", rectangle(1, 1))]
    assert nest([], sheet, SPACING) == Nest((), (), 0.0)
    assert nest([Part("p", rectangle(1, 1))], [], SPACING).short == (("p", 1),)


def test_a_sheet_that_is_all_margin_takes_nothing_and_hinders_nobody() -> None:
    parts = [Part("tab", rectangle(0.05, 0.02), (), 3), Part("bar", rectangle(0.09, 0.003), (), 2)]
    for turns in (None, (0.0, math.pi / 2)):
        asked = [Part(p.key, p.outline, (), p.count, turns) for p in parts]
        thin = Remnant("thin", rectangle(0.5, 0.004), cost=0.1)
        alone = nest(asked, [thin], Spacing(0.002, 0.003), effort=60)
        assert alone.laid == ()
        made = nest(asked, [thin, Remnant("s", rectangle(0.2, 0.2), cost=1.0)], Spacing(0.002, 0.003), effort=60)
        sound(made, asked, [thin, Remnant("s", rectangle(0.2, 0.2), cost=1.0)], Spacing(0.002, 0.003))
        assert made.short == ()


def test_small_parts_are_seen_on_large_sheets() -> None:
    """Twenty sheets of two square metres; the parts are a thousandth as wide."""
    sheets = [Remnant(f"s{n}", rectangle(2.0, 1.0), cost=2.0 + n) for n in range(20)]
    parts = [Part("tag", rectangle(0.03, 0.012), (), 12)]
    made = nest(parts, sheets, SPACING, effort=90)
    sound(made, parts, sheets, SPACING)
    assert made.short == ()
    assert {one.remnant for one in made.laid} == {"s0"}
