"""Which parts have room on which sheets at all. Only what is surely too large for all is left out of the search."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bickern.geometry.blank import fits_in, sizes_turned
from bickern.geometry.pack.shapes.asked import Part, Remnant
from bickern.geometry.pack.shapes.chords import polygon_round, polygon_within
from bickern.geometry.pack.shapes.turns import room_on

if TYPE_CHECKING:
    from shapely import Polygon

FINE = 5e-6
"""How far straights may leave arcs here [m]."""
LESS = 2e-5
"""How much larger all room is taken to be than it is [m]: more than straights for arcs and the exact check let pass."""
TRUE = 0.98
"""Share of a distance that a shape shrunk by it surely loses: shrinking is exact to a hundredth of the distance."""
NEAR = 2e-4
"""A part that may lie any way and misses a box by no more than this [m] may go in: its turn is found by steps."""
HALVINGS = 14
"""How often the span that the half width of a room lies in is halved."""


@dataclass(frozen=True, slots=True)
class Able:
    """Parts that some sheet may have room for, the sheets that have it, and the keys of the other parts."""

    parts: tuple[Part, ...]
    remnants: tuple[Remnant, ...]
    large: tuple[str, ...]
    roomless: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Room:
    """One piece of what is left of a sheet within its margin, each taken a little too large: box and area, and the
    half width: the radius of the largest disc in it, where that counts [m]."""

    wide: float
    tall: float
    area: float
    half: float


@dataclass(frozen=True, slots=True)
class _Need:
    """What a part needs, each taken a little too small: its area, and the radius of a disc within its metal [m]."""

    area: float
    half: float


def able(parts: Sequence[Part], remnants: Sequence[Remnant], margin: float) -> Able:
    """Sorts parts and sheets; `large`: larger than the box of every sheet, `roomless`: in no sheet's edges."""
    boxes = [room_on(one, margin) for one in remnants]
    boxed = [part for part in parts if any(goes(part, *box) for box in boxes)]
    needs = {part.key: _need(part) for part in boxed}
    widest = max((need.half for need in needs.values()), default=0.0)
    some = set[str]()
    sheets = []
    for sheet in remnants if boxed else ():
        rooms = tuple(_rooms(sheet, margin, widest))
        on = {part.key for part in boxed if any(_has_room(part, needs[part.key], room) for room in rooms)}
        some |= on
        sheets += [sheet] if on else []
    large = tuple(part.key for part in parts if part.key not in needs)
    roomless = tuple(part.key for part in boxed if part.key not in some)
    return Able(tuple(part for part in boxed if part.key in some), tuple(sheets), large, roomless)


def goes(part: Part, wide: float, tall: float) -> bool:
    """Whether a part is no larger than a box [m], at one of its turns."""
    if min(wide, tall) <= 0:
        return False
    turns = (0.0, math.pi / 2) if part.turns is None else part.turns
    if any(w <= wide and t <= tall for w, t in (sizes_turned(part.outline, turn) for turn in turns)):
        return True
    if part.turns is not None:
        return False
    fit = fits_in(part.outline, wide, tall)
    return max(fit.short_width, fit.short_height) <= NEAR


def _has_room(part: Part, need: _Need, room: _Room) -> bool:
    """A part is all of one piece: it lies in one piece of a sheet, and so does the disc within it."""
    return need.area <= room.area and need.half <= room.half and goes(part, room.wide, room.tall)


def _need(part: Part) -> _Need:
    """By a polygon within the part: holes are no metal, a part may lie round a hole of the sheet."""
    import shapely

    shape = polygon_within(part.outline, FINE, part.cutouts)
    if not shape.is_valid or shape.is_empty:
        return _Need(0.0, 0.0)
    size = math.sqrt(shape.area)
    half = float(shapely.maximum_inscribed_circle(shape, tolerance=size / 500).length)
    return _Need(shape.area, half)


def _rooms(sheet: Remnant, margin: float, widest: float) -> Iterator[_Room]:
    """What is left of a sheet within its margin, piece by piece; `widest`: no part needs a disc larger than this."""
    import shapely

    whole = polygon_round(sheet.outline, FINE, sheet.cutouts)
    if not whole.is_valid:  # a slot so narrow that straights round it meet: nothing more than its box is known
        yield _Room(math.inf, math.inf, math.inf, math.inf)
        return
    for piece in shapely.get_parts(_shrunk(whole, margin)):
        if piece.is_empty:
            continue
        x0, y0, x1, y1 = piece.bounds
        more = LESS * (piece.length + 4 * (x1 - x0 + y1 - y0))
        yield _Room(x1 - x0 + LESS, y1 - y0 + LESS, piece.area + more, _half(piece, widest))


def _shrunk(shape: "Polygon", by: float) -> "Polygon":
    """A shape that is surely no smaller than the one whose edges all lie `by` [m] within this one's."""
    return shape.buffer(LESS - TRUE * by, quad_segs=32)


def _half(piece: "Polygon", widest: float) -> float:
    """No less than the radius of the largest disc in a piece [m], or than `widest` where such a disc lies in it."""
    import shapely

    found = float(shapely.maximum_inscribed_circle(piece, tolerance=math.sqrt(piece.area) / 100).length)
    if found >= widest:
        return widest
    x0, y0, x1, y1 = piece.bounds
    low, high = found, max(found, min(x1 - x0, y1 - y0) / 2)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if piece.buffer(-middle).is_empty:
            high = middle
        else:
            low = middle
    return float(high / TRUE + LESS)
