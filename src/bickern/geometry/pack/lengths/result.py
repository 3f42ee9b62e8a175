"""Which cuts come off which bar."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Filled:
    """One bar (by key): its cuts (by key, longest first), and what is left of it [m], its grip counted in."""

    bar: str
    cuts: tuple[str, ...]
    drop: float


@dataclass(frozen=True, slots=True)
class LengthPlan:
    """Cuts shared out over bars. Few cuts short come before low cost.

    `short`: cuts that no bar is left for, with how many. `cost`: of the bars taken, less the worth of kept drops.
    `bound`: no plan that leaves as few short can cost less. `proven`: nothing better exists: none with fewer short,
    none as short that costs less. `why`: in words what stands against a proof ("" where there is one).
    """

    filled: tuple[Filled, ...]
    short: tuple[tuple[str, int], ...]
    cost: float
    bound: float
    proven: bool
    why: str = ""
