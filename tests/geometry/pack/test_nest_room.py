"""What is told to have no room before any search: only what truly has none (exact mathematics, shapes by shapely)."""

import math
import random

import pytest
import shapely
from shapely.affinity import rotate, translate

from bickern.geometry.pack.shapes import nest as door
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.nest import nest
from bickern.geometry.pack.shapes.room import able
from bickern.geometry.polygon import Loop, disc, flipped, from_points, moved, rectangle, sector, to_shapely

MM = 1e-3


def ell(arm: float) -> Loop:
    """An L of 0.6 x 0.5 m with arms of one width [m]."""
    return from_points([(0, 0), (0.6, 0), (0.6, arm), (arm, arm), (arm, 0.5), (0, 0.5)])


@pytest.fixture
def no_search(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(door, "_found", lambda *_: pytest.fail("a search was made"))


@pytest.mark.usefixtures("no_search")
@pytest.mark.parametrize("turns", [None, (0.0, math.pi / 2)])
@pytest.mark.parametrize(
    ("part", "arm", "why"),
    [
        (rectangle(0.02, 0.01), 0.009, "all margin: nothing is 5 mm from an edge"),
        (disc(0.02), 0.04, "the disc in the corner of arms of width w is w / (1 + sqrt 1/2) wide at most"),
        (rectangle(0.05, 0.05), 0.05, "so is the one within the square, 50 mm and the margin on both sides"),
        (rectangle(0.2, 0.19), 0.05, "more metal than the L has within its margin"),
    ],
)
def test_a_thin_ell_is_told_at_once(part: Loop, arm: float, why: str, turns: tuple[float, ...] | None) -> None:
    asked = [Part("plate", part, (), 3, turns)]
    made = nest(asked, [Remnant("ell", ell(arm))], Spacing(0.0, 5 * MM))
    assert made.laid == (), why
    assert made.short == (("plate", 3),)
    assert made.why == "no room within the edges of any sheet: plate"
    assert not made.cut_short


@pytest.mark.usefixtures("no_search")
def test_pieces_that_a_margin_parts_are_looked_at_one_by_one() -> None:
    """A dumb-bell: two squares of 0.2 m on a neck 8 mm wide; within 5 mm of margin nothing joins them."""
    left = [(0.2, 0.104), (0.2, 0.2), (0, 0.2), (0, 0), (0.2, 0), (0.2, 0.096)]
    bell = from_points([*left, *((0.6 - x, 0.2 - y) for x, y in left)])
    made = nest([Part("bar", rectangle(0.3, 0.004))], [Remnant("bell", bell)], Spacing(0.0, 5 * MM))
    assert made.why == "no room within the edges of any sheet: bar"
    assert able([Part("bar", rectangle(0.3, 0.004))], [Remnant("bell", bell)], 0.0).parts
    assert able([Part("bar", rectangle(0.18, 0.18))], [Remnant("bell", bell)], 5 * MM).parts


def test_the_rest_is_laid_and_sheets_without_room_are_left_alone() -> None:
    parts = [Part("plate", rectangle(0.1, 0.1), (), 2), Part("post", rectangle(0.9, 0.02)), Part("strip", disc(0.012))]
    sheets = [Remnant("thin", ell(0.009), cost=0.0), Remnant("arms", ell(0.09), cost=1.0)]
    made = nest(parts, sheets, Spacing(2 * MM, 5 * MM), effort=60)
    assert {one.remnant for one in made.laid} == {"arms"}
    assert dict(made.short) == {"plate": 2, "post": 1}
    assert made.why == "larger than every sheet: post; no room within the edges of any sheet: plate"
    can = able(parts, sheets, 5 * MM)
    assert [one.key for one in can.remnants] == ["arms"]


def test_what_just_fits_is_never_refused() -> None:
    """Exact fits: a strip in an L's arm, a disc in its square, a disc in a wider ring of metal, a ring round a hole."""
    fits = [
        (Part("p", rectangle(0.59, 0.04)), Remnant("s", ell(0.05)), 5 * MM),
        (Part("p", disc(0.02)), Remnant("s", rectangle(0.05, 0.05)), 5 * MM),
        (Part("p", disc(0.02)), Remnant("s", ell(0.025 * (1 + math.sqrt(0.5)))), 5 * MM),
        (Part("p", disc(0.095)), Remnant("s", disc(0.1)), 5 * MM),
        (Part("p", disc(0.02)), Remnant("s", disc(0.2), (flipped(disc(0.15)),)), 5 * MM),
        (Part("p", disc(0.1), (flipped(disc(0.05)),)), Remnant("s", disc(0.12), (flipped(disc(0.04)),)), 10 * MM),
        (Part("p", ell(0.05), turns=(0.0,)), Remnant("s", ell(0.05)), 0.0),
    ]
    for part, sheet, margin in fits:
        assert able([part], [sheet], margin).parts == (part,)


def _loop_of(shape: shapely.Polygon) -> tuple[Loop, tuple[Loop, ...]]:
    rings = [list(ring.coords[:-1]) for ring in (shape.exterior, *shape.interiors)]
    return from_points(rings[0]), tuple(from_points(ring) for ring in rings[1:])


def _random_part(draw: random.Random) -> tuple[Loop, tuple[Loop, ...]]:
    size = draw.uniform(0.01, 0.4)
    kind = draw.randrange(5)
    if kind == 0:
        return sector(size, size * draw.uniform(0.2, 0.95), draw.uniform(0.3, 5.5)), ()
    if kind == 1:
        return disc(size), (flipped(disc(size * draw.uniform(0.2, 0.97))),)
    if kind == 2:
        return rectangle(size, size * draw.uniform(0.01, 1.0)), ()
    if kind == 3:
        return moved(ell(draw.uniform(0.01, 0.4)), turn=draw.uniform(0, 6)), ()
    corners = [(size * draw.uniform(0.2, 1.0), n * math.pi / 4) for n in range(8)]
    return from_points([(r * math.cos(a), r * math.sin(a)) for r, a in corners]), ()


@pytest.mark.parametrize("seed", [*range(40), 1070])
def test_law_a_part_has_room_in_its_own_outline_grown_by_the_margin(seed: int) -> None:
    """The sheet is made round the part, turned and shifted, so the part is known to fit: as tight as may be."""
    draw = random.Random(seed)
    outline, cutouts = _random_part(draw)
    margin, steps = draw.choice([0.0, 1 * MM, 3 * MM, 12 * MM, 50 * MM, 100 * MM]), draw.choice([16, 32, 128])
    more = (margin + 2e-6) / math.cos(math.pi / 4 / steps)  # so that chords round its corners keep the margin too
    grown = to_shapely(outline, 1e-7, cutouts).buffer(more, quad_segs=steps)
    lying = translate(rotate(grown, draw.uniform(0, 360)), draw.uniform(-2, 2), draw.uniform(-2, 2))
    sheet = Remnant("s", *_loop_of(lying))
    part = Part("p", outline, cutouts)
    assert able([part], [sheet], margin).parts == (part,)
