"""Where the holes, lugs, rims, walls and the seam of a sheet piece are once it is rolled up: what else is joined to."""

from dataclasses import dataclass, replace

from bickern.geometry.develop.pattern import Facing
from bickern.geometry.polygon import ArcSeg, bounds, seg_length
from bickern.geometry.space import Vec, times
from bickern.parts.sheet.again import Skin, middle_of, skins_of
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.body.profile import eye_middle
from bickern.parts.sheet.chain import Chain, Spot, backward, chain_length, spot_at
from bickern.parts.sheet.cut import round_holes, tabs_on
from bickern.parts.sheet.flats import rim_tabs
from bickern.parts.sheet.holes import divided
from bickern.parts.sheet.pan import holed_wall, wall_edges, wall_tabs
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.rims import Tab
from bickern.parts.sheet.spec import Bowl, FlatOutline, Lug, Pan, SheetSpec
from bickern.parts.sheet.standing import Stand, dish_of, on_skin, on_wall, outside_of, wall_of


@dataclass(frozen=True, slots=True)
class Place:
    """A named place on the middle of the sheet [m], in the coordinates of the rolled-up piece (see `standing`).

    `out` points out of the piece, square to the sheet, and `along` round its rim (unit vectors). `across` [m]: the
    diameter of a hole or of an eye; an eye's `point` is the middle of its opening and `along` its axis.
    """

    name: str
    point: Vec
    out: Vec
    along: Vec
    across: float = 0.0


def hole_places(result: SheetResult, rules: SheetRules) -> tuple[Place, ...]:
    """Every hole that was asked for, all its copies in order round; rivet holes of a seam are not among them."""
    spec, middle = result.spec, middle_of(result)
    if isinstance(middle, Pan):
        return _pan_holes(result, middle, rules)
    if isinstance(middle, FlatOutline):
        return tuple(_round_cuts(middle))
    if isinstance(middle, Bowl):
        development = dish_of(middle)
        holes = result.patterns[0].holes
        stands = (on_skin(development, Spot(h.centre, _round_the_middle(h.centre))) for h in holes)
        found = zip(holes, stands, strict=True)
        return tuple(Place(h.says, s.point, outside_of(s, Facing.INSIDE), s.along, h.size) for h, s in found)
    skins, single = skins_of(result), [replace(spec, holes=(hole,)) for hole in spec.holes]
    return tuple(place for one in single for skin in skins for place in _skin_holes(skin, one))


def lug_places(result: SheetResult, rules: SheetRules) -> tuple[Place, ...]:
    """Every lug, all its copies in order round: of an eye the middle of its opening, of a flat lug its own middle."""
    return tuple(place for lug in result.spec.lugs for place in _lugs(result, lug, rules))


def rim_of(result: SheetResult, on: str, count: int = 24) -> tuple[Place, ...]:
    """Places round a skin's `top` or `bottom`, or the rim of a bowl, evenly divided; `out` square to the sheet."""
    middle = middle_of(result)
    if isinstance(middle, Bowl):
        chain, development = rim_tabs(middle, replace(result.spec, lugs=()), SheetRules())[0], dish_of(middle)
        spots = (spot_at(chain, chain_length(chain) * i / count) for i in range(count))
        stands = [on_skin(development, spot) for spot in spots]
        return tuple(Place(on, s.point, outside_of(s, Facing.INSIDE), s.along) for s in stands)
    skins = skins_of(result)
    return tuple(p for skin in skins for p in _rim_part(skin, on, max(1, count // len(skins))))


def seam_of(result: SheetResult) -> Place:
    """The middle of a skin's (first) seam; `along` goes up it."""
    skin = skins_of(result)[0]
    line = skin.net.start
    stand = on_skin(skin.development, spot_at((line,), seg_length(line) / 2))
    return Place("seam", stand.point, stand.toward, times(stand.along, -1.0))


def wall_places(result: SheetResult, rules: SheetRules) -> tuple[Place, ...]:
    """The middle of each wall's top edge of a pan, by the wall's name, and the middle of its bottom; none of others."""
    pan = middle_of(result)
    if not isinstance(pan, Pan):
        return ()
    found = [Place("bottom", (0.0, 0.0, 0.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0))]
    for name, edge in wall_edges(pan, result.spec.thick, rules):
        stand = on_wall(pan, wall_of(pan, name, result.spec.thick, rules), spot_at((edge,), seg_length(edge) / 2).point)
        found.append(Place(name, stand.point, times(stand.toward, -1.0), stand.along))
    return tuple(found)


def _rim_part(skin: Skin, on: str, count: int) -> tuple[Place, ...]:
    chain = skin.net.bottom if on == "bottom" else skin.net.top
    spots = (spot_at(chain, chain_length(chain) * (i + 0.5) / count) for i in range(count if chain else 0))
    stands = [on_skin(skin.development, spot) for spot in spots]
    return tuple(Place(on, s.point, s.toward, s.along) for s in stands)


def _skin_holes(skin: Skin, spec: SheetSpec) -> tuple[Place, ...]:
    """The one hole that `spec` asks for, so often as it stands on this part of the round."""
    holes = round_holes(skin.net, spec, skin.covers)
    length = chain_length(skin.net.bottom)
    spots = [spot_at(skin.net.bottom, s * length) for s in divided(spec.holes[0], *skin.covers)]
    stands = [on_skin(skin.development, Spot(h.centre, s.along)) for h, s in zip(holes, spots, strict=True)]
    return tuple(Place(spec.holes[0].name, s.point, s.toward, s.along, spec.holes[0].size) for s in stands)


def _round_the_middle(point: tuple[float, float]) -> tuple[float, float]:
    """Direction counter-clockwise round the origin."""
    far = (point[0] ** 2 + point[1] ** 2) ** 0.5
    return (-point[1] / far, point[0] / far) if far > 0.0 else (1.0, 0.0)


def _pan_holes(result: SheetResult, pan: Pan, rules: SheetRules) -> tuple[Place, ...]:
    if not (name := holed_wall(pan)):
        return ()
    wall = wall_of(pan, name, result.spec.thick, rules)
    holes = result.patterns[0].holes
    stands = (on_wall(pan, wall, h.centre) for h in holes)
    found = zip(holes, stands, strict=True)
    return tuple(Place(h.says, s.point, times(s.toward, -1.0), s.along, h.size) for h, s in found)


def _round_cuts(flat: FlatOutline) -> list[Place]:
    """Round cut-outs of an outline; it lies on z = 0 as it was drawn."""
    found = []
    for loop in flat.holes:
        if len(loop.segs) == 1 and isinstance(loop.segs[0], ArcSeg):
            (left, low), (right, top) = bounds(loop)
            middle = ((left + right) / 2, (low + top) / 2, 0.0)
            found.append(Place("hole", middle, (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), right - left))
    return found


def _lugs(result: SheetResult, lug: Lug, rules: SheetRules) -> list[Place]:
    spec, middle = replace(result.spec, lugs=(lug,)), middle_of(result)
    if isinstance(middle, Bowl):
        chain, tabs = rim_tabs(middle, spec, rules)
        stands = [(tab, on_skin(dish_of(middle), spot_at(chain, tab.at))) for tab in tabs]
        return [_lug_place(tab, stand, Facing.INSIDE, spec.thick, rules) for tab, stand in stands]
    if isinstance(middle, Pan):
        found = []
        edges = dict(wall_edges(middle, spec.thick, rules))
        for name, _, tabs in wall_tabs(middle, spec, rules):
            wall = wall_of(middle, name, spec.thick, rules)
            spots = [(tab, spot_at((edges[name],), tab.at).point) for tab in tabs]
            found += [_lug_place(t, on_wall(middle, wall, p), Facing.INSIDE, spec.thick, rules) for t, p in spots]
        return found
    return [place for skin in skins_of(result) for place in _skin_lugs(skin, spec, lug.on, rules)]


def _skin_lugs(skin: Skin, spec: SheetSpec, on: str, rules: SheetRules) -> list[Place]:
    tabs = tabs_on(skin.net, spec, rules, on, skin.covers)
    chain = edge_walked(skin, on)
    stands = [(tab, on_skin(skin.development, spot_at(chain, tab.at))) for tab in tabs]
    return [_lug_place(tab, stand, Facing.OUTSIDE, spec.thick, rules) for tab, stand in stands]


def edge_walked(skin: Skin, on: str) -> Chain:
    """A skin's bottom or top, walked with the outside on the right."""
    return skin.net.bottom if on == "bottom" else backward(skin.net.top)


def _lug_place(tab: Tab, stand: Stand, facing: Facing, thick: float, rules: SheetRules) -> Place:
    out = outside_of(stand, facing)
    if tab.eye <= 0.0:
        return Place(tab.name, stand.at(0.0, tab.length / 2, 0.0), out, stand.along)
    forward, up, across = eye_middle(tab.eye, thick, rules.eye_straight)
    return Place(tab.name, stand.at(0.0, forward, up), out, stand.along, across)
