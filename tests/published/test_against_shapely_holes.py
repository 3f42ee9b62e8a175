"""Against Shapely, the general library of plane geometry, 2.2: holes and places on bars.

Kind: reference library. The face of the bar and the opening in it are drawn as shapes; walls and weights are distances
and areas of what is left, places are read off a line by shares of it. Reckoned another way.
"""

from dataclasses import replace

import pytest
from shapely import LineString, Point, Polygon, box
from shapely.affinity import translate

from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import Anchor, BarSpec, Hole, HoleBy, Metal, Place, SectionGoal, Twist

RULES = without_fire(BarRules())
SQUARE = Section(Shape.SQUARE, 0.012, 0.012)


def reckoned(spec: BarSpec) -> BarResult:
    read = reckon_bar(spec, RULES, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def made(*metal: Metal, **more: object) -> BarResult:
    return reckoned(replace(BarSpec("made", SQUARE, "S235JR", metal), **more))  # type: ignore[arg-type]


def flat(wide: float, thick: float) -> Section:
    return Section(Shape.FLAT, wide, thick)


def holed(hole: Hole, stock: Section, *metal: Metal) -> BarResult:
    return reckoned(BarSpec("holed", stock, "S235JR", metal or (Metal(0.3, name="bar"),), holes=(hole,)))


def at(place: float) -> Place:
    return Place(Anchor.DATUM, plus=place)


@pytest.mark.parametrize(("place", "long"), [(0.1, None), (0.02, None), (0.1, 0.03), (0.285, None), (0.028, 0.03)])
def test_a_drilled_hole_its_wall_and_what_it_weighs(place: float, long: float | None) -> None:
    result = holed(Hole(0.012, HoleBy.DRILL, at(place), long=long), flat(0.04, 0.01))
    face = box(0.0, -0.02, 0.3, 0.02)
    opening = box(-0.015, -0.006, 0.015, 0.006) if long else Point(0.0, 0.0).buffer(0.006, quad_segs=2000)
    opening = translate(opening, place)
    assert result.holes[0].wall == pytest.approx(face.exterior.distance(opening), abs=1e-9)
    assert result.mass / 7850.0 == pytest.approx(face.difference(opening).area * 0.01, rel=1e-7)
    assert result.holes[0].slug == pytest.approx(opening.area * 0.01, rel=1e-6)


@pytest.mark.parametrize("place", [0.1, 0.02])
def test_a_slit_parts_the_bar_in_two_whole_halves(place: float) -> None:
    result = holed(Hole(0.012, HoleBy.SLIT, at(place)), flat(0.04, 0.01))
    found = result.holes[0]
    assert found.slit is not None
    slit = LineString([(place - found.slit / 2, 0.0), (place + found.slit / 2, 0.0)])
    assert found.wall == pytest.approx(box(0.0, -0.02, 0.3, 0.02).exterior.distance(slit), abs=1e-9)
    assert result.mass / 7850.0 == pytest.approx(0.3 * 0.04 * 0.01, rel=1e-9)


def test_a_hole_at_the_thin_end_of_a_taper() -> None:
    """The wall goes by the width there, which falls evenly; the hole stands a hair before the taper's end."""
    taper, after = Metal(0.1, end=SectionGoal(flat(0.02, 0.01))), Metal(0.1)
    place = 0.0999
    found = holed(Hole(0.006, HoleBy.DRILL, at(place)), flat(0.06, 0.01), taper, after).holes[0]
    face = Polygon([(0, -0.03), (0.1, -0.01), (0.1, 0.01), (0, 0.03)])
    cut = face.intersection(LineString([(place, -1.0), (place, 1.0)]))
    assert found.wall == pytest.approx((cut.length - 0.006) / 2, abs=1e-9)


@pytest.mark.parametrize(("anchor", "share"), [(Anchor.START_OF, 0.0), (Anchor.MIDDLE_OF, 0.5), (Anchor.END_OF, 1.0)])
def test_places_told_by_a_name(anchor: Anchor, share: float) -> None:
    """A hole 4 mm past a named place, and a twist that begins, is centred or ends there."""
    metal = (Metal(0.11, name="first"), Metal(0.17, name="second"), Metal(0.2, name="third"))
    hole = Hole(0.004, HoleBy.DRILL, Place(anchor, "second", 0.004))
    twist = Twist(1.0, 0.06, Place(anchor, "second"))
    result = made(*metal, holes=(hole,), twists=(twist,))
    second = LineString([(0.11, 0.0), (0.28, 0.0)])
    there = second.interpolate(share, normalized=True).x
    assert result.holes[0].at == pytest.approx(there + 0.004, abs=1e-12)
    zone = LineString([(there - share * 0.06, 0.0), (there + (1 - share) * 0.06, 0.0)])
    assert zone.interpolate(share, normalized=True).x == pytest.approx(there, abs=1e-12)
    assert (result.twists[0].start, result.twists[0].end) == pytest.approx((zone.bounds[0], zone.bounds[2]), abs=1e-12)


def test_a_twist_that_ends_at_a_place_from_the_far_end() -> None:
    result = made(Metal(0.4), twists=(Twist(1.0, 0.06, Place(Anchor.END, plus=-0.05)),))
    assert (result.twists[0].start, result.twists[0].end) == pytest.approx((0.29, 0.35), abs=1e-12)
