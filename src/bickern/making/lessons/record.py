"""A record: what really happened, beside what was foreseen for it and how that leans on each figure. SI units."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Size:
    """A size of the finished piece that can be measured: `asked` [m]; each metre of it `takes` so much stock [m]."""

    name: str
    asked: float
    takes: float


@dataclass(frozen=True, slots=True)
class Foreseen:
    """One thing that can be told afterwards: `kind` (a row of `kinds`, of an operation with its name), what was `said`.

    In metres, seconds, or plain numbers. `leans`: how its natural logarithm moves with each figure, on the figure's own
    scale.
    """

    kind: str
    said: float
    leans: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Foresight:
    """All that was foreseen for `made` copies of a piece, of which `before` were recorded earlier.

    `piece`: "" is the whole job. `stock`: its section in words; `area` [m2] and `density` [kg/m3] of it (0: no bar).
    `least` [m]: stock below which no metal is left for the piece as asked, nothing lost and no corner full. `hot`:
    whether anything is done in the fire. `figures`: where each figure stood, on its own scale.
    """

    job: str
    piece: str
    made: int
    before: int
    make: int
    stock: str
    area: float
    density: float
    least: float
    hot: bool
    sizes: tuple[Size, ...]
    foreseen: tuple[Foreseen, ...]
    figures: tuple[tuple[str, float], ...]

    def of(self, kind: str) -> float | None:
        """What was said of that kind; None where nothing was."""
        return next((one.said for one in self.foreseen if one.kind == kind), None)


@dataclass(frozen=True, slots=True)
class Told:
    """What the smith says afterwards; None is what was not told.

    Of each piece: `stock` cut for it and what was `left` of that [m], `heats`, `blows`, weight `weighed_before` and
    `weighed_after` [kg], sizes `reached` [m] by name, the bar in its `collar` [m]. Of all that were `made` together:
    `seconds` in all, and of single operations (`works`) those of the hands alone.
    """

    made: int = 1
    stock: float | None = None
    left: float | None = None
    heats: float | None = None
    seconds: float | None = None
    blows: float | None = None
    weighed_before: float | None = None
    weighed_after: float | None = None
    collar: float | None = None
    reached: tuple[tuple[str, float], ...] = ()
    works: tuple[tuple[str, float], ...] = ()
    remark: str = ""

    @property
    def used(self) -> float | None:
        """Stock [m] that went into one piece."""
        return None if self.stock is None else self.stock - (self.left or 0.0)

    @property
    def anything(self) -> bool:
        """Whether anything was told that could be learnt from, or is worth keeping."""
        return self != Told(made=self.made)


@dataclass(frozen=True, slots=True)
class Record:
    """What is kept: `number` in the day book (0: not kept yet), `when` (UTC, ISO 8601) and by `who`.

    `refused`: why nothing is learnt from it, by the name of the finding ("": it counts). `struck`: when, by whom and
    why it was taken out of all that counts, though it stays in the book (None: it was not).
    """

    told: Told
    foresight: Foresight
    when: str = ""
    who: str = ""
    refused: str = ""
    number: int = 0
    struck: "Strike | None" = None


@dataclass(frozen=True, slots=True)
class Strike:
    """A record is struck, by its `number`: it counts for nothing from here on. `because`: why, as it is written."""

    number: int
    when: str = ""
    who: str = ""
    because: str = ""


@dataclass(frozen=True, slots=True)
class Reset:
    """From here on a `figure` starts anew from its prior ("" all of them); what came before no longer speaks to it."""

    figure: str
    when: str = ""
    who: str = ""
    number: int = 0
