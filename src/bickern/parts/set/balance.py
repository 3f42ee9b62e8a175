"""What one finished part weighs and where it balances, in its own coordinates."""

from bickern.geometry.solid.solid import Solid
from bickern.geometry.space import ORIGIN, Vec
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult


def mass_of(piece: PieceResult) -> float:
    """Mass [kg] of one finished part; a ring weighs what its middle line holds, whatever bar was taken for it."""
    return piece.mass * piece.bare / piece.taken if isinstance(piece, RingResult) else piece.mass


def centre_of(piece: PieceResult, skin: Solid) -> Vec:
    """Where it balances [m]; sheet as its solid does, that is its `skin`."""
    if isinstance(piece, BarResult):
        return piece.centre_of_mass
    if isinstance(piece, RingResult):
        return ORIGIN
    from bickern.geometry.solid.weigh import centre

    return centre(skin)
