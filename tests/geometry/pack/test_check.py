"""The check of nests, held against a second measure and against layouts spoilt on purpose."""

import math
import random
from collections.abc import Callable
from dataclasses import replace

import pytest

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.polygon import centroid, disc, flipped, from_points, rectangle, sector

MM = 1e-3
SPACING = Spacing(3 * MM, 5 * MM)
SHEET = Remnant("S1", rectangle(0.4, 0.3), (flipped(disc(0.02, (0.3, 0.2))),), 7.0)
PLATE = Part("plate", rectangle(0.08, 0.05), (), 2, (0.0, math.pi / 2))
WASHER = Part("washer", disc(0.04), (flipped(disc(0.025)),), 1)
BUTTON = Part("button", disc(0.022), (), 1)
PARTS = (PLATE, WASHER, BUTTON)
SOUND = Nest(
    (
        Laid("plate", "S1", 0.0, 5 * MM, 5 * MM),
        Laid("plate", "S1", math.pi / 2, 0.088 + 0.05, 5 * MM),  # 3 mm right of the first
        Laid("washer", "S1", 0.3, 0.045, 0.098),  # 3 mm above the first
        Laid("button", "S1", 1.0, 0.045, 0.098),  # in the washer, 3 mm all round
    ),
    (),
    7.0,
)


def spoilt(number: int, **change: float | str) -> Nest:
    laid = list(SOUND.laid)
    laid[number] = replace(laid[number], **change)
    return replace(SOUND, laid=tuple(laid))


def test_a_nest_that_keeps_everything_exactly_is_sound(breaches: Callable[..., list[str]]) -> None:
    assert faults_of(SOUND, PARTS, [SHEET], SPACING) == ()
    assert breaches(SOUND, PARTS, [SHEET], SPACING) == []


@pytest.mark.parametrize(
    ("number", "change", "word"),
    [
        (1, {"x": 0.138 - 0.02 * MM}, "plate (1)"),
        (0, {"x": 5 * MM - 0.02 * MM}, "edge of S1"),
        (0, {"y": 5 * MM - 0.011 * MM}, "edge of S1"),
        (2, {"y": 0.098 - 0.02 * MM}, "from"),
        (3, {"x": 0.045 + 0.02 * MM}, "washer (3)"),
        (3, {"x": 0.058}, "overlaps"),
        (1, {"x": 0.04}, "outside"),
        (1, {"x": 0.1}, "overlaps"),
        (2, {"x": 0.3, "y": 0.2}, "edge of S1"),  # about the hole, 5 mm all round: turns sound when it is smaller
        (0, {"x": 0.26, "y": 0.18}, "outside"),  # over the hole
        (0, {"x": -1.0}, "outside"),
        (0, {"turn": 0.01}, "turned by"),
        (0, {"turn": math.pi}, "turned by"),
        (0, {"remnant": "S2"}, "no sheet"),
        (0, {"part": "knob"}, "knob"),
        (0, {"x": math.nan}, "nowhere"),
    ],
)
def test_a_spoilt_nest_is_found_out(number: int, change: dict[str, float | str], word: str) -> None:
    nest = spoilt(number, **change)
    wrong = faults_of(nest, PARTS, [replace(SHEET, cutouts=(flipped(disc(0.0205, (0.3, 0.2))),))], SPACING)
    assert any(word in one for one in wrong), wrong


def test_a_washer_may_lie_about_a_hole_of_the_sheet() -> None:
    about = replace(SOUND, laid=(Laid("washer", "S1", 0.0, 0.3, 0.2),), short=(("plate", 2), ("button", 1)))
    assert faults_of(about, PARTS, [SHEET], SPACING) == ()


def test_a_hole_of_the_sheet_inside_a_part_is_found() -> None:
    over = replace(SOUND, laid=(Laid("button", "S1", 0.0, 0.3, 0.2),), short=(("plate", 2), ("washer", 1)))
    assert any("outside" in one for one in faults_of(over, PARTS, [SHEET], Spacing()))


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"laid": SOUND.laid[:3]}, "button: 0 laid and 0 short of 1"),
        ({"laid": (*SOUND.laid, Laid("button", "S1", 0.0, 0.2, 0.25))}, "button: 2 laid"),
        ({"short": (("plate", 1),)}, "plate: 2 laid and 1 short of 2"),
        ({"short": (("knob", 1),)}, "knob: 0 laid and 1 short of 0"),
        ({"short": (("plate", 0),)}, "short by 0"),
        ({"cost": 6.0}, "cost 7, not 6"),
    ],
)
def test_counts_and_costs_are_checked(change: dict[str, object], word: str) -> None:
    wrong = faults_of(replace(SOUND, **change), PARTS, [SHEET], SPACING)
    assert any(word in one for one in wrong), wrong


def test_two_of_one_key_and_crossing_outlines_are_found() -> None:
    assert "S1 is the key of two sheets" in faults_of(SOUND, PARTS, [SHEET, SHEET], SPACING)
    bow = Part("bow", from_points(((0, 0), (0.1, 0.1), (0.1, 0), (0, 0.1))))
    nest = Nest((Laid("bow", "S1", 0.0, 0.1, 0.1),), (), 7.0)
    assert faults_of(nest, [bow], [SHEET], SPACING) == ("the outline of bow crosses itself",)


def test_sheets_on_which_nothing_lies_are_no_fault() -> None:
    assert faults_of(SOUND, PARTS, [SHEET, Remnant("S2", rectangle(1.0, 1.0), (), 3.0)], SPACING) == ()
    assert faults_of(Nest((), (("button", 1),), 0.0), [BUTTON], [SHEET], Spacing()) == ()
    assert faults_of(Nest((), (), 0.0), [], [], Spacing()) == ()


def test_without_a_gap_parts_may_touch_but_not_overlap() -> None:
    parts = (Part("a", rectangle(0.1, 0.1), (), 2),)
    sheet = Remnant("S", rectangle(0.2, 0.1))
    touching = Nest((Laid("a", "S", 0.0, 0.0, 0.0), Laid("a", "S", 0.0, 0.1, 0.0)), (), 0.0)
    assert faults_of(touching, parts, [sheet], Spacing()) == ()
    over = replace(touching, laid=(touching.laid[0], replace(touching.laid[1], x=0.1 - 0.011 * MM)))
    assert faults_of(over, parts, [sheet], Spacing()) == ("a (1) overlaps a (2) on S",)
    beyond = replace(touching, laid=(touching.laid[0], replace(touching.laid[1], x=0.1 + 0.011 * MM)))
    assert faults_of(beyond, parts, [sheet], Spacing()) == ("a (2) is outside S by up to 0.011 mm",)


SHAPES = (
    Part("sector", sector(0.12, 0.05, 1.9)),
    Part("washer", disc(0.09), (flipped(disc(0.07)),)),
    Part("disc", disc(0.03)),
    Part("angle", from_points(((0, 0), (0.1, 0), (0.1, 0.03), (0.03, 0.03), (0.03, 0.09), (0, 0.09)))),
    Part("needle", from_points(((0, 0), (0.15, 0.004), (0, 0.008)))),
)


def pushed_near(
    a: Part, b: Part, rng: random.Random, gap: float, measure: Callable[[Part, Laid, Part, Laid], float]
) -> tuple[Laid, Laid]:
    """Two parts, the second brought up from afar in a random direction until it is `gap` from the first."""
    way, turns = rng.uniform(0, 2 * math.pi), (rng.uniform(0, 6.3), rng.uniform(0, 6.3))

    def there(part: Part, turn: float, far: float) -> Laid:
        (x, y), c, s = centroid(part.outline), math.cos(turn), math.sin(turn)
        return Laid(part.key, "S", turn, far * math.cos(way) - x * c + y * s, far * math.sin(way) - x * s - y * c)

    first = there(a, turns[0], 0.0)
    far = 0.6
    while measure(a, first, b, there(b, turns[1], far)) > gap:
        far -= 0.002
    near, far = far, far + 0.002
    for _ in range(50):
        middle = (near + far) / 2
        if measure(a, first, b, there(b, turns[1], middle)) < gap:
            near = middle
        else:
            far = middle
    return first, there(b, turns[1], far)


@pytest.mark.parametrize("seed", range(30))
def test_it_agrees_with_the_second_measure_to_a_hundredth_of_a_millimetre(
    seed: int, bodies_apart: Callable[[Part, Laid, Part, Laid], float], breaches: Callable[..., list[str]]
) -> None:
    rng = random.Random(seed)
    a, b = rng.sample(SHAPES, 2)
    gap = rng.choice([0.05 * MM, 1 * MM, 3 * MM])
    sheet, parts = Remnant("S", rectangle(4.0, 4.0, (-2.0, -2.0))), (a, b)
    kept = Nest(pushed_near(a, b, rng, gap, bodies_apart), (), 0.0)
    assert abs(bodies_apart(a, kept.laid[0], b, kept.laid[1]) - gap) < 1e-9
    assert faults_of(kept, parts, [sheet], Spacing(gap)) == ()
    assert breaches(kept, parts, [sheet], Spacing(gap)) == []
    wider = Spacing(gap + 0.0101 * MM)
    assert len(faults_of(kept, parts, [sheet], wider)) == 1
    assert len(breaches(kept, parts, [sheet], wider)) == 1


@pytest.mark.parametrize("radius", [0.01, 0.3, 3.0])
def test_arcs_are_measured_as_arcs(radius: float) -> None:
    """Two discs a gap apart at every turn: chords alone would be out by their height."""
    part = Part("disc", disc(radius), (), 2)
    sheet = Remnant("S", rectangle(6 * radius, 4 * radius, (-2 * radius, -2 * radius)))
    for turn in (0.0, 0.001, 0.0123, 1.0):
        for short, faults in ((0.0, 0), (0.011 * MM, 1)):
            far = 2 * radius + 2 * MM - short
            nest = Nest((Laid("disc", "S", turn, 0.0, 0.0), Laid("disc", "S", 2 * turn, far, 0.0)), (), 0.0)
            assert len(faults_of(nest, [part], [sheet], Spacing(2 * MM))) == faults


def test_a_part_on_the_very_edge_is_not_outside_for_rounding() -> None:
    """Turned by a right angle its corners are off by what a cosine of 90 degrees is not nothing: far under a micron."""
    part, sheet = Part("plate", rectangle(0.1, 0.07)), Remnant("S", rectangle(0.07, 0.1))
    for over, count in ((0.0, 0), (1e-7, 0), (0.011 * MM, 1)):
        nest = Nest((Laid("plate", "S", math.pi / 2, 0.07 + over, 0.0),), (), 0.0)
        assert len(faults_of(nest, [part], [sheet], Spacing())) == count


@pytest.mark.parametrize("cost", [6.0, 8.0, 0.0])
def test_a_cost_that_is_not_that_of_the_sheets_cut_into_is_told(cost: float) -> None:
    assert any("cost 7" in says for says in faults_of(replace(SOUND, cost=cost), PARTS, [SHEET], SPACING))


def test_two_parts_or_two_sheets_of_one_key_are_told() -> None:
    """Nobody could say which of them a copy is, or lies on, though the counts agree."""
    twins = [Part("plate", rectangle(0.1, 0.1)), Part("plate", rectangle(0.1, 0.1))]
    nest = Nest((), (("plate", 2),), 0.0)
    assert "plate is the key of two parts" in faults_of(nest, twins, [SHEET], SPACING)
    assert "S1 is the key of two sheets" in faults_of(SOUND, PARTS, [SHEET, SHEET], SPACING)


def test_a_needle_that_lies_across_a_plate_overlaps_it_at_no_gap() -> None:
    """One of two is thinner than what rounding may eat: the other is what shows the overlap."""
    needle, plate = Part("needle", rectangle(0.2, 8e-6)), Part("plate", rectangle(0.1, 0.1))
    sheet = Remnant("S", rectangle(0.3, 0.3))
    nest = Nest((Laid("needle", "S", 0.0, 0.02, 0.1), Laid("plate", "S", 0.0, 0.06, 0.05)), (), 0.0)
    for parts in ([needle, plate], [plate, needle]):
        assert len(faults_of(nest, parts, [sheet], Spacing())) == 1
    other = replace(nest, laid=nest.laid[::-1])
    assert len(faults_of(other, [needle, plate], [sheet], Spacing())) == 1
