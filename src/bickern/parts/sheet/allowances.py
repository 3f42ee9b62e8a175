"""What the shop chose for sheet: named rules and learnable figures, as arguments."""

from dataclasses import dataclass
from enum import StrEnum


class FoldRule(StrEnum):
    """Where the length of a fold is taken."""

    DIN_6935 = "DIN 6935"
    MIDDLE = "middle"
    HANDBOOK_SOFT = "Machinery's Handbook, soft steel"


class GrooveRule(StrEnum):
    """How the three widths of a grooved seam are shared between its two edges."""

    HALVES = "half on each edge"
    ONE_AND_TWO = "one width on one edge, two on the other"


@dataclass(frozen=True, slots=True)
class SheetRules:
    """Every figure is a row of `rules` with its source.

    `smallest_radius`: inside radius of a fold in thicknesses, also taken where a job tells none. `groove`: how a
    grooved seam is shared; `groove_widths`: its widths in all; `groove_extra`: more for its bends ("a smidgen"), in
    thicknesses. `hem`, `double_hem`: widths added; `wire`, `wire_sheets`: wire diameters and thicknesses of
    the sheet added for a wired edge. `rivet_edge`, `rivet_pitch`: least
    distances in rivet diameters; `rivet_clearance` [m]: hole larger than the rivet. `eye_straight` [m]:
    flat between an eye and the edge. `kerf` [m]: width lost to each cut between two patterns.
    """

    fold: FoldRule = FoldRule.DIN_6935
    smallest_radius: float = 1.0
    groove: GrooveRule = GrooveRule.HALVES
    groove_widths: float = 3.0
    groove_extra: float = 0.0
    hem: float = 1.0
    double_hem: float = 2.0
    wire: float = 2.5
    wire_sheets: float = 0.0
    rivet_edge: float = 2.0
    rivet_pitch: float = 3.0
    rivet_clearance: float = 0.0004
    eye_straight: float = 0.0
    kerf: float = 0.0
