"""The three kinds of piece that a set is put together from."""

from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult

PieceResult = BarResult | RingResult | SheetResult
"""Any piece, reckoned."""
Pieces = dict[str, PieceResult]
"""Pieces by their names in the job."""
