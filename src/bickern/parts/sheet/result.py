"""Sheet pieces: what is reckoned."""

from dataclasses import dataclass

from bickern.geometry.polygon import Line, Loop, Point
from bickern.measure.figure import Figure
from bickern.measure.finding import Finding
from bickern.parts.sheet.spec import Offered, SheetSpec


@dataclass(frozen=True, slots=True)
class PatternLine:
    """A line on a pattern that is not cut: `kind` is "bend", "lap", "rivet", "centre", "roll" or "mark"."""

    line: Line
    kind: str
    says: str = ""


@dataclass(frozen=True, slots=True)
class PatternHole:
    """A hole to make in the flat: centre and diameter [m]."""

    centre: Point
    size: float
    says: str = ""


@dataclass(frozen=True, slots=True)
class Pattern:
    """One flat part to cut [m]: its outline with all allowances, holes, and lines; `make` alike for one piece."""

    name: str
    outline: Loop
    cutouts: tuple[Loop, ...] = ()
    holes: tuple[PatternHole, ...] = ()
    lines: tuple[PatternLine, ...] = ()
    make: int = 1


@dataclass(frozen=True, slots=True)
class SheetFit:
    """Whether the patterns can be cut from an offered sheet; short by [m] along both sides where they cannot."""

    offered: Offered
    fits: bool
    refused: str
    short_wide: float
    short_high: float


@dataclass(frozen=True, slots=True)
class SheetResult:
    """A sheet piece reckoned. `net`: the pattern on the neutral surface without seam, hems or lugs; `patterns`: as cut.

    `blank` (wide, high) [m]: smallest rectangle round the net; `blank_cut`: round the pattern as cut; of several, the
    largest. `area` [m2] and `mass` [kg] are of all patterns as cut. `seam_gap` [m]: found by rolling the printed
    pattern up again (0 where there is no seam). `stray` [m]: how far triangles leave the true surface (0: exact).
    `also`: (label, value [m], source) figures by other published rules, to print beside ours.
    """

    spec: SheetSpec
    net: tuple[Pattern, ...]
    patterns: tuple[Pattern, ...]
    figures: tuple[Figure, ...]
    blank: tuple[float, float]
    blank_cut: tuple[float, float]
    area: float
    mass: float
    seam_gap: float
    stray: float
    fits: tuple[SheetFit, ...] = ()
    also: tuple[tuple[str, float, str], ...] = ()
    findings: tuple[Finding, ...] = ()
