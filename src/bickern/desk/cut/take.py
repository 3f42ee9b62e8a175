"""A cut plan taken: written into the rack, and what to paint on what is left."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from bickern.book.rack.take import take
from bickern.desk.cut.cut import CutPlan
from bickern.desk.rack.rack import in_book, me
from bickern.making.stock.rack import StockBar, StockSheet
from bickern.measure.finding import Finding, stop
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.paper.sheets.cut_words import size_says


def take_plan(plan: CutPlan, where: str | Path | None = None, who: str = "") -> tuple[str, ...] | Finding:
    """Writes the plan into the rack: all cuts and drops at once, or nothing. The ids given to the drops, in order."""
    if plan.stops or plan.copy is None:
        says = "the plan is not taken: something in it must be mended first"
        return stop("plan-not-taken", says, "mend what stops it, and plan again")
    if not plan.taking.uses:
        return stop("nothing-to-take", "nothing in the rack is cut by this plan, so there is nothing to take", "")
    return in_book(where, lambda book: take(book, plan.taking, who or me()))


def used_told(plan: CutPlan) -> tuple[str, ...]:
    """What was written of each bar and sheet: `B12 is cut: 10 of hook`."""
    told = []
    for use in plan.taking.uses:
        counts = Counter(use.cuts)
        told.append(f"{use.id} is cut: {'; '.join(f'{n} of {what}' if n > 1 else what for what, n in counts.items())}")
    return tuple(told)


def lefts_told(plan: CutPlan) -> tuple[str, ...]:
    """What goes back into the rack of each bar and sheet, as an offcut: `back into the rack: the 9 1/4 in of B12`."""
    if plan.copy is None:
        return ()
    style = plan.copy.shop.style
    drops = [(use.id, drop) for use in plan.taking.uses for drop in use.left]
    told = (f"{_drop(drop, style)} of {of}{f', {drop.place}' if drop.place else ''}" for of, drop in drops)
    return tuple(f"back into the rack as an offcut: {says}" for says in told)


def drops_told(plan: CutPlan, ids: Sequence[str]) -> tuple[str, ...]:
    """What to write on each drop that went into the rack: `mark the 9 1/4 in (235 mm) of B12 as B31`."""
    assert plan.copy is not None
    style = plan.copy.shop.style
    drops = [(use.id, drop) for use in plan.taking.uses for drop in use.left]
    return tuple(f"mark {_drop(drop, style)} of {of} as {name}" for (of, drop), name in zip(drops, ids, strict=True))


def with_drops(plan: CutPlan, ids: Sequence[str]) -> CutPlan:
    """The plan once it is taken: its list says which id is painted on what is left."""
    assert plan.copy is not None
    given = iter(ids)
    drops = tuple((use.id, tuple(next(given) for _ in use.left)) for use in plan.taking.uses)
    return replace(plan, copy=replace(plan.copy, drops=drops))


def _drop(drop: StockBar | StockSheet, style: Style) -> str:
    if isinstance(drop, StockBar):
        return f"the {say_both(drop.length, style)}"
    return f"the piece in {size_says(drop, style)}"
