"""A set put together: single parts, rigid bodies of parts, and where the bodies can move against one another."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from bickern.geometry.pose import HERE, Pose
from bickern.geometry.space import Vec
from bickern.measure.finding import Finding
from bickern.parts.joint.spec import JointSpec
from bickern.parts.set.pieces import PieceResult

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


class SpotKind(StrEnum):
    """What a named place is, for what is joined to it."""

    BAR = "bar"  # metal that a ring goes round, or that lies against something
    OPENING = "opening"  # a hole through metal
    EYE = "eye"  # a bar bent round, a lug rolled up: metal round an opening
    RING = "ring"  # a whole ring or link
    FACE = "face"  # a flat side: a palm, the bottom of a pan


@dataclass(frozen=True, slots=True, eq=False)
class Seat:
    """Metal on which something can hang: stations along its middle line, in the coordinates of its part or body [m].

    `points`, `along`, `up` (n, 3): places, the way the line runs, and the way the section's own thickness lies.
    `half` (n, 2): half the width (across `up`) and half the thickness (along `up`) of the section there [m]; 0 for the
    edge of a hole. `square`: the section has corners (a box), else it is round or oval. `closed`: the line comes round.
    """

    name: str
    points: "NDArray[np.float64]"
    along: "NDArray[np.float64]"
    up: "NDArray[np.float64]"
    half: "NDArray[np.float64]"
    square: bool = False
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Spot:
    """A named place on one part, in the part's own coordinates.

    `pose`: its origin in the middle of the place; of an OPENING or EYE z is the axis through it and x runs along the
    bar or round the rim; of a BAR x runs along the bar and z the way its reference face looks; of a FACE z looks
    outward; of a RING z is its axis. `opening` [m] across (0: none), `plate` [m] the metal round the opening or the
    thickness gripped.
    """

    name: str
    kind: SpotKind
    pose: Pose
    opening: float = 0.0
    plate: float = 0.0
    seat: Seat | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """One single thing of the set: `links 2` of three links. `pose` tells how it lies in its body; `mass` [kg].

    `centre` [m]: where it balances, in its own coordinates.
    """

    name: str
    piece: PieceResult
    body: int
    pose: Pose
    mass: float
    centre: Vec


@dataclass(frozen=True, slots=True)
class Body:
    """Parts that are rigid together: `parts` by number, all their `mass` [kg] (rivets too), and where they balance [m].

    `centre` is told in the body's own coordinates, which are those of its first part.
    """

    name: str
    parts: tuple[int, ...]
    mass: float
    centre: Vec


@dataclass(frozen=True, slots=True)
class Link:
    """Where two bodies hang loosely in one another: `first` and `second` are body numbers, `parts` the parts' numbers.

    The seats are told in their bodies' coordinates. `joint`: the job's line that asks for it.
    """

    first: int
    second: int
    parts: tuple[int, int]
    seats: tuple[Seat, Seat]
    spots: tuple[Spot, Spot]
    joint: JointSpec


@dataclass(frozen=True, slots=True)
class Pivot:
    """Two bodies on one rivet or pin: they turn about `axis` through `point` [m], in the first body's coordinates.

    `lies`: how the second body lies in the first one's coordinates as it is put together (shut, if it can be).
    """

    first: int
    second: int
    point: Vec
    axis: Vec
    joint: JointSpec
    lies: Pose = HERE


@dataclass(frozen=True, slots=True)
class Fixing:
    """One rivet, pin, screw, collar or wrap where it sits in its `body`, and its own `mass` [kg].

    `pose`: z is its axis, the metal it goes through lies from z = 0 to `grip` [m]. A collar's or a wrap's origin is the
    middle of the bundle, `across` (x) by `high` (y) [m].
    """

    joint: JointSpec
    body: int
    pose: Pose
    grip: float
    mass: float
    across: float = 0.0
    high: float = 0.0


@dataclass(frozen=True, slots=True)
class Held:
    """How the set is held: the `body` and `part` numbers, the place on it, and on what (wall, rail, hook, hand ...)."""

    body: int
    part: int
    spot: Spot
    on: str


@dataclass(frozen=True, slots=True)
class SetResult:
    """A set put together; `held` None where the job does not say how it hangs. `loose`: parts joined to nothing."""

    parts: tuple[Part, ...]
    bodies: tuple[Body, ...]
    links: tuple[Link, ...]
    pivots: tuple[Pivot, ...]
    held: Held | None
    loose: tuple[int, ...] = ()
    findings: tuple[Finding, ...] = ()
    fixings: tuple[Fixing, ...] = ()
