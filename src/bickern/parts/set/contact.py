"""Where a part meets another that lies already."""

from dataclasses import dataclass

from bickern.geometry.pose import Pose, put
from bickern.geometry.space import ORIGIN, Vec
from bickern.parts.joint.spec import JointSpec
from bickern.parts.set.result import Spot, SpotKind
from bickern.parts.set.spots.bar import moved_spot
from bickern.parts.set.stacks import OPEN, Stack, fills

WHOLE = ("", "middle", "bottom", "rim", "edge", "top")
"""Names of a sheet's face that do not say where on it."""


@dataclass(frozen=True, slots=True)
class Contact:
    """Where a part meets another that lies already: `own` place on it, in its coordinates, `other` in the body's.

    `part`: the other's number. `outside`: the part is named before the other, so it lies on its outer side. `between`
    [m]: the metal of what lies between the two, and what they stand off. `balance` [m]: where the other part balances,
    in the body.
    """

    own: Spot
    other: Spot
    part: int
    joint: JointSpec
    outside: bool
    between: float
    balance: Vec = ORIGIN

    @property
    def axial(self) -> bool:
        """Whether a hole of each lies on one line."""
        return self.own.kind in OPEN and self.other.kind in OPEN

    @property
    def guessed(self) -> bool:
        """Whether a sheet meets it that does not say where: what is usual is taken for granted."""
        faces = [s for s in (self.own, self.other) if s.kind is SpotKind.FACE and not fills(self.joint, s)]
        return any(s.name in WHOLE for s in faces)

    @property
    def apart(self) -> float:
        """From the middle of the one's metal to the middle of the other's [m], faces touching."""
        return (self.own.plate + self.other.plate) / 2 + self.between


def contact_of(
    stack: Stack, own: int, other: int, pose: Pose, balance: Vec = ORIGIN, stands_off: float = 0.0
) -> Contact:
    """The contact of two places of one rivet; `pose` is how the other part lies, `balance` [m] where in itself.

    `stands_off` [m]: the gap between the two where they do not touch at the hole (`hollow`).
    """
    low, high = sorted((own, other))
    between = sum(at.spot.plate for at in stack.ats[low + 1 : high] if at.spot.kind in OPEN) + stands_off
    there = stack.ats[other]
    placed = moved_spot(there.spot, pose)
    return Contact(stack.ats[own].spot, placed, there.part, stack.joint, own < other, between, put(pose, balance))
