"""What is to be printed: a job reckoned, as the printer gets it."""

from dataclasses import dataclass

from bickern.book.job.asked import Job
from bickern.geometry.solid.solid import Named
from bickern.making.heats.result import Plan
from bickern.making.quote.result import Quote
from bickern.making.shop import Shop
from bickern.making.work.caution import Caution
from bickern.measure.finding import Finding
from bickern.parts.fit.result import FitResult, Swing
from bickern.parts.hang.result import HangResult
from bickern.parts.joint.spec import JointResult
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.result import SetResult

__all__ = ["Copy", "PieceResult"]

NOT_JOINED = FitResult(())
"""The fit of a job without joints."""


@dataclass(frozen=True, slots=True)
class Copy:
    """All that the paper needs: the job, the shop, pieces reckoned (in the job's order), joints, cautions and findings.

    `mass` [kg] of one whole set. `not_validated`: lines that say what no print has confirmed. `printed` is the date to
    print (the desk reads the clock), `version` of bickern.

    `fit`: whether the joints go together. What takes longer is there only in a copy that has been put together, and
    only where nothing stops the job: the `set`, its `swings`, its `solids` as they hang or stand in the world (z up),
    those of them that are `shown` on the sheet, a row for each figure, each piece as it is `made`, in its own
    coordinates, and, where the job says how it is held, how it hangs. `plan`: the order of work, heat by heat, where
    it was asked for; the pieces are then reckoned with what those heats take. `quotes`: what it costs for several
    counts of sets, where that was asked for: whole for the shop; a customer's sheet prints the offers of it alone.
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
    fit: FitResult = NOT_JOINED
    set: SetResult | None = None
    swings: tuple[Swing, ...] = ()
    hang: HangResult | None = None
    solids: tuple[Named, ...] = ()
    shown: tuple[tuple[Named, ...], ...] = ()
    made: tuple[Named, ...] = ()
    plan: Plan | None = None
    quotes: tuple[Quote, ...] = ()
