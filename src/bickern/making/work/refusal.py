"""Why a piece must not be heated, nor warmed: what is on it, or shut in it."""

from bickern.iron.coating import coating_finding
from bickern.parts.bar.result import BarResult
from bickern.parts.set.pieces import PieceResult

SHUT = (
    "It is a tube that is shut at both ends, with no hole to breathe: it bursts in the fire. Leave one end open, or "
    "drill a hole in it."
)
"""Why a hollow that closes is not heated."""


def refusal(piece: PieceResult) -> str:
    """Why nothing of a piece may go in the fire; "" where it may. What is on it is asked, not told: then it may.

    Limbs and branches count: one that is coated, or not known, keeps all of it out.
    """
    told = piece.spec.coating
    found = coating_finding(told) if told else None
    if found is not None:
        return found.says if found.stops else f"Not in the fire until you know what is on it. {found.says}"
    if not isinstance(piece, BarResult):
        return ""
    if is_shut(piece) and not vents(piece):
        return SHUT
    return next((f"{child.spec.name}: {says}" for child in piece.children if (says := refusal(child))), "")


def is_shut(bar: BarResult) -> bool:
    """Whether a tube is forged shut at both ends, or welded into a ring."""
    if not any(run.a.wall and run.b.wall for run in bar.runs):
        return False
    if bar.spec.closed:
        return bar.spec.welded
    return not bar.runs[0].a.wall and not bar.runs[-1].b.wall


def vents(bar: BarResult) -> frozenset[int]:
    """Numbers of the holes that lie in the hollow part of a tube."""
    hollow = [(run.start, run.end) for run in bar.runs if run.a.wall and run.b.wall]
    return frozenset(i for i, one in enumerate(bar.holes) if any(a <= one.at <= b for a, b in hollow))
