"""Named places of a sheet piece: lugs and holes one by one, rims, the seam, walls, and its faces."""

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

from bickern.geometry.polygon import bounds
from bickern.geometry.pose import Pose, standing
from bickern.geometry.space import Vec, cross, distance, times
from bickern.parts.set.result import Spot, SpotKind
from bickern.parts.set.spots.seats import edge_of_hole, line_seat, ring_seat
from bickern.parts.sheet.again import middle_of
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.places import Place, hole_places, lug_places, rim_of, seam_of, wall_places
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, Cone, FlatOutline, Lug, Pan

_ROUND = 72
"""Stations round a rim."""
_THIRDS = 3
"""Places round a rim, of which the middle one is across from the seam."""
_DOWN: Vec = (0.0, 0.0, -1.0)
_WALLS = ("front", "back", "left", "right")


def sheet_spots(sheet: SheetResult, place: str, rules: SheetRules) -> tuple[Spot, ...]:
    """Every place of that name on a sheet piece, in its rolled-up coordinates; none where it is not there."""
    found = _named(sheet, place, rules)
    head, _, last = place.rpartition(" ")
    if found or not head or not last.isdigit():
        return found
    return _named(sheet, head, rules)[max(0, int(last) - 1) : int(last)]


@lru_cache(maxsize=64)
def _named(sheet: SheetResult, name: str, rules: SheetRules) -> tuple[Spot, ...]:
    lugs = tuple(g for g in sheet.spec.lugs if name and name in (g.name, "lugs"))
    if lugs:
        return _numbered(name, [_lug(sheet, p) for p in lug_places(_with(sheet, lugs), rules)])
    holes = [p for p in hole_places(sheet, rules) if name and name in (p.name, "holes")]
    if holes:
        return _numbered(name, [_hole(sheet, p) for p in holes])
    make = _BY_NAME.get(name)
    spot = make(sheet, name, rules) if make is not None else None
    return (spot,) if spot is not None else ()


def _with(sheet: SheetResult, lugs: tuple[Lug, ...]) -> SheetResult:
    return replace(sheet, spec=replace(sheet.spec, lugs=lugs))


def _numbered(name: str, spots: list[Spot]) -> tuple[Spot, ...]:
    if len(spots) == 1:
        return tuple(spots)
    return tuple(replace(spot, name=f"{name} {i}") for i, spot in enumerate(spots, 1))


def _lug(sheet: SheetResult, place: Place) -> Spot:
    """A lug rolled up is an eye of sheet, its axis along the edge; a flat one is a face."""
    lug = next(g for g in sheet.spec.lugs if g.name == place.name)
    thick = sheet.spec.thick
    if not place.across:
        return Spot(place.name, SpotKind.FACE, standing(place.point, place.out, place.along), 0.0, thick)
    pose = standing(place.point, place.along, cross(place.along, place.out))
    seat = ring_seat(place.name, pose, 0.0, (place.across + thick) / 2, (lug.width / 2, thick / 2), square=True)
    return Spot(place.name, SpotKind.EYE, pose, place.across, lug.width, seat)


def _hole(sheet: SheetResult, place: Place) -> Spot:
    pose = standing(place.point, place.out, place.along)
    seat = edge_of_hole(place.name, pose, place.across)
    return Spot(place.name, SpotKind.OPENING, pose, place.across, sheet.spec.thick, seat)


def _rim(sheet: SheetResult, name: str, rules: SheetRules) -> Spot | None:
    """The edge of a skin or a bowl all round: a line as thick as the sheet."""
    surface = middle_of(sheet)
    if isinstance(surface, Pan | FlatOutline):
        return _face(sheet, name, rules)
    pointed = isinstance(surface, Cone) and surface.top <= 0.0
    on = name if name in ("top", "bottom") else "bottom" if pointed else "top"
    places = rim_of(sheet, on, _ROUND)
    if len(places) < 3:
        return None
    points = [p.point for p in places]
    middle = times((sum(p[0] for p in points), sum(p[1] for p in points), sum(p[2] for p in points)), 1 / len(points))
    seat = line_seat(name, points, [p.out for p in places], (0.0, sheet.spec.thick / 2), closed=True)
    across = 2 * min(distance(p, middle) for p in points)
    axis = (0.0, 0.0, 1.0)
    return Spot(name, SpotKind.BAR, standing(middle, axis, (1.0, 0.0, 0.0)), across, sheet.spec.thick, seat)


def _seam(sheet: SheetResult, name: str, rules: SheetRules) -> Spot | None:
    if isinstance(middle_of(sheet), Bowl | Pan | FlatOutline):
        return None
    place = seam_of(sheet)
    return Spot(name, SpotKind.FACE, standing(place.point, place.out, place.along), 0.0, sheet.spec.thick)


def _wall(sheet: SheetResult, name: str, rules: SheetRules) -> Spot | None:
    """The middle of the top of a pan's wall."""
    place = next((p for p in wall_places(sheet, rules) if p.name == name), None)
    if place is None:
        return None
    return Spot(name, SpotKind.FACE, standing(place.point, place.out, place.along), 0.0, sheet.spec.thick)


def _face(sheet: SheetResult, name: str, rules: SheetRules) -> Spot:
    """The face that looks out: under a pan or a bowl, the middle of a flat outline, half way up the far side of a skin.

    A skin's far side is the one across from its seam.
    """
    surface, thick = middle_of(sheet), sheet.spec.thick
    if isinstance(surface, Bowl | Pan):
        return Spot(name, SpotKind.FACE, standing((0.0, 0.0, 0.0), _DOWN, (1.0, 0.0, 0.0)), 0.0, thick)
    if isinstance(surface, FlatOutline):
        return Spot(name, SpotKind.FACE, _flat_middle(surface), 0.0, thick)
    low, high = rim_of(sheet, "bottom", _THIRDS), rim_of(sheet, "top", _THIRDS)
    foot = low[len(low) // 2]
    head = high[len(high) // 2] if high else foot
    middle = times((foot.point[0] + head.point[0], foot.point[1] + head.point[1], foot.point[2] + head.point[2]), 0.5)
    return Spot(name, SpotKind.FACE, standing(middle, foot.out, foot.along), 0.0, thick)


def _flat_middle(surface: FlatOutline) -> Pose:
    (left, low), (right, top) = bounds(surface.outer)
    return Pose(((left + right) / 2, (low + top) / 2, 0.0))


_BY_NAME: dict[str, Callable[[SheetResult, str, SheetRules], Spot | None]] = {
    "": _face,
    "middle": _face,
    "rim": _rim,
    "edge": _rim,
    "top": _rim,
    "bottom": _rim,
    "seam": _seam,
    **dict.fromkeys(_WALLS, _wall),
}
