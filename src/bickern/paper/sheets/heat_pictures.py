"""Which bar a heat is drawn on, what is done to it before and after, and where it is held."""

from collections.abc import Sequence
from dataclasses import dataclass

from bickern.making.heats.lies import done_by
from bickern.making.heats.result import End, PiecePlan, Spell
from bickern.paper.copy import Copy
from bickern.paper.marks import Drawing
from bickern.paper.sheets.where_words import bit_of, bit_says
from bickern.paper.views.stages import heat_view
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.stage import Done, stage_of


@dataclass(frozen=True, slots=True)
class _Shown:
    """The bar that a heat is drawn on, and what is done to it before and after."""

    bar: BarResult
    before: Done
    after: Done


def drawing_of(spell: Spell, plan: PiecePlan | None, copy: Copy, wide: float, abreast: bool = False) -> Drawing | None:
    """The bar before and after a heat, under one another or `abreast`, `wide` [m] at most.

    None for what is no bar, and where a heat leaves nothing to be seen on it.
    """
    shown = _shown(spell, plan, copy)
    if shown is None or shown.before == shown.after:
        return None
    held = _held_at(spell, shown)
    bit = bit_of(spell, copy.shop)
    more = bit_says(bit, copy.shop) if bit > 0.0 else ""
    return heat_view(shown.bar, shown.before, shown.after, spell.zone, wide, copy.shop.style, held, abreast, more)


def _shown(spell: Spell, plan: PiecePlan | None, copy: Copy) -> _Shown | None:
    """None where a heat takes in several pieces, or limbs of one."""
    pieces = {piece.spec.name: piece for piece in copy.pieces}
    paths = {work.child for work in spell.works}
    piece = pieces.get(spell.piece)
    if plan is None or len(paths) != 1 or not isinstance(piece, BarResult):
        return None
    path = paths.pop()
    bar = _child(piece, path)
    if bar is None:
        return None
    works = [work for one in plan.spells for work in one.works if work.child == path]
    before = [work for work in works if work.key in spell.done_before]
    return _Shown(bar, done_by(before), done_by([*before, *spell.works]))


def _child(bar: BarResult, path: Sequence[str]) -> BarResult | None:
    """A split end or branch by the names that lead to it."""
    if not path:
        return bar
    found = next((child for child in bar.children if child.spec.name == path[0]), None)
    return _child(found, path[1:]) if found else None


def _held_at(spell: Spell, shown: _Shown) -> float | None:
    """Where it is held, told along the finished bar [m]."""
    hold = spell.hold
    if hold.end is End.NEITHER:
        return None
    stage = stage_of(shown.bar, shown.before)
    return stage.back(hold.at if hold.end is End.DATUM else stage.now[-1] - hold.at)
