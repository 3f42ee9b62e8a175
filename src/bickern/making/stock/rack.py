"""What lies in the rack, as values. Metres; money is decimal."""

from dataclasses import dataclass

from bickern.geometry.polygon import Loop, area
from bickern.iron.section import Section
from bickern.measure.money import Money


@dataclass(frozen=True, slots=True)
class StockBar:
    """One bar in the rack. `id`: what is painted on its end ("B12"); "" until the rack has given it one.

    `steel`: what it is known to be ("S235JR", "mild", "EN45"); "" unknown. `coating`: what is on it, as told ("none",
    "galvanised"); "" not told. `place`: where it lies. `price`: what a bar like it costs to replace, whole. `offcut`:
    it is what was left of another, `of` that one's id. `version` counts its changes: who takes it must have seen this.
    """

    id: str
    section: Section
    length: float
    steel: str = ""
    coating: str = ""
    place: str = ""
    price: Money | None = None
    offcut: bool = False
    of: str = ""
    remark: str = ""
    version: int = 0


@dataclass(frozen=True, slots=True)
class StockSheet:
    """One sheet in the rack, of any outline with holes [m]; the rest as of a bar.

    `gauge`: its thickness as it was written. `grain` [rad]: the way it was rolled, from x; None: not told.
    """

    id: str
    thick: float
    outline: Loop
    cutouts: tuple[Loop, ...] = ()
    steel: str = ""
    coating: str = ""
    place: str = ""
    price: Money | None = None
    offcut: bool = False
    of: str = ""
    remark: str = ""
    gauge: str = ""
    grain: float | None = None
    version: int = 0

    @property
    def area(self) -> float:
        """What there is of it, its holes left out [m2]."""
        return abs(area(self.outline)) - sum(abs(area(hole)) for hole in self.cutouts)


Stock = StockBar | StockSheet
"""A piece of stock."""


@dataclass(frozen=True, slots=True)
class Rack:
    """All that lies there."""

    bars: tuple[StockBar, ...] = ()
    sheets: tuple[StockSheet, ...] = ()


@dataclass(frozen=True, slots=True)
class Use:
    """What is cut from one piece of stock: its id, the version seen, the cuts in words, and what is left of it.

    `left`: the drops that go back into the rack, without ids; what is not among them is scrap or in the pieces.
    """

    id: str
    version: int
    cuts: tuple[str, ...]
    left: tuple[Stock, ...] = ()


@dataclass(frozen=True, slots=True)
class Taking:
    """All that a plan takes out of the rack at once, and for which jobs."""

    uses: tuple[Use, ...]
    jobs: tuple[str, ...]
