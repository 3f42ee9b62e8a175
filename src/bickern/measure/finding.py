"""Faults in the input, as values: said in the smith's words, with the place and what to try."""

from dataclasses import dataclass, replace
from enum import IntEnum


class Weight(IntEnum):
    """How much a finding matters: a note, a warning, or a stop (the piece cannot be reckoned or must not be made)."""

    NOTE = 1
    WARN = 2
    STOP = 3


@dataclass(frozen=True, slots=True)
class Where:
    """A place in the user's own file: file, line and column (both from 1; 0 = not known), and the path of keys."""

    file: str = ""
    line: int = 0
    column: int = 0
    path: str = ""

    def __str__(self) -> str:
        spot = ":".join(str(p) for p in (self.file, self.line, self.column) if p)
        return f"{spot} ({self.path})" if self.path and spot else spot or self.path


NOWHERE = Where()
"""For values that no file holds (defaults, one-off questions)."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault: `name` is a stable kebab-case key, `says` the fault in words, `try_this` what would do."""

    name: str
    says: str
    try_this: str = ""
    weight: Weight = Weight.STOP
    where: Where = NOWHERE

    def at(self, where: Where) -> "Finding":
        """The same finding with a place; a place already known is kept."""
        return self if self.where != NOWHERE else replace(self, where=where)

    @property
    def stops(self) -> bool:
        """Whether the work must not go on."""
        return self.weight is Weight.STOP


def stopping(findings: "tuple[Finding, ...] | list[Finding]") -> tuple[Finding, ...]:
    """Only those findings that stop the work."""
    return tuple(f for f in findings if f.stops)


def note(name: str, says: str, try_this: str = "", where: Where = NOWHERE) -> Finding:
    """A finding that only informs."""
    return Finding(name, says, try_this, Weight.NOTE, where)


def warn(name: str, says: str, try_this: str = "", where: Where = NOWHERE) -> Finding:
    """A finding to think about before lighting the fire."""
    return Finding(name, says, try_this, Weight.WARN, where)


def stop(name: str, says: str, try_this: str = "", where: Where = NOWHERE) -> Finding:
    """A finding that stops the work."""
    return Finding(name, says, try_this, Weight.STOP, where)
