"""Outlines: closed forms. (Against another library: tests/published/test_against_shapely.py.)"""

import math

import pytest

from bickern.geometry import polygon
from bickern.geometry.blank import fits_in, min_blank, sizes_turned
from bickern.geometry.polygon import ArcSeg, Line, Loop

HALF_DISC = Loop((ArcSeg((0.0, 0.0), 2.0, 0.0, math.pi), Line((-2.0, 0.0), (2.0, 0.0))))


def test_disc() -> None:
    disc = polygon.disc(3.0, (1.0, 2.0))
    assert polygon.area(disc) == pytest.approx(9 * math.pi)
    assert polygon.perimeter(disc) == pytest.approx(6 * math.pi)
    assert polygon.centroid(disc) == pytest.approx((1.0, 2.0))
    low, high = polygon.bounds(disc)
    assert (*low, *high) == pytest.approx((-2, -1, 4, 5))


def test_half_disc() -> None:
    assert polygon.area(HALF_DISC) == pytest.approx(2 * math.pi)
    assert polygon.centroid(HALF_DISC) == pytest.approx((0.0, 8 / (3 * math.pi)))  # 4 r / 3 pi, exact mathematics
    assert polygon.closed_gap(HALF_DISC) == pytest.approx(0.0, abs=1e-15)


def test_centroid_far_from_the_origin_keeps_its_digits() -> None:
    far = polygon.moved(HALF_DISC, 1e4, -1e4)
    assert polygon.centroid(far)[1] + 1e4 == pytest.approx(8 / (3 * math.pi), abs=1e-10)


def test_flipped_and_mirrored() -> None:
    assert polygon.area(polygon.flipped(HALF_DISC)) == pytest.approx(-2 * math.pi)
    assert polygon.area(polygon.mirrored(HALF_DISC)) == pytest.approx(2 * math.pi)
    bite = Loop(
        (
            Line((0.0, 0.0), (2.0, 0.0)),
            Line((2.0, 0.0), (2.0, 1.0)),
            ArcSeg((2.0, 2.0), 1.0, -math.pi / 2, -math.pi / 2),
        )
    )
    assert polygon.closed_gap(Loop((*bite.segs, Line((1.0, 2.0), (0.0, 0.0))))) < 1e-15
    mirrored = polygon.mirrored(Loop((*bite.segs, Line((1.0, 2.0), (0.0, 0.0)))))
    assert polygon.closed_gap(mirrored) < 1e-15
    assert polygon.bounds(mirrored)[0] == pytest.approx((-2.0, 0.0), abs=1e-15)


def test_a_gap_is_measured() -> None:
    open_loop = Loop((Line((0.0, 0.0), (1.0, 0.0)), Line((1.0, 0.003), (0.0, 0.0))))
    assert polygon.closed_gap(open_loop) == pytest.approx(0.003)


def test_sector() -> None:
    ring = polygon.sector(6.0, 2.0, 1.5)
    assert polygon.area(ring) == pytest.approx(0.5 * 1.5 * (36 - 4))
    assert polygon.closed_gap(ring) < 1e-12
    assert polygon.area(polygon.sector(6.0, 0.0, 1.5)) == pytest.approx(27.0)


def test_a_tilted_rectangle_has_its_own_size_as_blank() -> None:
    blank = min_blank(polygon.moved(polygon.rectangle(3.0, 2.0), 5.0, 1.0, 0.4))
    assert (blank.width, blank.height) == pytest.approx((3.0, 2.0))
    assert sizes_turned(polygon.moved(polygon.rectangle(3.0, 2.0), turn=0.4), blank.turn) == pytest.approx((3.0, 2.0))


def test_a_square_on_its_corner() -> None:
    blank = min_blank(polygon.moved(polygon.rectangle(1.0, 1.0), turn=math.pi / 4))
    assert blank.width * blank.height == pytest.approx(1.0)


def test_the_blank_of_a_lantern_hood() -> None:
    # 8 to 1 1/2, 4 high, mean sizes: swing radii 6.343 and 1.189 over 227.0 degrees need 12 11/16 x 8 7/8 in
    blank = min_blank(polygon.sector(6.343, 1.189, math.radians(227.0)))
    assert blank.width == pytest.approx(2 * 6.343)
    assert blank.height == pytest.approx(6.343 * (1 + math.cos(math.radians(180 - 113.5))), rel=1e-9)


def test_a_forge_hood_misses_its_sheet_both_ways() -> None:
    # 178.6 degrees of 24.19 in needs 48.37 x 24.09: 3/8 and 3/32 more than a sheet of 48 x 24
    hood = polygon.sector(24.19, 8.06, math.radians(178.6))
    fit = fits_in(hood, 48.0, 24.0)
    assert not fit.fits
    assert fit.short_width == pytest.approx(3 / 8, abs=1 / 64)
    assert fit.short_height == pytest.approx(3 / 32, abs=1 / 64)
    assert fits_in(hood, 48.5, 24.1).fits
    assert fits_in(hood, 24.1, 48.5).fits  # the same sheet turned


def test_a_long_strip_goes_in_corner_to_corner() -> None:
    assert fits_in(polygon.rectangle(10.5, 0.1), 10.0, 5.0).fits
    assert not fits_in(polygon.rectangle(11.5, 0.1), 10.0, 5.0).fits
