"""Sheet pieces: what is asked. Metres and radians; sizes are told inside, outside or mean."""

from dataclasses import dataclass
from enum import StrEnum

from bickern.geometry.polygon import Loop
from bickern.measure.finding import NOWHERE, Where


class Sized(StrEnum):
    """Which surface the sizes are told of."""

    INSIDE = "inside"
    OUTSIDE = "outside"
    MEAN = "mean"


@dataclass(frozen=True, slots=True)
class Cone:
    """A cone or frustum: base and top diameters, height; `offset` (x, y) of the top's centre makes it oblique."""

    base: float
    top: float
    height: float
    offset: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Cylinder:
    """A cylinder; `cut` [rad] tilts its upper end (a mitre)."""

    across: float
    height: float
    cut: float = 0.0


@dataclass(frozen=True, slots=True)
class Pyramid:
    """An n-sided frustum (top 0: a pyramid), sizes across flats; or rectangular with `base_long` and `top_long`."""

    sides: int
    base: float
    top: float
    height: float
    base_long: float | None = None
    top_long: float | None = None
    offset: tuple[float, float] = (0.0, 0.0)


class RimShape(StrEnum):
    """Shapes that a transition can start or end in."""

    CIRCLE = "circle"
    RECTANGLE = "rectangle"
    OVAL = "oval"


@dataclass(frozen=True, slots=True)
class Rim:
    """One end of a transition: `across` along x, `long` along y, its centre, and a tilt [rad] about the y axis."""

    shape: RimShape
    across: float
    long: float
    centre: tuple[float, float, float] = (0.0, 0.0, 0.0)
    tilt: float = 0.0


@dataclass(frozen=True, slots=True)
class Transition:
    """A skin from one rim to another (square to round, or any ring to any ring)."""

    low: Rim
    high: Rim


@dataclass(frozen=True, slots=True)
class Pan:
    """A folded pan: flat bottom `long` x `wide`, walls of `high` on the named sides, bent to `inside_radius`."""

    long: float
    wide: float
    high: float
    walls: tuple[str, ...] = ("front", "back", "left", "right")
    inside_radius: float = 0.0
    corner_tabs: float = 0.0


@dataclass(frozen=True, slots=True)
class Bowl:
    """A dished bowl: rim diameter and depth of a ball's cap; `thinning` names how the metal moves."""

    rim: float
    depth: float
    thinning: str = "equal area"


@dataclass(frozen=True, slots=True)
class FlatOutline:
    """A free flat outline (drawn, or read from DXF or SVG), with its holes."""

    outer: Loop
    holes: tuple[Loop, ...] = ()


Surface = Cone | Cylinder | Pyramid | Transition | Pan | Bowl | FlatOutline


class SeamKind(StrEnum):
    """How the edges of a pattern are joined."""

    NONE = "none"
    BUTT = "butt"
    LAP = "lap"
    RIVETED = "riveted lap"
    BRAZED = "brazed lap"
    GROOVED = "grooved"


@dataclass(frozen=True, slots=True)
class Seam:
    """A seam of `width` [m]; rivets of `rivet` diameter at `pitch`."""

    kind: SeamKind = SeamKind.BUTT
    width: float = 0.0
    rivet: float = 0.0
    pitch: float = 0.0
    where: Where = NOWHERE


class EdgeKind(StrEnum):
    """How a free edge is made safe."""

    RAW = "raw"
    HEM = "hem"
    DOUBLE_HEM = "double hem"
    WIRED = "wired"


@dataclass(frozen=True, slots=True)
class Edge:
    """The finish of the `top` or `bottom` (or a pan's walls): hem width, or the wire's diameter [m]."""

    on: str
    kind: EdgeKind
    size: float
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True)
class Lug:
    """Tabs left on an edge: rolled into an eye of `eye` inside diameter, or flat `length`; `number` divided evenly."""

    on: str
    number: int
    width: float
    eye: float = 0.0
    length: float = 0.0
    first: float = 0.5
    name: str = ""
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True)
class SheetHole:
    """A round hole of `size`, `up` [m] from the bottom edge along the surface, `number` divided evenly round."""

    size: float
    up: float
    number: int = 1
    first: float = 0.5
    name: str = ""
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True)
class Offered:
    """A sheet that the pattern may be cut from: width, height, and what is known of its coating."""

    wide: float
    high: float
    coating: str = ""
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True)
class SheetSpec:
    """A sheet piece as asked. `parts` 1 is one pattern; more splits it along its generators.

    `hot`: it will see fire (forge hood, fire pan); `gauge` is what the user wrote, for printing.
    """

    name: str
    thick: float
    steel: str
    surface: Surface
    sized: Sized = Sized.MEAN
    seam: Seam = Seam()
    edges: tuple[Edge, ...] = ()
    lugs: tuple[Lug, ...] = ()
    holes: tuple[SheetHole, ...] = ()
    parts: int = 1
    offered: tuple[Offered, ...] = ()
    hot: bool = False
    gauge: str = ""
    coating: str = ""
    make: int = 1
    where: Where = NOWHERE
