"""Joints: what is asked, and the metal each takes. (Fit in three dimensions is another room's work.)"""

from dataclasses import dataclass
from enum import StrEnum

from bickern.iron.section import Section
from bickern.measure.finding import NOWHERE, Finding, Where


class JointKind(StrEnum):
    """Ways to join that smiths name."""

    RING = "ring"
    RIVET = "rivet"
    COLLAR = "collar"
    TENON = "tenon"
    WRAP = "wrap"
    WELD = "weld"
    PIN = "pin"
    SCREW = "screw"


@dataclass(frozen=True, slots=True)
class JointSpec:
    """One joint: `size` [m] of rivet, pin or screw (or the collar's section), and the named places it goes through.

    `through` holds names such as "hood.lugs" or "arm.palm"; `ring` names the ring piece and which one ("links 2").
    An open hook that hangs on something is a ring too: `ring` names its bend ("hook 1.rail bend").
    `grip` [m]: thickness gripped, where it is told and not found from the pieces. Of a wrap, `number` counts the turns.
    """

    kind: JointKind
    through: tuple[str, ...]
    ring: str = ""
    size: float = 0.0
    section: Section | None = None
    grip: float | None = None
    number: int = 1
    where: Where = NOWHERE

    @property
    def hooked(self) -> bool:
        """Whether it is a hook hung on something: what joins is one bend of an open bar, not a whole ring."""
        return self.kind is JointKind.RING and "." in self.ring


@dataclass(frozen=True, slots=True)
class JointRules:
    """The shop's choices by name (rows with sources live in this room; those of a weld in `parts/weld`).

    `rivet_head`, in diameters, counts only where `rivet` is "shop's own". Learnt from the day book, and neutral without
    it: `collar_more` thicknesses are added to a collar, `weld_times` multiplies what a weld takes up.
    """

    rivet: str = "grip + 1 1/2 d"
    collar: str = "perimeter + 2 t"
    tenon: str = "grip + 1 d"
    rivet_head: float = 1.5
    weld: str = "one thickness"
    collar_more: float = 0.0
    weld_times: float = 1.0


@dataclass(frozen=True, slots=True)
class JointResult:
    """A joint reckoned: `metal` [m] is the length of rivet past its head, collar bar or wrap; `also` the other rules.

    `metal` is for one of `spec.number` (of a wrap: for all its turns), `mass` [kg] for all; a tenon, a weld, a ring and
    a pin drawn on a bar are metal of their pieces and a screw is bought, so these weigh 0 here. `grip` [m]: 0 where it
    is not known; of a collar or wrap it is the girth of the bundle.
    """

    spec: JointSpec
    metal: float
    grip: float
    mass: float
    says: str
    also: tuple[tuple[str, float, str], ...] = ()
    findings: tuple[Finding, ...] = ()
