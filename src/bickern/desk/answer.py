"""An answer to one question: rows of words to show, the same as numbers, and what was found on the way."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from bickern.measure.figure import Figure
from bickern.measure.finding import Finding
from bickern.measure.units.words import Read

Row = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Answer:
    """A title, rows (what, how much), the same as numbers, and findings; no rows where it could not be answered.

    `figures` are not rounded to any tape: they are what a printed figure is held against. Some have no row of words,
    and a row of words that is no number has no figure.
    """

    title: str
    rows: tuple[Row, ...] = ()
    findings: tuple[Finding, ...] = ()
    figures: tuple[Figure, ...] = ()

    @property
    def stops(self) -> bool:
        """Whether there is no answer to work with."""
        return any(f.stops for f in self.findings)

    def figure(self, name: str) -> Figure | None:
        """The number of that name; None where the answer has none."""
        return next((f for f in self.figures if f.name == name), None)


@dataclass(frozen=True, slots=True)
class Inputs:
    """Things read from what was typed: `values` in order (None where unreadable), with all findings."""

    values: tuple[object, ...]
    findings: tuple[Finding, ...]

    @property
    def ok(self) -> bool:
        """Whether everything could be read."""
        return all(v is not None for v in self.values) and not any(f.stops for f in self.findings)

    def number(self, index: int) -> float:
        """What was read at that place, where it is a number (a fault in us otherwise)."""
        value = self.values[index]
        assert isinstance(value, int | float)
        return float(value)


def gathered(*reads: Read[object]) -> Inputs:
    """Several reads as one, every fault kept."""
    return Inputs(tuple(r.value for r in reads), tuple(f for r in reads for f in r.findings))


def unread(title: str, read: Inputs, *more: Finding) -> Answer:
    """No answer: what was typed could not be read."""
    return Answer(title, (), (*read.findings, *more))


def with_findings(answer: Answer, found: Iterable[Finding]) -> Answer:
    """The same answer with more findings, each told once."""
    return replace(answer, findings=tuple(dict.fromkeys((*answer.findings, *found))))
