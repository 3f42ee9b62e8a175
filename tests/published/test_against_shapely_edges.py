"""Against Shapely, the general library of plane geometry, 2.2: how near to its edges things may stand on a pattern.

Kind: reference library. Holes and lugs are drawn as shapes on the flat of a pipe; the place at which they just touch is
read off those, and the finding must come a hair past it and not a hair before. Reckoned another way.
"""

import math

import pytest
from shapely import LineString, Point, box

from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.spec import (
    Cylinder,
    Edge,
    EdgeKind,
    Lug,
    Pyramid,
    Seam,
    SeamKind,
    SheetHole,
    SheetSpec,
    Surface,
)

PIPE = Cylinder(0.1, 0.2)
GIRTH = Point(0.0, 0.0).buffer(0.05, quad_segs=20_000).exterior.length
FLAT = box(0.0, 0.0, GIRTH, 0.2)
HAIR = 1e-5


def told(surface: Surface = PIPE, **more: object) -> dict[str, str]:
    spec = SheetSpec("piece", 0.001, "S235JR", surface, **more)  # type: ignore[arg-type]
    return {f.name: f.says for f in reckon_sheet(spec, SheetRules(), 7850.0).findings}


@pytest.mark.parametrize("hair", [-HAIR, HAIR])
@pytest.mark.parametrize("size", [0.006, 0.02])
def test_a_hole_off_the_pattern(size: float, hair: float) -> None:
    up = size / 2 + hair
    off = not FLAT.contains(Point(GIRTH / 2, up).buffer(size / 2, quad_segs=2000))
    assert off is (hair < 0)
    assert ("hole-off-pattern" in told(holes=(SheetHole(size, up, 1, first=0.5),))) is off


@pytest.mark.parametrize("hair", [-HAIR, HAIR])
@pytest.mark.parametrize("kind", [SeamKind.LAP, SeamKind.GROOVED])
def test_a_hole_in_the_seam(kind: SeamKind, hair: float) -> None:
    """What the seam covers is a strip along the start edge; of a grooved one, along the end edge as well."""
    covered, size = box(0.0, 0.0, 0.015, 0.2), 0.02
    places = [0.015 + size / 2 + hair] + ([GIRTH - 0.015 - size / 2 - hair] if kind is SeamKind.GROOVED else [])
    for at in places:
        from_end = min(at, GIRTH - at)
        meets = covered.intersects(Point(from_end, 0.1).buffer(size / 2, quad_segs=2000))
        names = told(holes=(SheetHole(size, 0.1, 1, first=at / GIRTH),), seam=Seam(kind, 0.015))
        assert ("hole-in-seam" in names) is meets is (hair < 0)


@pytest.mark.parametrize("hair", [-HAIR, HAIR])
def test_two_holes_in_one_another(hair: float) -> None:
    """Eight round a pipe, so large that they touch; a thickness smaller, they are close no longer."""
    apart = Point(GIRTH / 16, 0.1).distance(Point(GIRTH * 3 / 16, 0.1))
    assert ("holes-overlap" in told(holes=(SheetHole(apart - hair, 0.1, 8),))) is (hair < 0)
    assert ("holes-close" in told(holes=(SheetHole(apart - 0.001 - hair, 0.1, 8),))) is (hair < 0)


@pytest.mark.parametrize("hair", [-HAIR, HAIR])
def test_lugs_past_an_end_and_in_one_another(hair: float) -> None:
    edge = LineString([(0.0, 0.2), (GIRTH, 0.2)])
    for at in (0.02 + hair, GIRTH - 0.02 - hair):
        root = LineString([(at - 0.02, 0.2), (at + 0.02, 0.2)])
        past = root.difference(edge).length > 1e-12
        assert ("lug-too-wide" in told(lugs=(Lug("bottom", 1, 0.04, length=0.02, first=at / GIRTH),))) is past
    space = edge.interpolate(0.75, normalized=True).x - edge.interpolate(0.25, normalized=True).x
    two = told(lugs=(Lug("bottom", 4, space / 2 - hair, length=0.02),))
    assert ("lugs-overlap" in two) is (hair < 0)


@pytest.mark.parametrize("hair", [-HAIR, HAIR])
def test_a_lug_over_the_corner_of_a_hexagon(hair: float) -> None:
    """A corner of the base lies half a side from the seam; the lug's root ends there."""
    around = Point(0.0, 0.0).buffer(0.1 / math.cos(math.pi / 6), quad_segs=2)
    hexagon = [(math.cos(k * math.pi / 3), math.sin(k * math.pi / 3)) for k in range(7)]
    side = LineString(hexagon).length / 6 * around.bounds[2]
    at = side / 2 + 0.01 + hair
    lug = Lug("bottom", 1, 0.02, length=0.02, first=at / (6 * side))
    assert ("lug-on-corner" in told(Pyramid(6, 0.2, 0.04, 0.08), lugs=(lug,))) is (hair < 0)


@pytest.mark.parametrize("parts", [1, 2])
def test_a_hem_as_wide_as_the_pipe_s_radius(parts: int) -> None:
    """The radius from the middle to the rim; on the way there the strain is told in parts of it."""
    radius = Point(0.0, 0.0).distance(Point(0.0, 0.0).buffer(0.05, quad_segs=1000).exterior)
    for size, wide in ((radius - HAIR, False), (radius + HAIR, True)):
        assert ("hem-too-wide" in told(edges=(Edge("top", EdgeKind.HEM, size),), parts=parts)) is wide
    says = told(edges=(Edge("top", EdgeKind.HEM, 0.6 * radius),), parts=parts)["hem-on-tight-round"]
    assert "by up to 60 %" in says
