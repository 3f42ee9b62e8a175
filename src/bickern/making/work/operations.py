"""Which operations a piece, a joint or a finish calls for: the keys that cautions and faults hang on.

They are read off the works themselves, so that what is warned of is what is done.
"""

from collections.abc import Iterable

from bickern.making.shop import Shop
from bickern.making.work.bar_works import works_of_bar
from bickern.making.work.finish_works import works_of_finish
from bickern.making.work.joint_works import works_of_joint
from bickern.making.work.result import Work
from bickern.making.work.ring_works import works_of_ring
from bickern.making.work.sheet_works import works_of_sheet
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult, Pieces
from bickern.parts.sheet.result import SheetResult

_HEATED = frozenset({"braze"})
"""Operations done with a torch: they bring the key "heat" though they want no forge."""
_SHOP = Shop()


def of_works(works: Iterable[Work]) -> frozenset[str]:
    """Operations of these works, and "heat" where any of them is hot."""
    done = tuple(works)
    keys = frozenset(w.does for w in done)
    return keys | {"heat"} if keys & _HEATED or any(w.hot for w in done) else keys


def works_of(result: PieceResult, shop: Shop = _SHOP) -> tuple[Work, ...]:
    """Works of any piece, one copy of it."""
    if isinstance(result, BarResult):
        return works_of_bar(result, shop)
    return works_of_ring(result, shop) if isinstance(result, RingResult) else works_of_sheet(result, shop)


def of_any(result: PieceResult, shop: Shop = _SHOP) -> frozenset[str]:
    """Operations of any piece, and what it is: a hollow that is shut, a chain, sheet that stands in heat."""
    return of_works(works_of(result, shop)) | _of_itself(result)


def of_joint(result: JointResult, pieces: Pieces | None = None, shop: Shop = _SHOP) -> frozenset[str]:
    """Operations of a joint; without its `pieces`, what is done to them (scarfs, holes in sheet) is left out."""
    return of_works(works_of_joint(result, pieces or {}, shop))


def of_finish(finish: str, pieces: Iterable[PieceResult] = (), shop: Shop = _SHOP) -> frozenset[str]:
    """Operations that the words of a finish call for, on these pieces."""
    return of_works(works_of_finish(finish, tuple(pieces), shop))


def of_job(
    pieces: Iterable[PieceResult], joints: Iterable[JointResult], finish: str, shop: Shop = _SHOP
) -> frozenset[str]:
    """Operations of a whole job: its pieces, its joints, its finish."""
    made = tuple(pieces)
    named = {p.spec.name: p for p in made}
    parts = (*(of_any(p, shop) for p in made), *(of_joint(j, named, shop) for j in joints))
    return of_finish(finish, made, shop).union(*parts)


def _of_itself(result: PieceResult) -> frozenset[str]:
    if isinstance(result, RingResult):
        return frozenset({"chain"}) if result.chain else frozenset()
    if isinstance(result, SheetResult):
        return frozenset({"stands in heat"}) if result.spec.hot else frozenset()
    hollow = any(run.a.wall or run.b.wall for run in result.runs)
    return frozenset({"shut hollow"} if hollow else ()).union(*map(_of_itself, result.children))
