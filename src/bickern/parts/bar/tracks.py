"""What a bar is asked to be: one line of iron with four tracks read along its finished length.

All lengths in metres, angles in radians. Every entry remembers its place in the user's file.
"""

from dataclasses import dataclass
from enum import Enum, StrEnum

from bickern.iron.section import Section
from bickern.measure.finding import NOWHERE, Where


class Blank(Enum):
    """A length that is not given: REST takes what is left of the other track, OPEN is solved for."""

    REST = "rest"
    OPEN = "?"


Amount = float | Blank


class Anchor(StrEnum):
    """From where a place is told."""

    DATUM = "datum"  # the datum end, the start of every track
    END = "end"  # the other end
    START_OF = "start of"
    MIDDLE_OF = "middle of"
    END_OF = "end of"


@dataclass(frozen=True, slots=True)
class Place:
    """A place along the finished bar: an anchor, the entry named (where the anchor needs one), and `plus` [m].

    `plus` counts away from the datum end; from `END` it is negative or zero for places on the bar.
    """

    anchor: Anchor = Anchor.DATUM
    name: str = ""
    plus: float = 0.0


@dataclass(frozen=True, slots=True)
class SectionGoal:
    """A section asked for; `open_size` says which size is left to be solved: "", "width", "thick" or "both"."""

    section: Section
    open_size: str = ""


class EndShape(StrEnum):
    """Outlines of an end spread flat."""

    LEAF = "leaf"  # two parabolas, 2/3 of the rectangle
    SPADE = "spade"  # full width over half its length, then a parabola to a point: 5/6 of the rectangle
    SPOON = "spoon"  # an ellipse, pi/4 of the rectangle
    FREE = "free"  # widths given in `profile`


@dataclass(frozen=True, slots=True)
class EndOutline:
    """An end with an outline: `width` at the widest and `thick` [m]; FREE carries (share of length, share of width)."""

    shape: EndShape
    width: float
    thick: float
    profile: tuple[tuple[float, float], ...] = ()


class Face(StrEnum):
    """Faces of a bar, reference face up, seen along it from the datum end."""

    FRONT = "front"  # the reference face, up
    BACK = "back"  # down
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Metal:
    """One entry of the metal track: a blend from `start` to `end` over `length`, or a section kept.

    `start` None: what the entry before left (the bar itself for the first). `end` None: the same as the start.
    `shoulder` [m] is a ramp from the section before to `start`, lying inside `length`. `flush` keeps one face in line
    with the entry before; `offset` (left, up) [m] moves the section off the line (with `flush`: off where that put it);
    `roll` [rad] turns it about the line.
    `drawn` False marks metal left as it comes from the rack (no forging, no corner loss, little scale).
    """

    length: Amount
    start: SectionGoal | None = None
    end: SectionGoal | None = None
    name: str = ""
    shoulder: float = 0.0
    flush: Face | None = None
    offset: tuple[float, float] = (0.0, 0.0)
    roll: float = 0.0
    outline: EndOutline | None = None
    where: Where = NOWHERE


class Way(StrEnum):
    """How a flat is bent."""

    EASY = "easy"  # on the flat, over its thin way
    HARD = "hard"  # on edge


class Corner(StrEnum):
    """How a corner is made where the bend rule is not to be used."""

    NONE = ""
    SQUARE = "square"  # forged up sharp on the outside, legs told inside: volume decides
    UPSET = "upset"  # upset first, so that the shop's allowance is added


@dataclass(frozen=True, slots=True)
class StraightLeg:
    """A straight piece of the path.

    `to_corners` says how the length is told: "" along the straight itself between its bends; else to the sharp corners
    that the bends at its ends would have on the "centre" line, the "inside" or the "outside" of the bar.
    """

    length: Amount
    name: str = ""
    to_corners: str = ""
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True)
class BendLeg:
    """A bend or curl of `angle` about `inside_radius`, toward `turn` [rad] (0 left, pi/2 up: to the reference face).

    `aside` [rad], here and in the other legs: None where the turn was told. Else `turn` is a guess from the stock, the
    bend goes the easy way of the metal that comes to lie in it (`way` HARD: the hard one), and sideways is that way.
    """

    angle: float
    inside_radius: float
    turn: float = 0.0
    way: Way | None = None
    corner: Corner = Corner.NONE
    name: str = ""
    where: Where = NOWHERE
    aside: float | None = None


@dataclass(frozen=True, slots=True)
class EyeLeg:
    """An eye at an end: a full ring of `inside_across`; `centred` on the bar's line by a sharp bend at the mark.

    `welded`: its end is welded to the bar, which adds the shop's allowance at that end; else it is closed by bending.
    """

    inside_across: float
    turn: float = 0.0
    centred: bool = True
    name: str = ""
    where: Where = NOWHERE
    aside: float | None = None
    welded: bool = False


@dataclass(frozen=True, slots=True)
class ScrollLeg:
    """A scroll: any three of turns, inside radius, outside radius, length fix the fourth (OPEN).

    Radii are to the inside face of the bar. `from_centre`: the tip of the spiral comes first along the track.
    """

    turns: float | None
    inside_radius: float | None
    outside_radius: float | None
    length: Amount | None = None
    equiangular: bool = False
    from_centre: bool = True
    turn: float = 0.0
    name: str = ""
    where: Where = NOWHERE
    aside: float | None = None


@dataclass(frozen=True, slots=True)
class HoopLeg:
    """The whole bar as one closed round hoop; exactly one of the three sizes [m] is given."""

    inside_across: float | None = None
    mean_across: float | None = None
    outside_across: float | None = None
    turn: float = 0.0
    way: Way | None = None
    name: str = ""
    where: Where = NOWHERE
    aside: float | None = None


PathLeg = StraightLeg | BendLeg | EyeLeg | ScrollLeg | HoopLeg


@dataclass(frozen=True, slots=True)
class Twist:
    """`turns` (positive: right-hand) over `over` [m] (None: the whole of the entry named in `at`), placed `at`.

    The anchor says which part of the zone stands there: START_OF, DATUM begin it, MIDDLE_OF centres it, END_OF, END
    end it.
    """

    turns: float
    over: float | None
    at: Place
    name: str = ""
    where: Where = NOWHERE


class HoleBy(StrEnum):
    """How a hole is made, and so what becomes of the metal."""

    DRILL = "drill"  # metal lost
    PUNCH = "punch"  # a slug lost, the wall swells a little
    SLIT = "slit and drift"  # none lost, the wall swells


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole of `size` [m] (`long` for slots) through `face`; `number` of them spread over a length or round a hoop.

    With `number` > 1 the first stands at `at` and the rest follow at `spacing` [m]; spacing None divides evenly:
    round a closed hoop, or over the named entry with half a space at each end. `first` is the distance of the first
    from the joint or the start in spaces.
    """

    size: float
    by: HoleBy
    at: Place
    face: Face = Face.FRONT
    long: float | None = None
    number: int = 1
    spacing: float | None = None
    first: float = 0.5
    name: str = ""
    where: Where = NOWHERE


class Overall(StrEnum):
    """Overall sizes once bent: along the longest straight, across it in the first bend's plane, out of that plane."""

    REACH = "reach"
    ACROSS = "across"
    RISE = "rise"
    END_TO_END = "end to end"


@dataclass(frozen=True, slots=True)
class OverallGoal:
    """An overall size asked for [m], reached by changing the length of the metal or path entry named `by`."""

    axis: Overall
    size: float
    by: str
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True)
class Branch:
    """A child bar that goes on where this one is split at its far end, or that is welded on at a place."""

    name: str
    bar: "BarSpec"
    at: Place | None = None  # None: a split end; else welded on there


@dataclass(frozen=True, slots=True)
class BarSpec:
    """A bar piece as asked.

    `stock` None means that the rack decides. `stock_length` OPEN is the usual question. `closed`: the ends meet in a
    weld (`welded`) or butt. `grip` [m] is extra held by tongs or vise at the far end and cut off afterwards. `hand`
    "right" mirrors nothing, "left" mirrors the whole path; `make` counts the pieces in one set.
    """

    name: str
    stock: Section | None
    steel: str
    metal: tuple[Metal, ...]
    path: tuple[PathLeg, ...] = ()
    twists: tuple[Twist, ...] = ()
    holes: tuple[Hole, ...] = ()
    stock_length: Amount = Blank.OPEN
    closed: bool = False
    welded: bool = True
    overall: tuple[OverallGoal, ...] = ()
    branches: tuple[Branch, ...] = ()
    grip: float = 0.0
    hand: str = "right"
    make: int = 1
    coating: str = ""
    where: Where = NOWHERE
