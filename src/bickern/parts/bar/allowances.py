"""The allowances that a bar is reckoned with: named rule choices and learnable figures, as arguments."""

from dataclasses import dataclass, replace
from enum import StrEnum

from bickern.measure.units.words import INCH


class BendRule(StrEnum):
    """Where the length of a bend is taken."""

    CENTRE = "centre line"
    DIN_6935 = "DIN 6935"


@dataclass(frozen=True, slots=True)
class BarRules:
    """What the shop chose; every name is a key of the rule rows in this room, with their sources.

    `corner_fullness`: share of a sharp-cornered forged section really there. `twist_shortening`: share of the twisted
    length lost. `scale_worked`, `scale_kept`: prior share of metal, as (low, value, high), added for the fire in a
    zone forged and in one only heated, for a bar of 3/8 in square; thinner zones want more (see `scale`). Nothing
    is added for metal kept as it comes from the rack: the fire thins it, and leaves it as long as it was.
    `weld`: rule for the allowance of a forge weld. `slit`: rule for the length of a slit. `eye`: rule for the
    bar of an eye or a hoop. `upset_corner`: extra length, in thicknesses. `tape` [m]: step to which
    "cut this" is rounded up. `kerf` [m]: saw or hot cut, one a piece. Learnt from the day book, and 1 without it:
    `scale_times` and `weld_times` multiply what the fire takes and what a weld takes up; `scale_doubt` is the share
    that is left of the doubt in the fire's.
    """

    bend: BendRule = BendRule.CENTRE
    weld: str = "one thickness"
    slit: str = "half the rim less 5 %"
    corner_fullness: float = 1.0
    twist_shortening: float = 0.0
    scale_worked: tuple[float, float, float] = (0.008, 0.025, 0.05)
    scale_kept: tuple[float, float, float] = (0.0, 0.0, 0.0)
    upset_corner: float = 0.25
    tape: float = INCH / 16
    kerf: float = 0.0
    eye: str = "mean diameter"
    scale_times: float = 1.0
    scale_doubt: float = 1.0
    weld_times: float = 1.0


NO_LOSS = (0.0, 0.0, 0.0)
"""Scale left out: what constant volume alone says."""


def without_fire(rules: BarRules) -> BarRules:
    """The same rules with nothing lost in the fire or to the saw."""
    return replace(rules, scale_worked=NO_LOSS, scale_kept=NO_LOSS, kerf=0.0)
