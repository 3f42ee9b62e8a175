"""The cut plan for sheets: which patterns are laid on which sheet of the rack, what finds no place, what is left.

Patterns are laid as they are cut, with their cutouts; a punched hole is no room for another part. A part may lie any
way round: a job does not say which way the grain of a piece must run, so that of the sheet is not looked at. No part
is turned over. What a plan costs is the area of the sheets that are cut into, an offcut a little less than a whole one.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.polygon import Loop, area, bounds, moved
from bickern.making.shop import Cutting
from bickern.making.stock.cuts import OFFCUT_COST, UNKNOWN_COST, WHOLE_COST
from bickern.making.stock.rack import StockSheet, Use
from bickern.making.stock.remnant import CutOut, left_of
from bickern.making.stock.wants import SheetWant

Nester = Callable[[Sequence[Part], Sequence[Remnant], Spacing], Nest]
"""What lays parts on sheets: the packing room's nest, with its seed and limits already in it."""


@dataclass(frozen=True, slots=True)
class PartLaid:
    """One part where it lies on its sheet."""

    want: SheetWant
    laid: Laid

    @property
    def outline(self) -> Loop:
        """Its outline on the sheet [m]."""
        return moved(self.want.pattern.outline, self.laid.x, self.laid.y, self.laid.turn)

    @property
    def cutouts(self) -> tuple[Loop, ...]:
        """Its cutouts on the sheet [m]."""
        return tuple(moved(loop, self.laid.x, self.laid.y, self.laid.turn) for loop in self.want.pattern.cutouts)


@dataclass(frozen=True, slots=True)
class SheetCuts:
    """One sheet of the rack with the parts that come out of it, and the drops that are worth keeping."""

    stock: StockSheet
    parts: tuple[PartLaid, ...]
    left: tuple[StockSheet, ...]

    @property
    def used(self) -> float:
        """Share of the sheet that goes into the parts."""
        whole = self.stock.area
        return sum(abs(area(one.want.pattern.outline)) for one in self.parts) / whole if whole > 0 else 0.0


@dataclass(frozen=True, slots=True)
class SheetLack:
    """A pattern that found no place, and how many of it."""

    want: SheetWant
    count: int


@dataclass(frozen=True, slots=True)
class GaugeCuts:
    """The plan for one thickness [m] and family of steel. `cut_short`, `why`: as of a nest; none is called the best."""

    thick: float
    gauge: str
    steel: str
    sheets: tuple[SheetCuts, ...]
    lacks: tuple[SheetLack, ...]
    cut_short: bool
    why: str = ""


def spacing_of(cutting: Cutting) -> Spacing:
    """How far apart parts lie in this shop."""
    return Spacing(cutting.gap, cutting.margin)


def plan_gauge(
    wants: Sequence[SheetWant], sheets: Sequence[StockSheet], unknown: frozenset[str], cutting: Cutting, nest: Nester
) -> GaugeCuts:
    """The plan for wants of one thickness and metal from these sheets; `unknown`: ids of those of unknown steel."""
    by_key = {want.key: want for want in wants}
    parts = [Part(want.key, want.pattern.outline, want.pattern.cutouts, want.count) for want in wants]
    there = [Remnant(one.id, one.outline, one.cutouts, _cost(one, unknown)) for one in sheets]
    plan = _laid(parts, there, spacing_of(cutting), nest)
    cut = tuple(c for sheet in sheets if (c := _sheet_cuts(sheet, plan.laid, by_key, cutting)).parts)
    lacks = tuple(SheetLack(by_key[key], count) for key, count in plan.short if count > 0)
    first = wants[0]
    return GaugeCuts(first.thick, first.gauge, first.steel, cut, lacks, plan.cut_short, plan.why)


def _laid(parts: Sequence[Part], there: Sequence[Remnant], spacing: Spacing, nest: Nester) -> Nest:
    """The nest; where there is no sheet nobody need be asked for one."""
    there = [one for one in there if _least_side(one.outline) > 2 * spacing.margin]
    if not there:
        return Nest((), tuple((part.key, part.count) for part in parts), 0.0)
    return nest(parts, there, spacing)


def _least_side(outline: Loop) -> float:
    """Lesser side of the upright rectangle round an outline [m]: a sheet that is all margin has room for nothing."""
    (left, low), (right, top) = bounds(outline)
    return min(right - left, top - low)


def _cost(sheet: StockSheet, unknown: frozenset[str]) -> float:
    """What cutting into this sheet counts: its area [m2], by the same rates as bars."""
    rate = UNKNOWN_COST if sheet.id in unknown else OFFCUT_COST if sheet.offcut else WHOLE_COST
    return abs(area(sheet.outline)) * rate / WHOLE_COST


def _sheet_cuts(sheet: StockSheet, laid: Sequence[Laid], wants: dict[str, SheetWant], cutting: Cutting) -> SheetCuts:
    """What comes out of one sheet, from its lower left on, and what is left of it."""
    mine = [PartLaid(wants[one.part], one) for one in laid if one.remnant == sheet.id]
    in_order = tuple(sorted(mine, key=lambda one: (round(one.laid.y, 3), one.laid.x)))
    left = left_of(sheet, [CutOut(one.outline, one.cutouts) for one in in_order], cutting) if in_order else ()
    return SheetCuts(sheet, in_order, left)


def uses_of_sheets(plans: Iterable[GaugeCuts], told: Callable[[PartLaid], str]) -> tuple[Use, ...]:
    """What taking these plans takes out of the rack; `told` words a part for the rack's own history."""
    return tuple(
        Use(one.stock.id, one.stock.version, tuple(told(part) for part in one.parts), one.left)
        for plan in plans
        for one in plan.sheets
    )
