"""Round holes divided evenly along an edge, each square up from it along the surface."""

from bickern.parts.sheet.chain import Chain, chain_length, spot_at
from bickern.parts.sheet.result import PatternHole
from bickern.parts.sheet.rims import shares_round
from bickern.parts.sheet.spec import SheetHole


def divided(hole: SheetHole, low: float = 0.0, high: float = 1.0) -> tuple[float, ...]:
    """Shares of the way round (0..1) that lie in this part of the round, told from the part's own start."""
    return tuple((s - low) / (high - low) for s in shares_round(hole.number, hole.first) if low <= s < high)


def on_edge(hole: SheetHole, edge: Chain, shares: tuple[float, ...]) -> tuple[PatternHole, ...]:
    """Holes up from an edge whose outside is on the right."""
    length = chain_length(edge)
    return tuple(PatternHole(spot_at(edge, s * length).off(0.0, -hole.up), hole.size, hole.name) for s in shares)
