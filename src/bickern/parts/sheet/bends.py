"""Length of metal in a fold, by the shop's rule, and what it takes off the sizes told over the outside."""

from math import pi, tan

from bickern.parts.din_6935 import din_k
from bickern.parts.sheet.allowances import FoldRule


def fold_length(inside_radius: float, thick: float, angle: float, rule: FoldRule = FoldRule.DIN_6935) -> float:
    """Length [m] of flat sheet that a fold of `angle` [rad] takes, between the two places where the bend starts."""
    if rule is FoldRule.HANDBOOK_SOFT:
        # The handbook prints 1.57 for a right angle, so its own rounding is kept.
        return (0.64 * thick + 1.57 * inside_radius) * angle / (pi / 2)
    k = din_k(inside_radius, thick) if rule is FoldRule.DIN_6935 else 1.0
    return angle * (inside_radius + k * thick / 2)


def fold_deduction(inside_radius: float, thick: float, angle: float, rule: FoldRule = FoldRule.DIN_6935) -> float:
    """What to take [m] off the sum of two outside legs, under a half turn; legs end where their outsides meet."""
    return 2 * setback(inside_radius, thick, angle) - fold_length(inside_radius, thick, angle, rule)


def over_deduction(inside_radius: float, thick: float, angle: float, rule: FoldRule = FoldRule.DIN_6935) -> float:
    """What to take [m] off the sum of two legs, each to the outermost of the bend, from a right angle to a half turn.

    Legs that fold back are told so: a rule stood against the bend measures them. Less than nothing is added on.
    """
    return 2 * (inside_radius + thick) - fold_length(inside_radius, thick, angle, rule)


def setback(inside_radius: float, thick: float, angle: float) -> float:
    """From where a bend starts to where the two outside faces would meet [m], under a half turn; exact."""
    return (inside_radius + thick) * tan(angle / 2)


def line_length(inside_radius: float, thick: float, angle: float, share: float) -> float:
    """Length [m] of the line that lies `share` of the thickness (0..1) out from the inside of a fold; exact."""
    return angle * (inside_radius + share * thick)


def right_fold_half(inside_radius: float, thick: float) -> float:
    """Half of what a right-angled fold takes of the middle of the sheet [m]; exact."""
    return line_length(inside_radius, thick, pi / 4, 0.5)


def sharp_over(inside_radius: float, thick: float, angle: float, rule: FoldRule = FoldRule.DIN_6935) -> float:
    """What is left over [m] where a fold was laid out sharp and is bent to a radius, under a half turn.

    The line that keeps its length is taken for an arc, and the sharp fold for its two tangents.
    """
    taken = fold_length(inside_radius, thick, angle, rule)
    return 2 * taken / angle * tan(angle / 2) - taken
