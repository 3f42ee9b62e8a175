"""Length of metal in a fold, by the shop's rule."""

from math import log10, pi, tan

from bickern.parts.sheet.allowances import FoldRule


def din_k(inside_radius: float, thick: float) -> float:
    """Factor k of DIN 6935 for inside radius and thickness [m]: share of half the thickness (0..1)."""
    if inside_radius <= 0.0:
        return 0.0
    return min(1.0, max(0.0, 0.65 + 0.5 * log10(inside_radius / thick)))


def fold_length(inside_radius: float, thick: float, angle: float, rule: FoldRule = FoldRule.DIN_6935) -> float:
    """Length [m] of flat sheet that a fold of `angle` [rad] takes, between the two places where the bend starts."""
    if rule is FoldRule.HANDBOOK_SOFT:
        # The handbook prints 1.57 for a right angle, so its own rounding is kept.
        return (0.64 * thick + 1.57 * inside_radius) * angle / (pi / 2)
    k = din_k(inside_radius, thick) if rule is FoldRule.DIN_6935 else 1.0
    return angle * (inside_radius + k * thick / 2)


def fold_deduction(inside_radius: float, thick: float, angle: float, rule: FoldRule = FoldRule.DIN_6935) -> float:
    """What to take [m] off the sum of two outside legs, up to a right angle; legs end where their outsides meet."""
    return 2 * (inside_radius + thick) * tan(angle / 2) - fold_length(inside_radius, thick, angle, rule)
