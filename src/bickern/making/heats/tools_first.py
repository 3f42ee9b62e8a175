"""Tools to make, or find, before the fire is lit. They come before everything else that is made."""

from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum

from bickern.making.heats.result import ToolFirst
from bickern.making.shop import Shop
from bickern.measure.units.words import MILLIMETRE
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import HoleBy, ScrollLeg
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult
from bickern.parts.sheet.result import SheetResult

NEAR = 0.2 * MILLIMETRE
"""A tool within this of the size wanted is that size [m]."""


class FirstTool(StrEnum):
    """What may have to be made first."""

    TONGS = "tongs"
    FORM = "scroll form"
    DRIFT = "drift"
    MANDREL = "mandrel"
    PATTERN = "paper pattern"
    MONKEY = "monkey tool"


WHY: dict[FirstTool, str] = {
    FirstTool.TONGS: "none of this size hang on the wall: a piece that is not gripped flies",
    FirstTool.FORM: "scrolls bent on one form are alike",
    FirstTool.DRIFT: "none of this size hangs on the wall",
    FirstTool.MANDREL: "its size decides the rings' size, spring-back taken off",
    FirstTool.PATTERN: "checked with its rule before it is cut out and laid on",
    FirstTool.MONKEY: "it squares the shoulder of the tenon",
}
"""Why each comes first."""


def tools_of(pieces: Sequence[PieceResult], joints: Sequence[JointResult], shop: Shop) -> tuple[ToolFirst, ...]:
    """The tools to make first, each size once for all the pieces that want it."""
    found: dict[tuple[str, float], ToolFirst] = {}
    for tool in (
        *(t for p in pieces for t in firsts_of(p, shop)),
        *(t for j in joints for t in firsts_of_joint(j, shop)),
    ):
        key = (tool.what, tool.size) if tool.size > 0.0 else (tool.what + tool.of, 0.0)
        same = found.get(key)
        found[key] = tool if same is None else _for_both(same, tool)
    return tuple(found.values())


def _for_both(first: ToolFirst, second: ToolFirst) -> ToolFirst:
    names = dict.fromkeys(name for name in (*first.of.split(", "), second.of) if name)
    return ToolFirst(first.what, first.size, ", ".join(names), first.why)


def firsts_of(piece: PieceResult, shop: Shop) -> Iterator[ToolFirst]:
    """The tools that one piece wants first."""
    if isinstance(piece, BarResult):
        yield from _of_bar(piece, shop)
    elif isinstance(piece, SheetResult):
        yield _first(FirstTool.PATTERN, 0.0, piece.spec.name)
    elif isinstance(piece, RingResult) and piece.coil is not None:
        yield _first(FirstTool.MANDREL, piece.coil.mandrel, piece.spec.name)


def firsts_of_joint(joint: JointResult, shop: Shop) -> Iterator[ToolFirst]:
    """The tools that one joint wants first."""
    if joint.spec.kind is JointKind.TENON and not _hangs_there(FirstTool.MONKEY, shop):
        yield _first(FirstTool.MONKEY, joint.spec.size, "")


def _of_bar(bar: BarResult, shop: Shop) -> Iterator[ToolFirst]:
    name = bar.spec.name
    thin = min(bar.stock_section.width, bar.stock_section.thick)
    if missing(thin, shop.tongs):
        yield _first(FirstTool.TONGS, thin, name)
    if any(isinstance(leg, ScrollLeg) for leg in bar.spec.path):
        yield _first(FirstTool.FORM, 0.0, name)
    for check in bar.holes:
        if check.hole.by is HoleBy.SLIT and missing(check.hole.size, shop.drifts):
            yield _first(FirstTool.DRIFT, check.hole.size, name)
    for child in bar.children:
        yield from _of_bar(child, shop)


def _first(what: FirstTool, size: float, of: str) -> ToolFirst:
    return ToolFirst(what, size, of, WHY[what])


def missing(size: float, there: Iterable[float]) -> bool:
    """Whether a shop that told which sizes [m] it has, has none of this one."""
    known = tuple(there)
    return bool(known) and all(abs(size - one) > NEAR for one in known)


def _hangs_there(what: FirstTool, shop: Shop) -> bool:
    """Whether a shop tells of such a tool among its own, in words."""
    return any(what in said.lower() for said in shop.tools)
