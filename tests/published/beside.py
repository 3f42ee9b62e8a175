"""What others measured or printed, set beside what is reckoned here: no pass or fail, but how far apart the two lie."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Beside:
    """One row: what it is of, its unit, theirs and ours, and what is to be said of the two."""

    what: str
    unit: str
    theirs: float
    ours: float
    says: str = ""

    @property
    def apart(self) -> str:
        """Theirs over ours; of temperatures by how much theirs is higher."""
        if self.unit == "F":
            return f"{self.theirs - self.ours:+.0f} F"
        return f"{self.theirs / self.ours:.2f}"
