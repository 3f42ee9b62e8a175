"""What is asked when flat parts are to come out of sheets. Metres and radians."""

from dataclasses import dataclass

from bickern.geometry.polygon import Loop


@dataclass(frozen=True, slots=True)
class Part:
    """A flat part wanted `count` times: outline and holes [m]. `turns` [rad]: the only ways it may lie; None: any.

    Other parts may lie in its `cutouts`. Nothing is turned over.
    """

    key: str
    outline: Loop
    cutouts: tuple[Loop, ...] = ()
    count: int = 1
    turns: tuple[float, ...] | None = None


@dataclass(frozen=True, slots=True)
class Remnant:
    """One sheet of any outline, with holes and bites [m]; `cost` of cutting into it (>= 0)."""

    key: str
    outline: Loop
    cutouts: tuple[Loop, ...] = ()
    cost: float = 0.0


@dataclass(frozen=True, slots=True)
class Spacing:
    """Least `gap` from part to part and least `margin` from part to edge or hole of the sheet [m]."""

    gap: float = 0.0
    margin: float = 0.0
