"""Whether a test piece comes first: where the plan leans on a figure that nobody has measured in this shop."""

from bickern.iron.steel import FireWeld, find_steel
from bickern.making.shop import Shop
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.resolve import CORNERED
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.ring.spec import Closing, RingResult
from bickern.parts.set.pieces import PieceResult
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl

_PRIOR = BarRules()
"""What a shop that told nothing of its own reckons with."""
WELD_CARE = "this steel does not weld every time: try a weld on offcuts of it first"


def test_first(piece: PieceResult, shop: Shop, make: int) -> str:
    """Words why one is made before the rest; "" where no figure is in doubt, or only one is made of sure metal.

    `make`: how many in all sets.
    Figures of the shop's own (in its shop file) are trusted; those that bickern takes for granted are not.
    """
    care = WELD_CARE if _welded(piece) and _with_care(piece) else ""
    doubts = _doubts(piece, shop) if make > 1 else ()
    one = f"make one and measure it before the rest: nobody has measured here {_listed(doubts)}" if doubts else ""
    return "; ".join(says for says in (one, care) if says)


def _listed(doubts: tuple[str, ...]) -> str:
    *before, last = doubts
    return f"{', '.join(before)} or {last}" if before else last


def _doubts(piece: PieceResult, shop: Shop) -> tuple[str, ...]:
    if isinstance(piece, BarResult):
        return _of_bar(piece, shop)
    if isinstance(piece, RingResult):
        unknown = piece.spec.closing is Closing.WELDED and shop.ring.weld_times == 1.0
        return ("what the weld takes up",) if unknown else ()
    return ("how far the dish stretches",) if isinstance(piece.spec.surface, Bowl) else ()


def _of_bar(bar: BarResult, shop: Shop) -> tuple[str, ...]:
    worked = [run for run in bar.runs if not run.kept]
    scale = shop.bar.scale_worked == _PRIOR.scale_worked and shop.bar.scale_times == 1.0 and bool(worked)
    corners = shop.bar.corner_fullness == _PRIOR.corner_fullness and any(_cornered(run) for run in worked)
    twist = shop.bar.twist_shortening == _PRIOR.twist_shortening and bool(bar.twists)
    said = (
        ("what the fire takes", scale),
        ("how full the corners come out", corners),
        ("how the length changes in the twist", twist),
        ("how far the end spreads", any(run.outline is not None for run in worked)),
        ("what the weld takes up", bar.weld > 0.0 and shop.bar.weld_times == 1.0),
    )
    own = tuple(words for words, doubted in said if doubted)
    limbs = (words for child in bar.children for words in _of_bar(child, shop))
    return tuple(dict.fromkeys((*own, *limbs)))


def _cornered(run: MetalRun) -> bool:
    return run.outline is None and any(end.shape in CORNERED for end in (run.a, run.b))


def _welded(piece: PieceResult) -> bool:
    if isinstance(piece, SheetResult):
        return False
    if isinstance(piece, RingResult):
        return piece.spec.closing is Closing.WELDED
    return piece.weld > 0.0 or any(branch.at is not None for branch in piece.spec.branches)


def _with_care(piece: PieceResult) -> bool:
    steel = find_steel(piece.spec.steel).value
    return steel is not None and steel.fire_weld is FireWeld.WITH_CARE
