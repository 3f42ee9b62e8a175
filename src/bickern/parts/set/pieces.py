"""The three kinds of piece that a set is put together from."""

from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult

PieceResult = BarResult | RingResult | SheetResult
"""Any piece, reckoned."""
Pieces = dict[str, PieceResult]
"""Pieces by their names in the job."""


def links_in(piece: PieceResult) -> int:
    """Links of one chain; 1 of everything that is no chain."""
    return piece.chain.links if isinstance(piece, RingResult) and piece.chain is not None else 1


def parts_in(piece: PieceResult) -> int:
    """Single things of a piece in one set: every link of every chain counts."""
    return piece.spec.make * links_in(piece)
