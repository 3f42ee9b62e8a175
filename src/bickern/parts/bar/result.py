"""What is reckoned for a bar: one type, filled whole."""

from dataclasses import dataclass
from enum import StrEnum

from bickern.geometry.path import Leg
from bickern.iron.section import Section
from bickern.measure.finding import Finding
from bickern.measure.spread import Spread
from bickern.parts.bar.tracks import BarSpec, EndOutline, Hole, Overall, Twist


@dataclass(frozen=True, slots=True)
class MetalRun:
    """One solved stretch of metal from `start` to `end` [m] along the finished bar.

    `volume` [m^3] is finished metal; `loss` is the share lost to scale there (low, value, high), by the shop's rule or
    as heats were counted. `offset_a`, `offset_b` (left, up) [m] at both ends; `kept` where it stays as it comes from
    the rack.
    """

    name: str
    start: float
    end: float
    a: Section
    b: Section
    volume: float
    loss: Spread
    kept: bool
    roll: float = 0.0
    offset_a: tuple[float, float] = (0.0, 0.0)
    offset_b: tuple[float, float] = (0.0, 0.0)
    outline: EndOutline | None = None


class MarkKind(StrEnum):
    """Punch marks survive the fire and are found by feel; chalk does not."""

    PUNCH = "punch"
    CHALK = "chalk"


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark at `at` [m] from the cut end (the datum end, before any weld), what it means, and when it holds."""

    at: float
    says: str
    kind: MarkKind
    holds: str = ""


@dataclass(frozen=True, slots=True)
class BendSpan:
    """One bend, curl, eye or scroll on the straight finished bar: start, middle and end [m] from the datum end."""

    name: str
    start: float
    end: float
    says: str
    inside_radius: float
    strain: float


@dataclass(frozen=True, slots=True)
class TwistCheck:
    """A twist placed: zone [m], turns, stretch of the outermost fibre (0.94 = 94 %)."""

    twist: Twist
    start: float
    end: float
    corner_strain: float


@dataclass(frozen=True, slots=True)
class HoleCheck:
    """A hole placed: `at` [m], least wall left beside it or to the end [m], slit length [m] if slit, slug [m^3].

    `at` is told along the finished line, from the joint of a closed bar; the mark for it is told from the cut end.
    """

    hole: Hole
    at: float
    wall: float
    slit: float | None
    slug: float


@dataclass(frozen=True, slots=True)
class Solved:
    """An answer to what was left open: its name, the value [m], and the words that asked."""

    name: str
    value: float
    asked: str


@dataclass(frozen=True, slots=True)
class Sizes:
    """Overall sizes [m] of the bent bar, metal, limbs and branches included, and the length along its own line."""

    reach: float
    across: float
    rise: float
    end_to_end: float
    developed: float

    def of(self, axis: Overall) -> float:
        """The size along one axis."""
        named = {Overall.REACH: self.reach, Overall.ACROSS: self.across, Overall.RISE: self.rise}
        return named.get(axis, self.end_to_end)


@dataclass(frozen=True, slots=True)
class BarResult:
    """A bar reckoned. Lengths [m], volumes [m^3], masses [kg]; one piece, not `make` of them.

    `stock_bare`: stock length by constant volume alone (no scale, weld, grip or kerf), the figure to hold against a
    handbook. `stock`: with all of them, and its spread. `cut_this`: rounded up to what a tape reads. `weld` [m] of
    stock added for a weld, half of it at each end of a closed bar. `legs`: the bent line for drawing (after `hand`).
    `children`: split ends, welded branches.
    `also`: (label, value [m], why) figures by another published rule, to print beside ours.

    `marks_on_stock` and `marks_on_drawn` are told from the cut end, allowances for a weld included, so they may run to
    the length with the weld on it. `bends`, `twists`, `holes` and `runs` are told along the finished line.
    """

    spec: BarSpec
    stock_section: Section
    runs: tuple[MetalRun, ...]
    legs: tuple[Leg, ...]
    length: float
    stock_bare: float
    stock: Spread
    cut_this: float
    weld: float
    grip: float
    mass: float
    stock_mass: float
    centre_of_mass: tuple[float, float, float]
    sizes: Sizes
    marks_on_stock: tuple[Mark, ...]
    marks_on_drawn: tuple[Mark, ...]
    bends: tuple[BendSpan, ...]
    twists: tuple[TwistCheck, ...]
    holes: tuple[HoleCheck, ...]
    solved: tuple[Solved, ...]
    children: tuple["BarResult", ...] = ()
    also: tuple[tuple[str, float, str], ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def worked_volume(self) -> float:
        """Metal [m^3] of this bar's own runs, before any hole is made."""
        return sum(run.volume for run in self.runs)
