"""A job as asked: what the text of a job file says once it is understood."""

from dataclasses import dataclass

from bickern.measure.finding import NOWHERE, Where
from bickern.measure.units.words import System
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.joint.spec import JointSpec
from bickern.parts.ring.spec import RingSpec
from bickern.parts.sheet.spec import SheetSpec

Spec = BarSpec | RingSpec | SheetSpec


@dataclass(frozen=True, slots=True)
class Hang:
    """How the set is held: from which named place, and on what."""

    place: str
    on: str = ""
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True)
class Job:
    """A job: `make` sets of these pieces. `use` holds words such as food, flame, outdoors, overhead load, child.

    `units` None: bare numbers are findings. `notes` are printed on the sheet as written; `first_made` names a
    piece to make first where the smith says so. `shop` is the path of a shop file, as written.
    """

    title: str
    units: System | None
    pieces: tuple[Spec, ...]
    joints: tuple[JointSpec, ...] = ()
    hang: Hang | None = None
    make: int = 1
    use: tuple[str, ...] = ()
    finish: str = ""
    what_for: str = ""
    skill: str = ""
    author: str = ""
    date: str = ""
    notes: tuple[str, ...] = ()
    shop: str = ""
    file: str = ""

    def piece(self, name: str) -> Spec | None:
        """The piece of that name."""
        return next((p for p in self.pieces if p.name == name), None)
