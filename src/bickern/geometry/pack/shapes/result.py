"""What lies where on which sheet."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Laid:
    """One copy of a part, turned by `turn` [rad] about its own origin, then shifted by `x`, `y` [m]."""

    part: str
    remnant: str
    turn: float
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Nest:
    """Parts laid on sheets, every one of them checked exactly. `short`: parts that found no place, with how many.

    `cost`: of the sheets cut into. `cut_short`: the search was stopped before it was through. `why`: what else is to
    be said of how it was found ("" nothing). No nest is called the best one: nobody can prove that.
    """

    laid: tuple[Laid, ...]
    short: tuple[tuple[str, int], ...]
    cost: float
    cut_short: bool = False
    why: str = ""
