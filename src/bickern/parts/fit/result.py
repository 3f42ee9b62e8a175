"""What is found of a joint: whether it goes together, with how much to spare, and how far it moves."""

from dataclasses import dataclass
from enum import StrEnum

from bickern.geometry.space import Vec
from bickern.measure.finding import Finding
from bickern.parts.joint.spec import JointSpec


class FitWord(StrEnum):
    """How a thing fits, the tolerance of hand work counted."""

    FREE = "free"
    SNUG = "snug"
    BINDS = "will bind"
    NO = "will not go"


@dataclass(frozen=True, slots=True)
class FitRow:
    """One check of a joint: `what` fits what ("ring through boss.hole"); `needed` and `has` [m], `margin` between them.

    `says`: one line in a smith's words, drift sizes in it ("9/16 drift: swings; 1/2: jams by 1/32"). `sizes`: drift
    or drill sizes tried [m] with their words.
    """

    joint: JointSpec
    what: str
    check: str
    word: FitWord
    needed: float
    has: float
    margin: float
    says: str
    sizes: tuple[tuple[float, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Swing:
    """How far one joint swings: from `low` to `high` [rad] about `axis` through `point` [m] (in the hanging set).

    0 is where it hangs. `low_touches`, `high_touches` name what it comes up against there ("" where it goes round).
    `clearance` [m]: the least room to anything else between the two ends, away from them, and `near` what that is to;
    `way` says about what it swings, in a smith's words.
    """

    what: str
    way: str
    point: Vec
    axis: Vec
    low: float
    high: float
    low_touches: str
    high_touches: str
    clearance: float
    near: str


@dataclass(frozen=True, slots=True)
class FitResult:
    """All checks of a set in the order of its joints, the order of closing (lines of words), and every finding."""

    rows: tuple[FitRow, ...]
    order: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
