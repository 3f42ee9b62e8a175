"""Against Shapely, the general library of plane geometry, 2.2: where coils meet, and where slits run out of a bar.

Kind: reference library. Coils and bars are drawn as lines and boxes of points; the size at which they just touch is
measured off those, and the finding must come a hair past it and not a hair before. Reckoned another way.
"""

import numpy as np
import pytest
from shapely import LineString, Point, Polygon, box

from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.rules import WALL_SHARE, slit_length
from bickern.parts.bar.tracks import Anchor, BarSpec, Blank, Hole, HoleBy, Metal, Place, ScrollLeg

RULES = without_fire(BarRules())
HAIR = 0.002
"""How far, as a share, the size told lies to either side of the size at which things touch."""


def found(spec: BarSpec) -> set[str]:
    return {f.name for f in reckon_bar(spec, RULES, 7850.0).findings}


def coils(inner: float, outer: float, turns: float) -> tuple[LineString, LineString]:
    """The first turn of a scroll from inside, and all from its end on, as rows of points [m]."""
    turned = np.linspace(0.0, 2 * np.pi * turns, 20_001)
    radius = inner + (outer - inner) * turned / turned[-1]
    spots = np.stack([radius * np.cos(turned), radius * np.sin(turned)], axis=1)
    once = int(np.searchsorted(turned, 2 * np.pi))
    return LineString(spots[: once + 1]), LineString(spots[once:])


@pytest.mark.parametrize("from_centre", [True, False])
@pytest.mark.parametrize(("inner", "outer", "turns"), [(0.1, 0.14, 2.0), (0.15, 0.2, 2.6), (0.3, 0.33, 1.4)])
def test_coils_of_a_scroll_meet_where_they_touch(inner: float, outer: float, turns: float, from_centre: bool) -> None:
    """Measured across the gap: even bar touches the next coil when it is as thick as they lie apart."""
    first, rest = coils(inner, outer, turns)
    places = [first.interpolate(share, normalized=True) for share in np.linspace(0.3, 0.7, 9)]
    apart = min(rest.distance(place) for place in places) if turns > 1.7 else rest.distance(first.interpolate(0.0))
    for size, meets in ((1 - HAIR, False), (1 + HAIR, True)):
        thick = apart * size
        leg = ScrollLeg(turns, inner - thick / 2, outer - thick / 2, from_centre=from_centre)
        bar = Section(Shape.SQUARE, thick, thick)
        assert ("scroll-coils-meet" in found(BarSpec("scroll", bar, "S235JR", (Metal(Blank.REST),), (leg,)))) is meets


@pytest.mark.parametrize("from_centre", [True, False])
@pytest.mark.parametrize(("turns", "meets"), [(1 - HAIR, False), (1 + HAIR, True)])
def test_a_scroll_of_one_turn_has_no_coil_to_meet(turns: float, meets: bool, from_centre: bool) -> None:
    """Its ends lie 5 mm apart and the bar is 10 mm thick: what a hair more than a round of it meets is itself."""
    first, rest = coils(0.1, 0.105, 1 + HAIR)
    assert first.buffer(0.005).intersects(rest.buffer(0.005))
    leg = ScrollLeg(turns, 0.095, 0.1, from_centre=from_centre)
    bar = Section(Shape.SQUARE, 0.01, 0.01)
    assert ("scroll-coils-meet" in found(BarSpec("scroll", bar, "S235JR", (Metal(Blank.REST),), (leg,)))) is meets


@pytest.mark.parametrize("place", ["near", "far"])
@pytest.mark.parametrize("long", [None, 0.04])
@pytest.mark.parametrize("asked", ["slit-off-the-bar", "slit-near-end"])
def test_a_slit_runs_out_of_a_bar_where_its_line_does(asked: str, long: float | None, place: str) -> None:
    """The place where the slit's end stands on the bar's end, or a quarter of its width inside, found by halving."""
    bar, size = box(0.0, -0.02, 0.3, 0.02), 0.012
    drawn = slit_length("half the rim less 5 %", size, long)
    kept = bar if asked == "slit-off-the-bar" else box(WALL_SHARE * 0.04, -0.02, 0.3 - WALL_SHARE * 0.04, 0.02)

    def inside(at: float) -> bool:
        return bool(kept.contains(LineString([(at - drawn / 2, 0.0), (at + drawn / 2, 0.0)])))

    low, high = (0.0, 0.15) if place == "near" else (0.3, 0.15)
    for _ in range(60):
        low, high = (low, (low + high) / 2) if inside((low + high) / 2) else ((low + high) / 2, high)
    way = 1e-5 if place == "near" else -1e-5
    for at, runs_out in ((low - way, True), (low + way, False)):
        hole = Hole(size, HoleBy.SLIT, Place(Anchor.DATUM, plus=at), long=long)
        spec = BarSpec("slit", Section(Shape.FLAT, 0.04, 0.01), "S235JR", (Metal(0.3),), holes=(hole,))
        assert (asked in found(spec)) is runs_out


def drilled(*at: float, size: float = 0.012, long: float | None = None) -> set[str]:
    holes = tuple(Hole(size, HoleBy.DRILL, Place(Anchor.DATUM, plus=place), long=long) for place in at)
    return found(BarSpec("drilled", Section(Shape.FLAT, 0.04, 0.01), "S235JR", (Metal(0.3),), holes=holes))


def opening(size: float, long: float | None) -> Polygon:
    """The opening about the origin."""
    return Point(0.0, 0.0).buffer(size / 2, quad_segs=500) if long is None else box(-long / 2, -0.006, long / 2, 0.006)


@pytest.mark.parametrize("long", [None, 0.03])
def test_a_drilled_hole_and_the_ends_of_its_bar(long: float | None) -> None:
    """Off the bar, near its end, and one in another: where shapes moved along the bar touch."""
    left, _, right, _ = opening(0.012, long).bounds
    near = WALL_SHARE * 0.04
    for hair in (-1e-5, 1e-5):
        assert ("hole-off-the-bar" in drilled(-left + hair, long=long)) is (hair < 0)
        assert ("hole-off-the-bar" in drilled(0.3 - right - hair, long=long)) is (hair < 0)
        assert ("hole-near-end" in drilled(near - left + hair, long=long)) is (hair < 0)
        assert ("hole-near-end" in drilled(0.3 - near - right - hair, long=long)) is (hair < 0)
        assert ("holes-overlap" in drilled(0.1, 0.1 + right - left + hair, long=long)) is (hair < 0)


@pytest.mark.parametrize(("size", "thin"), [(0.01998, False), (0.02002, True)])
def test_walls_beside_a_hole(size: float, thin: bool) -> None:
    left = box(-0.15, -0.02, 0.15, 0.02).exterior.distance(opening(size, None))
    assert (left < WALL_SHARE * 0.04) is thin
    assert ("thin-wall" in drilled(0.15, size=size)) is thin
