"""An answer to one question: rows of words to show, and what was found on the way."""

from dataclasses import dataclass

from bickern.measure.finding import Finding
from bickern.measure.units.words import Read

Row = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Answer:
    """A title, rows (what, how much), and findings; no rows where it could not be answered."""

    title: str
    rows: tuple[Row, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def stops(self) -> bool:
        """Whether there is no answer to work with."""
        return any(f.stops for f in self.findings)


@dataclass(frozen=True, slots=True)
class Inputs:
    """Things read from what was typed: `values` in order (None where unreadable), with all findings."""

    values: tuple[object, ...]
    findings: tuple[Finding, ...]

    @property
    def ok(self) -> bool:
        """Whether everything could be read."""
        return all(v is not None for v in self.values) and not any(f.stops for f in self.findings)


def gathered(*reads: Read[object]) -> Inputs:
    """Several reads as one, every fault kept."""
    return Inputs(tuple(r.value for r in reads), tuple(f for r in reads for f in r.findings))
