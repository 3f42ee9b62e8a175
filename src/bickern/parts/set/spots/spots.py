"""Named places on any piece, where they lie and what can be joined there."""

from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.result import Spot
from bickern.parts.set.spots.bar import bar_spots
from bickern.parts.set.spots.ring import ring_spots
from bickern.parts.set.spots.sheet import sheet_spots
from bickern.parts.sheet.allowances import SheetRules


def spot_on(
    piece: PieceResult,
    place: str,
    rules: SheetRules = SheetRules(),  # noqa: B008 - frozen
    *,
    filled: bool = False,
) -> tuple[Spot, ...]:
    """Every place that a name stands for on a piece, in the piece's own coordinates; none where it is not there.

    `place`: "" for the whole piece, `palm`, `start of palm`, `lugs` (all of them), `lugs 1` (one). `filled`: a rivet, a
    pin or a screw goes through, so that a stretch of bar stands for its holes. `rules`: the shop's, for sheet.
    """
    if isinstance(piece, BarResult):
        return bar_spots(piece, place, filled)
    if isinstance(piece, RingResult):
        return ring_spots(piece, place)
    return sheet_spots(piece, place, rules)
