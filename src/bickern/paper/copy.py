"""What is to be printed: a job reckoned, as the printer gets it."""

from dataclasses import dataclass

from bickern.book.job.asked import Job
from bickern.making.shop import Shop
from bickern.making.work.caution import Caution
from bickern.measure.finding import Finding
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult

PieceResult = BarResult | RingResult | SheetResult


@dataclass(frozen=True, slots=True)
class Copy:
    """All that the paper needs: the job, the shop, pieces reckoned (in the job's order), joints, cautions and findings.

    `mass` [kg] of one whole set. `not_validated`: lines that say what no print has confirmed. `printed` is the date to
    print (the desk reads the clock), `version` of bickern.
    """

    job: Job
    shop: Shop
    pieces: tuple[PieceResult, ...]
    joints: tuple[JointResult, ...]
    cautions: tuple[Caution, ...]
    findings: tuple[Finding, ...]
    mass: float
    not_validated: tuple[str, ...] = ()
    printed: str = ""
    version: str = ""
