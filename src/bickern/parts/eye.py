"""How long the bar round a hole is: published rules that disagree, as named choices. For eyes and rings alike."""

from math import pi

from bickern.measure.source import Kind, Rule, Source

ABOUT = "length of an eye"
"""What the rows here are about; D is the inside across, t the thickness in the plane of the eye."""

ILGEN_EYE = Source("W. L. Ilgen", "Forge Work", 1912, "s. 72 fig. 52 (mean diameter even at r/t 0.8)", Kind.HANDBOOK)
"""An eye of 1/2 inside in 5/16 round, laid off by its mean diameter."""
ILGEN = Source("W. L. Ilgen", "Forge Work", 1912, "s. 111 fig. 100, read in the source", Kind.HANDBOOK)
"""A ring of 5 inside in 2 round: practically 22."""
MANLY = Source("H. P. Manly", "Oxy-Acetylene Welding and Cutting", 1916, "forge chapter, read in it", Kind.HANDBOOK)
"""A ring or an eye in the end of a bar, by the diameter of its hole."""
BY_MEAN = "mean diameter"
"""The rule that makes an eye as asked."""
OLD_PI = 22 / 7
"""3 1/7, which shops take for pi: 0.04 % over it."""

EYE_RULES: tuple[Rule, ...] = (
    Rule(ABOUT, BY_MEAN, "pi (D + t)", ILGEN_EYE),
    Rule(ABOUT, "3 1/7 x mean diameter", "22/7 (D + t)", ILGEN),
    Rule(ABOUT, "3 1/7 x the hole", "22/7 D (short by pi t: makes the eye too small)", MANLY),
)
"""Rows a shop may choose from; none of them holds a weld. The factors stand in `_FACTORS` in the same order."""

_FACTORS = dict(zip((r.name for r in EYE_RULES), ((0.0, pi), (0.0, OLD_PI), (OLD_PI, 0.0)), strict=True))


def eye_factors(rule: str) -> tuple[float, float]:
    """How many times the inside across, and how many times the mean diameter, the bar of an eye is long.

    Raises KeyError where the shop file names a rule that has no row (a fault in us: the reader checks names).
    """
    return _FACTORS[rule]


def eye_length(rule: str, inside: float, mean: float) -> float:
    """Bar [m] round an eye by `rule`, without a weld; its inside and its mean diameter [m]."""
    of_inside, of_mean = eye_factors(rule)
    return of_inside * inside + of_mean * mean


def falls_short(mean_line: float, bare: float) -> float:
    """How much smaller across [m] an eye comes out whose middle line is to be so long, of `bare` [m] of bar (exact)."""
    return (mean_line - bare) / pi
