"""What is asked when cuts are to come off bars. Lengths in metres; a cost is a number of the asker's own unit."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cut:
    """A length wanted `count` times [m]; `key` is unlike all others."""

    key: str
    length: float
    count: int = 1


@dataclass(frozen=True, slots=True)
class Bar:
    """Bars of one length [m], `count` of them (None: as many as are bought); `cost` of taking one (>= 0)."""

    key: str
    length: float
    count: int | None = 1
    cost: float = 0.0


@dataclass(frozen=True, slots=True)
class Saw:
    """How bars are cut: `kerf` lost at each cut, `grip` at the end of each bar that cannot be cut into [m].

    A cut that ends on the bar's end (or on the grip where the grip is all that is left) still costs its kerf only where
    something is left behind it. `keep_from`: the shortest drop worth keeping [m], the grip counted in (0: none is
    kept); `drop_worth`: what a metre of such a drop takes off the cost.
    """

    kerf: float = 0.0
    grip: float = 0.0
    keep_from: float = 0.0
    drop_worth: float = 0.0
