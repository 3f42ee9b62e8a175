"""How a set hangs."""

from dataclasses import dataclass

from bickern.geometry.pose import Pose
from bickern.geometry.space import Vec
from bickern.measure.finding import Finding


@dataclass(frozen=True, slots=True)
class Tilt:
    """How far `of` (a part, or a side of it) hangs off plumb or off level: `angle` [rad], at most a right angle.

    `off` is "plumb" or "level". `toward` says which side is low or which way it leans, in words. `least`, `most` [rad]:
    the band in which friction can hold it (signed: below nothing it leans the other way). `part`: number in the set.
    """

    part: int
    of: str
    off: str
    angle: float
    toward: str
    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Touch:
    """Where a hung body bears: `point` [m] in the world, the bodies' numbers (upper -1: what the set is held by)."""

    upper: int
    lower: int
    point: Vec
    upper_name: str
    lower_name: str


@dataclass(frozen=True, slots=True)
class Change:
    """What happens if something is made otherwise: `says` what ("one ring more"), and the tilts that follow.

    `drop` [m]: how much lower the lowest body comes to hang (below nothing: higher).
    """

    says: str
    tilts: tuple[Tilt, ...]
    drop: float = 0.0


@dataclass(frozen=True, slots=True)
class HangResult:
    """A set at rest: `poses` of its bodies in the world (z up), where they touch, how far off plumb they are.

    `friction`: the coefficient of the band. `changes`: the same set made or held otherwise. `drop` [m]: from where the
    set is held to its lowest body's balance point. `how`: lines of words that say what was taken for granted.
    """

    poses: tuple[Pose, ...]
    touches: tuple[Touch, ...]
    tilts: tuple[Tilt, ...]
    changes: tuple[Change, ...]
    friction: float
    drop: float
    how: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
