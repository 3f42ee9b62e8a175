"""The bowl: a cap of a ball raised from a disc of the same area."""

import math
from dataclasses import dataclass

from bickern.geometry.develop.pattern import Development, Edge, Facing
from bickern.geometry.develop.rolling import DishRoll
from bickern.geometry.polygon import disc
from bickern.measure.finding import stop
from bickern.measure.units.words import Read


@dataclass(frozen=True, slots=True)
class CapSizes:
    """A cap of a ball [m, m2, m3]: radius `ball`, radius `disc` of the disc of equal area, `area`, `volume` held."""

    ball: float
    disc: float
    area: float
    volume: float


def cap_sizes(rim: float, depth: float) -> CapSizes:
    """Sizes of a cap with `rim` radius a and `depth` h > 0 [m]. Exact mathematics (cap of a sphere).

    ball = (a^2 + h^2) / 2h; area = pi (a^2 + h^2), so the disc is sqrt(a^2 + h^2); volume = pi h (3 a^2 + h^2) / 6.
    """
    square = rim * rim + depth * depth
    volume = math.pi * depth * (3 * rim * rim + depth * depth) / 6
    return CapSizes(square / (2 * depth), math.sqrt(square), math.pi * square, volume)


def bowl(rim: float, depth: float) -> Read[Development]:
    """A dished bowl, `rim` radius and `depth` [m]: the disc of equal area; deeper than a half ball closes in again."""
    if not (rim > 0 and depth > 0 and math.isfinite(rim + depth)):
        return Read(None, (stop("no-bowl", "a bowl needs a rim and a depth greater than nothing"),))
    sizes = cap_sizes(rim, depth)
    edges = (Edge("rim", disc(sizes.disc).segs),)
    return Read(Development(edges, DishRoll(sizes.ball), facing=Facing.INSIDE))
