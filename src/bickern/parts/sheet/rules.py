"""Published rules for sheet, as named rows with their sources."""

from bickern.geometry.develop.turned import FAR_APEX
from bickern.measure.source import COMMON_PRACTICE, MATHEMATICS, Kind, Rule, Source
from bickern.parts.sheet.allowances import FoldRule, GrooveRule

_DIN = Source("DIN", "DIN 6935 Kaltbiegen von Flacherzeugnissen aus Stahl", 2011, "factor k", Kind.STANDARD)
_MACHINERY = Source("E. Oberg and others", "Machinery's Handbook, 31st ed.", 2020, "p. 1421 eq. 33", Kind.HANDBOOK)
_FAA = Source("FAA", "FAA-H-8083-31 AMT Handbook, Airframe vol. 1", 2012, "ch. 4, p. 230 of the copy", Kind.HANDBOOK)
_NAVY = Source("US Navy", "NAVEDTRA 14251 Steelworker vol. 2", 1996, "ch. 2, fig. 2-54 to 2-58", Kind.HANDBOOK)
_ATKINS = Source(
    "E. A. Atkins", "Practical Sheet and Plate Metal Work", None, "wired edges; single pages read", Kind.HANDBOOK
)
_GROOVE = Source("", "3 widths and a smidgen, quoted by a tinsmith's page; Navy figures agree", None, "", Kind.COMMON)
_RIVET = Source("", "edge 2 d, pitch 3 d at least, centre to centre", None, "", Kind.COMMON)
_CLEARANCE = Source("", "rivet holes about 1/64 in over the rivet", None, "", Kind.COMMON)

FOLD_RULES: tuple[Rule, ...] = (
    Rule("fold", FoldRule.DIN_6935, "angle x (r + k s/2), k = 0.65 + 0.5 log10(r/s), 0 <= k <= 1", _DIN),
    Rule("fold", FoldRule.MIDDLE, "angle x (r + s/2)", MATHEMATICS),
    Rule("fold", FoldRule.HANDBOOK_SOFT, "(0.64 T + 1.57 R) x angle/90", _MACHINERY),
    Rule("smallest inside radius", "annealed sheet", "about 1 thickness", _FAA),
)
SEAM_RULES: tuple[Rule, ...] = (
    Rule("grooved seam", GrooveRule.HALVES, "3 W, 1 1/2 W on each edge", _GROOVE),
    Rule("grooved seam", GrooveRule.ONE_AND_TWO, "3 W, W on one edge and 2 W on the other", _GROOVE),
    Rule("rivet edge", "2 d", "centre of a rivet from the edge", _RIVET),
    Rule("rivet pitch", "3 d", "centre to centre", _RIVET),
    Rule("rivet hole", "1/64 over", "rivet + 0.4 mm in a seam of sheet, where many small holes must meet", _CLEARANCE),
)
WIRE_RULES: tuple[Rule, ...] = (
    Rule("wired edge", "2 1/2 d", "2.5 x wire diameter", _NAVY),
    Rule("wired edge", "2 wires + 4 sheets", "2 x wire diameter + 4 x thickness of the sheet", _ATKINS),
)
"""Rows a shop may choose from, or tell its own wire diameters; the multiples stand in `_WIRES` in the same order."""
EDGE_RULES: tuple[Rule, ...] = (
    *WIRE_RULES,
    Rule("hem", "single", "width W", _NAVY),
    Rule("hem", "double", "2 W", _NAVY),
    Rule("rolled eye", "middle of the sheet", "pi x (inside diameter + thickness)", MATHEMATICS),
)
SIZE_RULES: tuple[Rule, ...] = (
    Rule("sizes", "square to the wall", "moved half a thickness square to the wall; edges are cut square", MATHEMATICS),
    Rule("bowl", "equal area", "disc radius = sqrt(rim radius^2 + depth^2)", MATHEMATICS),
    Rule(
        "far apex",
        f"{FAR_APEX:g} bases",
        f"apex further than {FAR_APEX:g} base diameters: by chord and rise",
        COMMON_PRACTICE,
    ),
)

_WIRES = dict(zip((r.name for r in WIRE_RULES), ((2.5, 0.0), (2.0, 4.0)), strict=True))


def wire_allowance(name: str) -> tuple[float, float]:
    """Wire diameters and sheet thicknesses that a wired edge takes by the rule `name` (KeyError: a fault in us)."""
    return _WIRES[name]


HAND_ROLLED = 5.0
"""Inside radius in thicknesses below which sheet is hard to roll by hand (common practice)."""
