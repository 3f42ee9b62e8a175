"""Tools to make, or find, before the fire is lit. They come before everything else that is made."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from enum import StrEnum
from math import isclose

from bickern.iron.section import Section
from bickern.making.heats.result import ToolFirst
from bickern.making.shop import Shop, hangs_there
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import HoleBy, ScrollLeg
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.set.pieces import PieceResult, Pieces
from bickern.parts.set.places import section_on, split_place
from bickern.parts.sheet.result import SheetResult


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
    found: dict[tuple[str, float, Section | None], ToolFirst] = {}
    named = {piece.spec.name: piece for piece in pieces}
    for tool in (
        *(t for p in pieces for t in firsts_of(p, shop)),
        *(t for j in joints for t in firsts_of_joint(j, shop, named)),
    ):
        key = (tool.what, tool.size, tool.section) if tool.size > 0.0 else (tool.what + tool.of, 0.0, None)
        same = found.get(key)
        found[key] = tool if same is None else _for_both(same, tool)
    return tuple(found.values())


def _for_both(first: ToolFirst, second: ToolFirst) -> ToolFirst:
    names = dict.fromkeys(name for name in (*first.of.split(", "), second.of) if name)
    return replace(first, of=", ".join(names))


def firsts_of(piece: PieceResult, shop: Shop) -> Iterator[ToolFirst]:
    """The tools that one piece wants first."""
    if isinstance(piece, BarResult):
        yield from _of_bar(piece, shop)
    elif isinstance(piece, SheetResult):
        yield _first(FirstTool.PATTERN, 0.0, piece.spec.name)
    elif piece.coil is not None:
        yield _first(FirstTool.MANDREL, piece.coil.mandrel, piece.spec.name)


def firsts_of_joint(joint: JointResult, shop: Shop, pieces: Pieces | None = None) -> Iterator[ToolFirst]:
    """The tools that one joint wants first; without its `pieces` the shape of a tenon is not known."""
    if joint.spec.kind is JointKind.TENON and not _told_of(FirstTool.MONKEY, shop):
        yield replace(_first(FirstTool.MONKEY, joint.spec.size, ""), section=_oblong(joint, pieces or {}))


def _oblong(joint: JointResult, pieces: Pieces) -> Section | None:
    """The tenon's section where it is wider than thick: the first bar in the joint that has no hole there."""
    for place in joint.spec.through:
        piece, spot = split_place(place, pieces)
        if isinstance(piece, BarResult) and all(check.hole.name != spot for check in piece.holes):
            section = section_on(piece, spot)
            return section if section is not None and not isclose(section.width, section.thick) else None
    return None


def _of_bar(bar: BarResult, shop: Shop) -> Iterator[ToolFirst]:
    name = bar.spec.name
    thin = min(bar.stock_section.width, bar.stock_section.thick)
    if not hangs_there(thin, shop.tongs):
        yield _first(FirstTool.TONGS, thin, name)
    if any(isinstance(leg, ScrollLeg) for leg in bar.spec.path):
        yield _first(FirstTool.FORM, 0.0, name)
    for check in bar.holes:
        if check.hole.by is HoleBy.SLIT and not hangs_there(check.hole.size, shop.drifts):
            yield _first(FirstTool.DRIFT, check.hole.size, name)
    for child in bar.children:
        yield from _of_bar(child, shop)


def _first(what: FirstTool, size: float, of: str) -> ToolFirst:
    return ToolFirst(what, size, of, WHY[what])


def _told_of(what: FirstTool, shop: Shop) -> bool:
    """Whether a shop tells of such a tool among its own, in words."""
    return any(what in said.lower() for said in shop.tools)
