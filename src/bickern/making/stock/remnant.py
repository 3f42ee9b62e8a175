"""What is left of a sheet when parts have been cut out of it: pieces worth keeping, never more metal than there is."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bickern.geometry.pack.shapes.chords import polygon_round, polygon_within
from bickern.geometry.polygon import Loop, from_points
from bickern.making.shop import Cutting
from bickern.making.stock.rack import StockSheet
from bickern.making.stock.worth import part_of

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

COARSE = 2.5e-4
"""How far the straights of a remnant may leave an arc [m], always to the side where metal is: finer than a scriber."""
DUST = 1e-7
"""What rounding may leave along an edge [m]."""


@dataclass(frozen=True, slots=True)
class CutOut:
    """One part where it is cut out of a sheet: its outline, and holes [m] out of which metal is kept too."""

    outline: Loop
    cutouts: tuple[Loop, ...] = ()


def left_of(sheet: StockSheet, cuts: Sequence[Loop | CutOut], cutting: Cutting) -> tuple[StockSheet, ...]:
    """What is left of `sheet` beside the parts, biggest first: every piece at least `least_sheet` wide.

    Round each part the kerf is lost, or the gap where that is wider. Tongues narrower than `least_sheet` count as cut
    off; arcs become straights. Every piece lies wholly in what is truly left. Price by the share of the area.
    """
    import shapely

    whole = _sound(polygon_within(sheet.outline, COARSE, sheet.cutouts))
    gone = shapely.union_all([_gone(cut, max(cutting.kerf, cutting.gap)) for cut in cuts])
    wide = _wide(whole.difference(gone), cutting.least_sheet)
    # where a corner is kept sharp, a sliver of it may come away from its piece
    pieces = [one for one in _polygons(wide) if not one.buffer(3 * DUST - cutting.least_sheet / 2).is_empty]
    return tuple(_piece(sheet, one, whole.area) for one in sorted(pieces, key=lambda one: -one.area))


def _gone(cut: Loop | CutOut, lost: float) -> "BaseGeometry":
    """What one part takes, with what is lost round it; sharp corners are squared off, not rounded."""
    part = CutOut(cut) if isinstance(cut, Loop) else cut
    shape = _sound(polygon_round(part.outline, COARSE, part.cutouts))
    return shape.buffer(lost, join_style="mitre", mitre_limit=2.0)


def _wide(shape: "BaseGeometry", width: float) -> "BaseGeometry":
    """What a disc of that width [m] can be moved about in, sharp corners kept; the shape itself where that is all."""
    import shapely

    if width <= 0 or shape.is_empty:
        return shape
    core = shape.buffer(-width / 2 * (1 - 1e-9), join_style="mitre")
    opened = core.buffer(width / 2, join_style="mitre")
    kept = [piece for piece in _polygons(shape) if piece.intersects(core)]
    return shapely.union_all([_trimmed(piece, piece.intersection(opened)) for piece in kept])


def _trimmed(piece: "Polygon", wide: "BaseGeometry") -> "BaseGeometry":
    """The wide part of a piece, drawn inward by the dust of its reckoning; where nothing was narrow, the piece."""
    if wide.area > piece.area * (1 - 1e-6):
        return piece
    return _sound(wide.buffer(-DUST, join_style="mitre").simplify(DUST))


def _polygons(shape: "BaseGeometry") -> list["Polygon"]:
    import shapely

    return [part for part in shapely.get_parts(shape) if part.geom_type == "Polygon" and part.area > DUST]


def _sound(shape: "BaseGeometry") -> "BaseGeometry":
    """The same area where lines touch or cross themselves, as plain polygons."""
    return shape if shape.is_valid else shape.buffer(0)


def _piece(sheet: StockSheet, shape: "Polygon", whole: float) -> StockSheet:
    import shapely

    drawn = shapely.orient_polygons(shape)
    outline, *holes = (from_points(list(ring.coords)[:-1]) for ring in (drawn.exterior, *drawn.interiors))
    price = part_of(sheet.price, shape.area, whole).rounded() if sheet.price else None
    return replace(
        sheet, id="", outline=outline, cutouts=tuple(holes), price=price, offcut=True, of=sheet.id, version=0
    )
