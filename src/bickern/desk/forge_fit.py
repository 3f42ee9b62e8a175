"""Whether this forge can make a piece: what its shop file says of the fire, the tongs and the drifts that hang there.

What the shop file does not tell is not asked for.
"""

from collections.abc import Iterator

from bickern.desk.thickness import said_section
from bickern.iron.section import Section
from bickern.making.shop import Shop, hangs_there
from bickern.making.work.operations import of_any
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.say import say_both
from bickern.paper.copy import PieceResult
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import HoleBy
from bickern.parts.sheet.result import SheetResult


def forge_findings(piece: PieceResult, shop: Shop) -> tuple[Finding, ...]:
    """What this forge lacks for a piece; each at the piece's or the hole's own line."""
    if isinstance(piece, SheetResult) or not _tells(shop) or "heat" not in of_any(piece, shop):
        return ()
    found = (*_fire(piece, shop), *_tongs(piece, shop), *(_drifts(piece, shop) if isinstance(piece, BarResult) else ()))
    return tuple(f.at(piece.spec.where) for f in found)


def _tells(shop: Shop) -> bool:
    """Whether the shop file tells anything that a piece could lack: its works are only looked through where it does."""
    return shop.fire.opening > 0 or bool(shop.tongs or shop.drifts)


def _fire(piece: PieceResult, shop: Shop) -> Iterator[Finding]:
    bar = _bar(piece)
    if 0 < shop.fire.opening < max(bar.width, bar.thick):
        says = (
            f"{said_section(bar, shop.style)} does not enter the fire, which is {_said(shop.fire.opening, shop)} wide"
        )
        yield stop("too-big-for-fire", says, "take thinner bar, or another fire")


def _tongs(piece: PieceResult, shop: Shop) -> Iterator[Finding]:
    thin = min(_bar(piece).width, _bar(piece).thick)
    if not hangs_there(thin, shop.tongs):
        says = f"no tongs here hold {_said(thin, shop)}"
        yield warn("no-tongs", says, "make or borrow tongs of that size first; what is not gripped flies")


def _drifts(piece: BarResult, shop: Shop) -> Iterator[Finding]:
    for hole in piece.spec.holes:
        if hole.by is HoleBy.SLIT and not hangs_there(hole.size, shop.drifts):
            says = f"no drift of {_said(hole.size, shop)} hangs here"
            yield warn("no-drift", says, "make the drift first, or take the size of one there is").at(hole.where)


def _bar(piece: PieceResult) -> Section:
    assert not isinstance(piece, SheetResult)
    return piece.stock_section if isinstance(piece, BarResult) else piece.spec.wire


def _said(length: float, shop: Shop) -> str:
    return say_both(length, shop.style)
