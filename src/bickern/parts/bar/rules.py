"""Published rules for bends, corners, slits and twists, as named rows with their sources, and their formulas."""

from math import pi, tan

from bickern.measure.source import COMMON_PRACTICE, MATHEMATICS, Kind, Rule, Source
from bickern.parts.bar.allowances import BendRule
from bickern.parts.din_6935 import DIN_6935, din_k
from bickern.parts.eye import ILGEN_EYE

TIGHT = 2.0
"""Inside radius over thickness below which bend rules part company."""

_CHF14 = Source(
    "ABANA", "Controlled Hand Forging, lesson 14", None, "1/2 sq x 20, legs 3 3/4 and 15 3/4", Kind.HANDBOOK
)
_FAO = Source("J. B. Stokes", "Intermediate Blacksmithing, FAO Bulletin 88/2", 1992, "upset bend", Kind.HANDBOOK)
_CHF3 = Source(
    "ABANA", "Controlled Hand Forging, lesson 3", None, "J. Close, p. 12: 2 1/2 becomes 3, read in it", Kind.HANDBOOK
)
_CHF8 = Source("ABANA", "Controlled Hand Forging, lesson 8", None, "chisel 75 % of the opening", Kind.HANDBOOK)
_HALF_RIM = Source("", "half the hole's rim less 5 %, quoted by a secondary page", None, "", Kind.COMMON)
_TWIST = Source("Am. School of Correspondence", "Cyclopedia of Modern Shop Practice", 1906, "twisting", Kind.HANDBOOK)
_SCALE_LAW = Source(
    "",
    "parabolic scale law with one measured point (401 um against 421); lean-flame figures for 16 ga to 1 in",
    None,
    "loss falls as about the 0.4th to 0.7th power of area over perimeter; printed trade rules run 0.6 to 7.5 %",
    Kind.MEMORY,
)
_UPSET_FREE = Source("", "free length of an upset at most 2 1/2 to 3 thicknesses", None, "", Kind.MEMORY)
_TWIST_LIMIT = Source(
    "", "warning limits chosen here; CHF 5 twists 1/2 sq at 49 %, poor bar cracks", None, "", Kind.MEMORY
)
_PUNCH = Source("", "punched from both sides, the biscuit is about a third of the thickness", None, "", Kind.COMMON)

BEND_RULES: tuple[Rule, ...] = (
    Rule("bend", BendRule.CENTRE, "angle x (inside radius + thickness/2)", ILGEN_EYE),
    Rule("bend", BendRule.DIN_6935, "angle x (r + k s/2), k = 0.65 + 0.5 log10(r/s), 0 <= k <= 1", DIN_6935),
)
CORNER_RULES: tuple[Rule, ...] = (
    Rule("corner", "square", "inside legs + a block of thickness x tan(half the angle)", _CHF14),
    Rule("corner", "upset", "bend + 1/4 thickness", _FAO),
)
SLIT_RULES: tuple[Rule, ...] = (
    Rule("slit", "half the rim less 5 %", "0.475 x rim of the drifted hole", _HALF_RIM),
    Rule("slit", "3/4 of the opening", "0.75 x length of the opening", _CHF8),
)
FULLNESS_RULES: tuple[Rule, ...] = (
    Rule("corners full", "full", "width x thickness: a square rounded up grows by 4/pi, 27.3 %", MATHEMATICS),
    Rule("corners full", "a fifth longer when rounded", "3 pi/10 of width x thickness, 94.2 %", _CHF3),
)
"""Rows a shop may choose from, or tell its own share; the shares stand in `_FULL` in the same order."""
OTHER_RULES: tuple[Rule, ...] = (
    Rule("twist shortening", "none", "0 of the twisted length", _TWIST),
    Rule("twist strain", "outer fibre", "sqrt(1 + (pi N w/L)^2) - 1, w the circle round the section", MATHEMATICS),
    Rule("twist limits", "noted from 30 %, warned of from 60 %", "outer fibre strain", _TWIST_LIMIT),
    Rule("scale", "thin loses more", "share at 3/8 sq x (A/P of 3/8 sq / A/P here)^0.6, at most 0.2", _SCALE_LAW),
    Rule("slug", "a third of the thickness", "hole area x thickness/3", _PUNCH),
    Rule("upset at once", "3 thicknesses", "free length in one go", _UPSET_FREE),
    Rule("spread without an upset", "15 %", "section asked for / section of the bar - 1", COMMON_PRACTICE),
    Rule("wall beside a hole", "a quarter of the bar", "each wall >= width/4", COMMON_PRACTICE),
)

SLUG_SHARE = 1 / 3
"""Share of a punched hole's metal that comes away as the slug; the rest swells the walls (common practice)."""
UPSET_AT_ONCE = 3.0
"""Thicknesses of bar that can be upset in one go before it buckles (from memory: 2 1/2 to 3)."""
A_LITTLE = 0.15
"""Share of section that spreading with the peen finds without an upset of its own (common practice, not measured)."""
WALL_SHARE = 0.25
"""Least wall beside a hole as a share of the bar's width (common practice)."""


_FULL = dict(zip((r.name for r in FULLNESS_RULES), (1.0, 3 * pi / 10), strict=True))


def corner_fullness(name: str) -> float:
    """Share of a sharp-cornered forged section that is really there, by the rule `name` (KeyError: a fault in us)."""
    return _FULL[name]


def bend_length(rule: BendRule, angle: float, inside_radius: float, thick: float) -> float:
    """Length of bar [m] in a bend of `angle` [rad], `inside_radius` and `thick` [m] in the plane of the bend."""
    share = 1.0 if rule is BendRule.CENTRE or thick <= 0.0 else din_k(inside_radius, thick)
    return angle * (inside_radius + share * thick / 2)


def square_corner_length(angle: float, inside_radius: float, thick: float) -> float:
    """Length of bar [m] in a corner forged up sharp outside, between the tangent points inside (constant volume).

    The outer kite less the inner fillet: ((r + t)^2 tan(a/2) - r^2 a/2) / t; for r = 0 a block of t tan(a/2).
    """
    if thick <= 0.0:
        return angle * inside_radius
    outer = (inside_radius + thick) ** 2 * tan(angle / 2)
    return (outer - inside_radius**2 * angle / 2) / thick


def slit_length(rule: str, size: float, long: float | None) -> float:
    """Length of the slit [m] that drifts out to a round hole of `size`, or to a slot of `long` x `size` [m]."""
    opening = long if long is not None else size
    rim = pi * size if long is None else 2 * (size + long)
    return {"half the rim less 5 %": 0.475 * rim, "3/4 of the opening": 0.75 * opening}[rule]


def slit_rule_names() -> tuple[str, ...]:
    """Names a shop file may choose from."""
    return tuple(r.name for r in SLIT_RULES)
