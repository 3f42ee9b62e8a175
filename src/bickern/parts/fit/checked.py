"""What one bench of this room hands on: rows of the fit table, and findings."""

from dataclasses import dataclass

from bickern.measure.finding import Finding
from bickern.measure.units.words import Style
from bickern.parts.fit.result import FitRow
from bickern.parts.joint.spec import JointSpec


@dataclass(frozen=True, slots=True)
class Bench:
    """How to say it, and what hangs on this shop's wall: its drifts [m] (none: not told)."""

    style: Style
    drifts: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Checked:
    """Rows and findings, which add up."""

    rows: tuple[FitRow, ...] = ()
    findings: tuple[Finding, ...] = ()

    def __add__(self, other: "Checked") -> "Checked":
        return Checked((*self.rows, *other.rows), (*self.findings, *other.findings))


def finding_at(joint: JointSpec, finding: Finding) -> Finding:
    """The finding with its joint's place in the file."""
    return finding.at(joint.where)
