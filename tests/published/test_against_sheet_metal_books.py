"""Cones, frusta and pyramids that other people worked out, against patterns rolled up or measured flat.

- CEE: ceemrr.com, Geometry 2, "The Net of a Frustum"; read in the source.
- BUT: I. R. Butt, The Tinman's Manual and Builder's and Mechanic's Handbook, rule for striking out
  a cone; read in the source.
- LON: E. M. Longfield, Sheet Metal Drafting, 1921, ch. V problem 19 and p. 128; read in the source, but the answers are
  not printed (or lost in the scan): those rows are exact mathematics of the printed sizes.
- MENS1: 19th-century mensuration (title page not seen), p. 76, pi taken as 22/7; read in the source.
- MENS2: 19th-century mensuration of round bodies (title page not seen), p. 174; read in the source.
- MENS3: 18th-century mensuration (title page not seen), p. 187; read in the source.
"""

import math

import pytest
import trimesh

from bickern.geometry import polygon
from bickern.geometry.develop import Development, cone, cone_sizes, pyramid, roll_up
from bickern.measure.units.words import Read

PI_RATIO = (22 / 7) / math.pi
"""How much larger areas come out with the old books' 22/7."""


def got(read: Read[Development]) -> Development:
    assert read.value is not None
    return read.value


def curved(base: float, top: float, height: float) -> float:
    return polygon.area(got(cone(base, top, height)).outline)


def on_slant(base: float, top: float, slant: float) -> float:
    """Height of a frustum told by its slant."""
    return math.sqrt(slant**2 - (base - top) ** 2)


# ---- CEE: frustum, diameters 8 and 5, height 4


def test_cee_net_of_a_frustum() -> None:
    sizes = cone_sizes(4.0, 2.5, 4.0)
    assert sizes.inner == pytest.approx(7.12, abs=0.005)  # D01, printed to two places
    assert sizes.outer == pytest.approx(11.39, abs=0.005)  # D02
    assert math.degrees(sizes.angle) == pytest.approx(126.4, abs=0.05)  # D03


def test_cee_apex_height() -> None:
    # D04: the apex stands 6.6667 above the small end: the swing point of the flat pattern, rolled up with it
    made = got(cone(4.0, 2.5, 4.0))
    apex, rim = roll_up(made, [(0.0, 0.0), made.seams[0].first.end])
    assert apex[2] - rim[2] == pytest.approx(6.6667, abs=5e-5)


# ---- BUT: slant six times the base radius gives a sixth of a circle


def test_butt_cone_of_sixty_degrees() -> None:
    made = got(cone(1.0, 0.0, on_slant(1.0, 0.0, 6.0)))  # D05
    arc = made.outline.segs[0]
    assert isinstance(arc, polygon.ArcSeg)
    assert math.degrees(arc.sweep) == pytest.approx(60.0, abs=0.01)


# ---- LON: sizes printed, answers reckoned


def test_longfield_flower_holder() -> None:
    # D07: base 4 in, altitude 7 in: slant sqrt(4 + 49) = 7.280 (exact mathematics; no answer printed)
    sizes = cone_sizes(2.0, 0.0, 7.0)
    assert sizes.slant == pytest.approx(math.sqrt(2**2 + 7**2), rel=1e-12)
    assert math.degrees(sizes.angle) == pytest.approx(360 * 2 / math.sqrt(53), rel=1e-12)


def test_longfield_funnel() -> None:
    # D08: diameters 6 and 3, altitude 3: slant 3.3541, area 47.42 in2 (exact mathematics; the scan lost the answer)
    slant = math.sqrt(3**2 + 1.5**2)
    assert cone_sizes(3.0, 1.5, 3.0).slant == pytest.approx(slant, rel=1e-12)
    assert curved(3.0, 1.5, 3.0) == pytest.approx(math.pi * (3 + 1.5) * slant, rel=1e-9)


# ---- mensuration books: areas


def test_mens1_frustum_told_by_its_slant() -> None:
    # D13: diameters 5 ft 4 and 8 ft 3, slant 10 ft 6: 224 ft2 and a fraction that the scan has lost
    a, b = (8 + 3 / 12) / 2, (5 + 4 / 12) / 2
    assert curved(a, b, on_slant(a, b, 10.5)) * PI_RATIO == pytest.approx(224, abs=0.5)


def test_mens1_cone() -> None:
    # D14: diameter 19 ft 2, altitude 21 ft: 695 ft2, printed whole
    assert curved((19 + 2 / 12) / 2, 0.0, 21.0) == pytest.approx(695, abs=0.5)


def test_mens1_frustum_told_by_its_depth() -> None:
    # D15: diameters 15 ft 4 and 26 ft 8, depth 23 ft 9: 1611 ft2, printed whole (cut off, not rounded)
    assert curved((26 + 8 / 12) / 2, (15 + 4 / 12) / 2, 23.75) == pytest.approx(1611, abs=1.0)


def test_mens1_frustum_volume() -> None:
    # D16: diameters 9 and 16, depth 14: 1763.67 in3 with 22/7; its rims here come from the rolled-up pattern
    made = got(cone(8.0, 4.5, 14.0))
    rims = [p for edge in made.edges for seg in edge.segs for p in polygon.seg_points(seg, 1e-5)]
    hull = trimesh.convex.convex_hull(roll_up(made, rims))
    assert hull.volume * PI_RATIO == pytest.approx(1763.67, abs=0.02)


def test_mens2_convex_surface_from_girths() -> None:
    # D17: girths 8.4 and 6, slant 12.5: 90 ft2, exact
    a, b = 8.4 / (2 * math.pi), 6 / (2 * math.pi)
    assert curved(a, b, on_slant(a, b, 12.5)) == pytest.approx(90.0, abs=0.001)


@pytest.mark.parametrize(
    ("a", "b", "slant", "printed", "tolerance"),
    [
        # D18 prints 292.169: its pi is 3.1416 (93 pi = 292.168)
        (3.0, 2.0, 16.0, 292.169 * math.pi / 3.1416, 1e-3),
        # D20 prints 439.824: 140 x 3.1416
        (4.0, 2.0, 20.0, 439.824 * math.pi / 3.1416, 1e-3),
    ],
    ids=["ex. 2", "ex. 4"],
)
def test_mens2_entire_surface(a: float, b: float, slant: float, printed: float, tolerance: float) -> None:
    whole = curved(a, b, on_slant(a, b, slant)) + math.pi * (a * a + b * b)
    assert whole == pytest.approx(printed, abs=tolerance)


def test_mens3_octagonal_frustum() -> None:
    # D25: sides of 10 and 6, height 20: 6309.14 ft3; the solid's corners come from the pattern folded up
    flats = 1 + math.sqrt(2)  # across flats of an octagon over its side
    made = got(pyramid(8, 10 * flats, 6 * flats, 20.0))
    corners = [seg.start for seg in made.outline.segs if isinstance(seg, polygon.Line)]
    hull = trimesh.convex.convex_hull(roll_up(made, corners))
    assert hull.volume == pytest.approx(6309.14, abs=0.01)
